#include "record/kit/kit_json.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "picture/input_error.h"
#include "picture/text_line.h"
#include "record/json_numbers.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

// What a text of the schema holds; anything wrong in it is one line.
template <typename Read>
void read_object(const std::string& text, const char* schema, const char* what, Read read) {
    try {
        const Json json = Json::parse(text);
        const std::string found = json.at("schema").get<std::string>();
        if (found != schema)
            throw InputError(fmt::format("{} is of '{}', and this program reads '{}'; update the program",
                                         what, one_line(found, 60), schema));
        read(json);
    } catch (const nlohmann::json::exception& error) {
        throw InputError(
            fmt::format("{} in the store is damaged ({}); 'tonemend job restore' brings a backup back", what,
                        one_line(error.what(), 100)));
    }
}

Json look_json(const ReadLook& read) {
    Json json{{"ground", lab_json(read.look.ground)}};
    if (!read.look.plain()) {
        json["figure"] = lab_json(read.look.figure);
        json["figure_share"] = rounded(read.look.figure_share);
    }
    json["u"] = rounded(read.u);
    return json;
}

Lab lab_of_json(const Json& json) {
    return {json.at(0).get<double>(), json.at(1).get<double>(), json.at(2).get<double>()};
}

ReadLook read_look(const Json& json) {
    ReadLook read;
    read.look = plain_look(lab_of_json(json.at("ground")));
    if (json.contains("figure")) {
        read.look.figure = lab_of_json(json.at("figure"));
        read.look.figure_share = json.at("figure_share").get<double>();
    }
    read.u = json.at("u").get<double>();
    const double share = read.look.figure_share;
    if (!can_be_seen(read.look.ground) || !can_be_seen(read.look.figure) || !(share >= 0 && share <= 1) ||
        !(read.u > 0 && read.u <= 100))
        throw InputError(
            "the board in the store holds a colour that cannot be; 'tonemend job restore' brings a backup "
            "back");
    return read;
}

Json jar_json(const KitJar& jar) {
    return {{"name", jar.name},
            {"kind", std::string(jar.facts().name)},
            {"carrier", jar.carrier},
            {"least_thinner", jar.least_thinner},
            {"most_thinner", jar.most_thinner},
            {"dry_minutes", jar.dry_minutes},
            {"hue", jar.hue ? Json(std::string(name(*jar.hue))) : Json(nullptr)},
            {"note", jar.note}};
}

KitJar read_jar(const Json& json) {
    KitJar jar;
    jar.name = json.at("name").get<std::string>();
    jar.kind = parse_kit_kind(json.at("kind").get<std::string>());
    jar.carrier = json.at("carrier").get<std::string>();
    jar.least_thinner = json.at("least_thinner").get<double>();
    jar.most_thinner = json.at("most_thinner").get<double>();
    jar.dry_minutes = json.at("dry_minutes").get<double>();
    if (json.at("hue").is_string()) jar.hue = find_hue_word(json.at("hue").get<std::string>());
    jar.note = json.at("note").get<std::string>();
    return jar;
}

Json strip_json(const BoardStrip& strip) {
    Json coats = Json::array(), readings = Json::array();
    for (const StripCoat& coat : strip.coats) coats.push_back({{"jar", coat.jar}, {"thinner", coat.thinner}});
    for (const StripReading& reading : strip.readings) {
        Json json{{"coats", reading.coats},
                  {"finish", reading.finish},
                  {"light", reading.light},
                  {"taken", reading.taken}};
        json.update(look_json(reading.look));
        readings.push_back(std::move(json));
    }
    return {{"name", strip.name}, {"coats", std::move(coats)}, {"readings", std::move(readings)}};
}

BoardStrip read_strip(const Json& json) {
    BoardStrip strip;
    strip.name = json.at("name").get<std::string>();
    for (const Json& coat : json.at("coats")) {
        strip.coats.push_back({coat.at("jar").get<std::string>(), coat.at("thinner").get<double>()});
        if (!(strip.coats.back().thinner >= 0 && strip.coats.back().thinner <= 100))
            throw InputError(
                "the board in the store holds a thinning that cannot be; 'tonemend job restore' brings "
                "a backup back");
    }
    for (const Json& reading : json.at("readings"))
        strip.readings.push_back({reading.at("coats").get<int>(), reading.at("finish").get<std::string>(),
                                  reading.at("light").get<std::string>(),
                                  reading.at("taken").get<std::string>(), read_look(reading)});
    return strip;
}

std::string whole_text(const Json& json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

std::string kit_text(const Kit& kit) {
    Json jars = Json::array();
    for (const KitJar& jar : kit.jars) jars.push_back(jar_json(jar));
    return whole_text({{"schema", "tonemend.kit/1"}, {"name", kit.name}, {"colourants", std::move(jars)}});
}

Kit kit_of_text(const std::string& text) {
    Kit kit;
    read_object(text, "tonemend.kit/1", "the kit", [&](const Json& json) {
        kit.name = json.at("name").get<std::string>();
        for (const Json& jar : json.at("colourants")) add_jar(kit, read_jar(jar));
    });
    return kit;
}

std::string board_text(const SampleBoard& board) {
    Json strips = Json::array();
    for (const BoardStrip& strip : board.strips) strips.push_back(strip_json(strip));
    return whole_text({{"schema", "tonemend.board/1"}, {"strips", std::move(strips)}});
}

void read_board_text(const std::string& text, SampleBoard& board) {
    read_object(text, "tonemend.board/1", "the board", [&](const Json& json) {
        std::vector<BoardStrip> strips;
        for (const Json& strip : json.at("strips")) strips.push_back(read_strip(strip));
        board.strips = std::move(strips);
    });
}

}  // namespace tonemend
