#include "record/report/reading_facts.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

namespace tonemend {
namespace {

using FactsJson = nlohmann::json;

// Null where there is no such part.
const FactsJson& part_of(const FactsJson& json, const char* key) {
    static const FactsJson nothing;
    if (!json.is_object()) return nothing;
    const auto found = json.find(key);
    return found == json.end() ? nothing : *found;
}

std::string text_of(const FactsJson& json, const char* key) {
    const FactsJson& part = part_of(json, key);
    return part.is_string() ? part.get<std::string>() : std::string();
}

std::optional<double> number_of(const FactsJson& json) {
    // Far beyond any colour: damaged.
    if (!json.is_number() || !(std::abs(json.get<double>()) < 1e6)) return std::nullopt;
    return json.get<double>();
}

std::optional<std::array<double, 3>> three_of(const FactsJson& json) {
    if (!json.is_array() || json.size() != 3) return std::nullopt;
    std::array<double, 3> three{};
    for (std::size_t i = 0; i < 3; ++i) {
        const auto number = number_of(json[i]);
        if (!number) return std::nullopt;
        three[i] = *number;
    }
    return three;
}

bool is_true(const FactsJson& json) {
    return json.is_boolean() && json.get<bool>();
}

FactsJson parsed(const std::string& text, const char* schema) {
    FactsJson json = FactsJson::parse(text, nullptr, false);
    return text_of(json, "schema") == schema ? json : FactsJson();
}

bool has_unfit(const FactsJson& comparison) {
    for (const FactsJson& warning : part_of(comparison, "warnings"))
        if (is_true(part_of(warning, "unfit"))) return true;
    return false;
}

LightFacts light_facts(const FactsJson& light) {
    LightFacts facts;
    facts.name = text_of(light, "name");
    const std::string stated = text_of(light, "stated");
    if (!stated.empty() && stated != facts.name)
        facts.name = facts.name.empty() ? stated : fmt::format("{} ({})", facts.name, stated);
    const FactsJson& comparison = part_of(light, "comparison");
    const FactsJson& difference = part_of(comparison, "difference");
    facts.de2000 = number_of(part_of(difference, "de2000"));
    facts.de2000_u95 = number_of(part_of(difference, "de2000_u95"));
    facts.verdict = has_unfit(comparison) ? "unfit" : text_of(comparison, "verdict");
    return facts;
}

void add_change(const FactsJson& change, LightFacts& facts) {
    const FactsJson& index = part_of(change, "metamerism_index");
    facts.index = number_of(part_of(index, "de2000"));
    facts.index_u95 = number_of(part_of(index, "de2000_u95"));
    facts.parting = number_of(part_of(change, "parting"));
    facts.parting_u95 = number_of(part_of(change, "parting_u95"));
    facts.change_verdict = text_of(change, "verdict");
    facts.words = text_of(change, "words");
}

}  // namespace

ReadingFacts reading_facts(const std::string& text) {
    const FactsJson json = parsed(text, "tonemend.comparison/1");
    ReadingFacts facts;
    facts.whole = !json.is_null();
    facts.original_u95 = three_of(part_of(part_of(json, "original"), "lab_u95"));
    facts.repair_u95 = three_of(part_of(part_of(json, "repair"), "lab_u95"));
    for (const FactsJson& warning : part_of(json, "warnings"))
        if (std::string said = text_of(warning, "text"); !said.empty())
            facts.warnings.push_back({std::move(said), is_true(part_of(warning, "unfit"))});
    const FactsJson& light = part_of(json, "light");
    facts.card = text_of(light, "card");
    facts.tone_curve = text_of(light, "tone_curve");
    facts.characterisation = text_of(light, "characterisation");
    facts.flat_field = text_of(light, "flat_field");
    for (const FactsJson& picture : part_of(part_of(light, "further_lights"), "pictures"))
        if (picture.is_string()) facts.further_lights.push_back(picture.get<std::string>());
    const FactsJson& frame = part_of(json, "frame");
    const FactsJson& stated = part_of(frame.is_object() ? frame : json, "stated");
    facts.stated_light = text_of(stated, "light");
    facts.colourants = text_of(stated, "colourants");
    facts.picture_encoding = text_of(part_of(frame, "encoding"), "description");
    return facts;
}

PairFacts pair_facts(const std::string& text) {
    const FactsJson json = parsed(text, "tonemend.second-light/1");
    PairFacts facts;
    facts.verdict = text_of(json, "verdict");
    for (const FactsJson& light : part_of(json, "lights")) facts.lights.push_back(light_facts(light));
    const FactsJson& changes = part_of(json, "changes");
    for (std::size_t i = 0; changes.is_array() && i < changes.size() && i + 1 < facts.lights.size(); ++i)
        add_change(changes[i], facts.lights[i + 1]);
    return facts;
}

PairChange pair_change(const std::string& text) {
    const FactsJson json = parsed(text, "tonemend.before-after/1");
    const auto number = [&](const char* key) { return number_of(part_of(json, key)).value_or(0); };
    return {static_cast<int>(number("before")), static_cast<int>(number("after")), number("gain")};
}

}  // namespace tonemend
