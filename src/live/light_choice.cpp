#include "live/light_choice.h"

#include <algorithm>

namespace tonemend {
namespace {

const LightChoice* find_choice(const std::string& light) {
    return std::find_if(light_choices.begin(), light_choices.end(),
                        [&](const LightChoice& choice) { return choice.light == light; });
}

}  // namespace

std::string light_after(const std::string& light) {
    const LightChoice* const found = find_choice(light);
    const bool last = found == light_choices.end() || found + 1 == light_choices.end();
    return std::string(last ? light_choices.front().light : (found + 1)->light);
}

ControlWords light_words(const std::string& light) {
    const LightChoice* const found = find_choice(light);
    if (found == light_choices.end()) return {light, light.substr(light.find(':') + 1)};
    return {std::string(found->whole), std::string(found->brief)};
}

RepairColourants next(RepairColourants colourants) {
    return static_cast<RepairColourants>((static_cast<std::size_t>(colourants) + 1) %
                                         repair_colourants_count);
}

ControlWords colourants_words(RepairColourants colourants) {
    switch (colourants) {
        case RepairColourants::same:
            return {"same colours", "same"};
        case RepairColourants::earth:
            return {"earth colours", "earths"};
        case RepairColourants::other:
            return {"other colours", "other"};
    }
    return {};
}

}  // namespace tonemend
