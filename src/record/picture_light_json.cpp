#include "record/picture_light_json.h"

#include <nlohmann/json.hpp>

namespace tonemend {

nlohmann::ordered_json picture_light_json(const PictureLight& light) {
    nlohmann::ordered_json json{{"white_xyz", {light.white.X, light.white.Y, light.white.Z}},
                                {"exposure", light.exposure},
                                {"raw", light.raw},
                                {"balance_automatic", light.balance_automatic}};
    if (light.set_exposure) json["set_exposure"] = *light.set_exposure;
    return json;
}

PictureLight to_picture_light(const JsonPart& json) {
    constexpr double most = 1e12;
    PictureLight light;
    const auto [X, Y, Z] = json.at("white_xyz").numbers<3>(-100, 100);
    light.white = {X, Y, Z};
    light.exposure = json.at("exposure").number(-most, most);
    light.raw = json.at("raw").flag();
    light.balance_automatic = json.at("balance_automatic").flag();
    if (const auto set = json.find("set_exposure")) light.set_exposure = set->number(0, most);
    return light;
}

}  // namespace tonemend
