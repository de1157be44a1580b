#include "record/gloss_json.h"

#include <nlohmann/json.hpp>

#include "record/comparison_json.h"
#include "record/json_numbers.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

double percent(double share) {
    return rounded(100 * share);
}

Json gloss_json(const GlossSplit& split, double shimmer_de2000) {
    Json by_picture = Json::array();
    for (const double gloss : split.by_picture) by_picture.push_back(percent(gloss));
    return {{"gloss_percent", percent(split.gloss)},
            {"gloss_u95", percent(1.96 * split.gloss_u)},
            {"gloss_by_picture", by_picture},
            {"shimmer_percent", percent(split.shimmer)},
            {"shimmer_u95", percent(split.shimmer_u95)},
            {"shimmer_de2000", rounded(shimmer_de2000)}};
}

}  // namespace

Json to_json(const std::vector<LampPosition>& positions, const GlossResult& result) {
    Json pictures = Json::array();
    for (const LampPosition& position : positions) pictures.push_back(position.frame->name);
    const Difference& alone = result.with_gloss.difference;
    return {{"schema", "tonemend.gloss/1"},
            {"pictures", pictures},
            {"original", gloss_json(result.original, result.original_shimmer_de2000)},
            {"repair", gloss_json(result.repair, result.repair_shimmer_de2000)},
            {"sheen",
             {{"verdict", name(result.sheen.verdict)},
              {"difference_percent", percent(result.sheen.difference)},
              {"difference_u95", percent(result.sheen.u95)},
              {"tolerance_percent", percent(result.sheen.tolerance)},
              {"text", say_sheen(result.sheen)}}},
            {"figure", {{"verdict", name(result.figure)}, {"text", say_figure(result.figure)}}},
            {"with_gloss", {{"de2000", rounded(alone.de2000)}, {"de2000_u95", rounded(alone.de2000_u95)}}},
            {"shift_px", rounded(result.shift_px)},
            {"comparison", to_json(positions.front().calibration, result.without_gloss)}};
}

}  // namespace tonemend
