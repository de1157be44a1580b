#include "calibrate/keep/flat_field_json.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "calibrate/flat/light_surface.h"
#include "calibrate/keep/capture_facts_json.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char *sheet_word = "grey-sheet", *places_word = "card-places";
constexpr int longest_side = 100'000;

[[noreturn]] void refuse_field() {
    throw InputError("its flat field is damaged; take the flat picture again");
}

double limited(const Json& json, double low, double high) {
    const double value = json.get<double>();
    // Written so that what is not a number is refused too.
    if (!(value >= low && value <= high)) refuse_field();
    return value;
}

int whole(const Json& json, int low, int high) {
    return static_cast<int>(std::lround(limited(json, low, high)));
}

std::vector<double> numbers(const Json& json, std::size_t count, double largest) {
    if (!json.is_array() || json.size() != count) refuse_field();
    std::vector<double> values;
    for (const Json& value : json) values.push_back(limited(value, -largest, largest));
    return values;
}

FlatField read(const Json& json) {
    FlatField field;
    const auto source = json.at("source").get<std::string>();
    if (source != sheet_word && source != places_word) refuse_field();
    field.source = source == sheet_word ? FlatSource::grey_sheet : FlatSource::card_places;
    field.width = whole(json.at("width"), 1, longest_side);
    field.height = whole(json.at("height"), 1, longest_side);
    field.places = whole(json.at("places"), 1, 1000);
    field.degree = whole(json.at("degree"), 1, most_surface_degree);
    const std::size_t count = SurfaceTerms(field.width, field.height, field.degree).count();
    if (json.at("terms").size() != 3) refuse_field();
    for (std::size_t c = 0; c < 3; ++c) field.terms[c] = numbers(json.at("terms").at(c), count, 1);
    if (!json.at("doubt").empty()) field.doubt = numbers(json.at("doubt"), count * (count + 1) / 2, 1);
    field.misfit = limited(json.at("misfit"), 0, 1);
    field.colour_share = limited(json.at("colour_share"), 0, 100);
    field.residual = limited(json.at("residual"), 0, 1);
    field.middle = {limited(json.at("middle").at(0), -longest_side, longest_side),
                    limited(json.at("middle").at(1), -longest_side, longest_side)};
    field.encoding = one_line(json.at("encoding").get<std::string>(), 200);
    field.facts = to_facts(JsonPart(json.at("facts"), "facts"));
    if (json.contains("card_light")) field.card_light = limited(json.at("card_light"), 1e-12, 1e12);
    return field;
}

}  // namespace

Json flat_field_json(const FlatField& field) {
    Json json{{"source", field.source == FlatSource::grey_sheet ? sheet_word : places_word},
              {"width", field.width},
              {"height", field.height},
              {"places", field.places},
              {"degree", field.degree},
              {"terms", field.terms},
              {"doubt", field.doubt},
              {"misfit", field.misfit},
              {"colour_share", field.colour_share},
              {"residual", field.residual},
              {"middle", {field.middle.x, field.middle.y}},
              {"encoding", field.encoding},
              {"facts", facts_json(field.facts)}};
    if (field.card_light) json["card_light"] = *field.card_light;
    return json;
}

FlatField to_flat_field(const Json& json) {
    try {
        return read(json);
    } catch (const Json::exception&) {
        refuse_field();
    }
}

}  // namespace tonemend
