#include <nlohmann/json.hpp>

#include "practice/truth.h"

namespace tonemend {

namespace {

// Keys in the order of writing, for people who read the file.
using Json = nlohmann::ordered_json;

Json to_json(const Lab& lab) {
    return {lab.L, lab.a, lab.b};
}
Json to_json(const WhitePoint& white) {
    return {white.X, white.Y, white.Z};
}

Json to_json(const Quad& quad) {
    Json json = Json::array();
    for (const Point& point : quad) json.push_back({point.x, point.y});
    return json;
}

Json to_json(const Recipe& recipe) {
    Json steps = Json::array();
    for (const RecipeStep& step : recipe.steps)
        steps.push_back({{"colourant", step.colourant->name},
                         {"amount", step.amount},
                         {"grit", step.application.grit},
                         {"coats", step.application.coats},
                         {"dilution", step.application.dilution}});
    return {{"steps", steps}, {"finish", recipe.finish == Finish::clear_coat ? "clear coat" : "raw"}};
}

Json to_json(const RegionTruth& truth, const BoardSide& side) {
    const PixelRect& r = truth.region;
    Json json{{"region", {r.x, r.y, r.width, r.height}},
              {"lab", to_json(truth.lab)},
              {"lab_wood", to_json(truth.lab_wood)},
              {"ground", to_json(truth.ground)},
              {"figure", truth.figure ? to_json(*truth.figure) : Json()},
              {"figure_share", truth.figure_share},
              {"gloss", side.gloss},
              {"recipe", to_json(side.recipe)}};
    if (side.shimmer > 0) json["shimmer"] = side.shimmer;
    return json;
}

const char* name_of(PairKind kind) {
    switch (kind) {
        case PairKind::same_colourant:
            return "same colourant";
        case PairKind::earth:
            return "earth";
        case PairKind::other:
            return "other";
    }
    return "";
}

Json card_json(const PracticeScene& scene) {
    if (!scene.card) return {};
    return {{"name", scene.card->card.name},
            {"frame", scene.card->frame ? Json(scene.card->frame->name) : Json()},
            {"corners", to_json(scene.card->corners)},
            {"sheet", to_json(scene.card->sheet)},
            {"rotation", scene.card->rotation},
            {"tilt", scene.card->tilt}};
}

}  // namespace

std::string truth_json(const PracticeScene& scene, const Truth& truth) {
    const auto& temperature = scene.lamp.colour_temperature;
    const Json json{{"schema", "tonemend.practice-truth/1"},
                    {"seed", scene.options.seed},
                    {"picture", {{"width", scene.options.width}, {"height", scene.options.height}}},
                    {"original", to_json(truth.original, scene.original)},
                    {"repair", to_json(truth.repair, scene.repair)},
                    {"de2000", truth.de2000},
                    {"de2000_wood", truth.de2000_wood},
                    {"pair", name_of(scene.options.pair)},
                    {"wood",
                     {{"name", scene.wood.name},
                      {"figure_share", scene.grain.figure_share},
                      {"pore_share", scene.grain.pore_share},
                      {"along", scene.grain.along},
                      {"across", scene.grain.across},
                      {"streaks", scene.grain.streaks}}},
                    {"card", card_json(scene)},
                    {"lamp",
                     {{"name", scene.lamp.name},
                      {"cct", temperature ? Json(*temperature) : Json()},
                      {"white_xyz", to_json(scene.lamp.white)},
                      {"fall_off", scene.light.loss}}},
                    {"camera",
                     {{"number", scene.camera.number},
                      {"exposure", scene.exposure},
                      {"black_level", scene.black_level},
                      {"s_curve", scene.s_curve},
                      {"blur", scene.blur},
                      {"noise", scene.options.noise}}}};
    return json.dump(2) + "\n";
}

}  // namespace tonemend
