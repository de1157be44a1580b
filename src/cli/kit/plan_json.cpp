#include "cli/kit/plan_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "record/comparison_json.h"
#include "record/json_numbers.h"
#include "record/kit/kit_words.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

Json look_json(const WoodLook& look) {
    return {{"lab", lab_json(whole_of(look))},
            {"ground", lab_json(look.ground)},
            {"figure", lab_json(look.figure)},
            {"figure_share", rounded(look.figure_share)}};
}

Json u95_json(const LookForecast& forecast) {
    return numbers_json(forecast.whole_u95());
}

Json coats_json(const std::vector<AppliedCoat>& coats, const AreaPlan& plan, double millilitres) {
    Json list = Json::array();
    for (const AppliedCoat& coat : coats) {
        const KitJar& jar = jar_of(plan, coat);
        list.push_back({{"colourant", jar.name},
                        {"kind", std::string(jar.facts().name)},
                        {"concentration", rounded(coat.concentration)},
                        {"millilitres", rounded(millilitres * coat.concentration)}});
    }
    return list;
}

Json step_json(const ScheduleStep& step, const AreaPlan& plan, double millilitres) {
    const CoatMove& move = step.move;
    double colourants = 0;
    for (const AppliedCoat& coat : move.coats) colourants += coat.concentration;
    const KitJar& jar = plan.kit.jars[step.jars.front()];
    return {{"coats", coats_json(move.coats, plan, millilitres)},
            {"thinner", {{"name", jar.carrier}, {"millilitres", rounded(millilitres * (1 - colourants))}}},
            {"bare", look_json(move.bare.look)},
            {"bare_u95", u95_json(move.bare)},
            {"finished", look_json(move.finished)},
            {"de2000", rounded(move.de2000)},
            {"expected_de2000", rounded(move.expected_de2000)},
            {"second_de2000", move.second_de2000 ? Json(rounded(*move.second_de2000)) : Json(nullptr)},
            {"too_dark", rounded(move.too_dark)},
            {"wait_minutes", rounded(jar.wait_minutes())},
            {"wait_from", jar.dry_minutes > 0 ? "label" : "common practice"}};
}

}  // namespace

std::string plan_json(const AreaPlan& plan, double square_centimetres) {
    const double millilitres = coat_millilitres(square_centimetres);
    Json schedules = Json::array(), history = Json::array();
    for (const Schedule& schedule : plan.schedules) {
        Json steps = Json::array();
        for (const ScheduleStep& step : schedule.steps) steps.push_back(step_json(step, plan, millilitres));
        schedules.push_back({{"steps", steps}, {"cost", rounded(schedule.cost)}});
    }
    for (const ForetoldAndCame& one : plan.history)
        history.push_back({{"coats", coats_json(one.coats, plan, millilitres)},
                           {"foretold", look_json(one.foretold.look)},
                           {"foretold_u95", u95_json(one.foretold)},
                           {"came", look_json(one.came.look)},
                           {"de2000", rounded(one.de2000)},
                           {"inside", one.inside}});
    Json missing = nullptr, nearest = nullptr;
    if (plan.nearest)
        nearest = {{"de2000", rounded(plan.nearest->de2000)},
                   {"missing", numbers_json(plan.nearest->missing)}};
    if (plan.missing)
        missing = {{"hue", std::string(name(plan.missing->hue))},
                   {"kind", plan.missing->group == ColourantGroup::dye ? "dye" : "pigment"},
                   {"de2000", rounded(plan.missing->de2000)}};
    return to_text({{"schema", "tonemend.plan/1"},
                    {"job", plan.job.number},
                    {"area", plan.area.name},
                    {"wood", plan.piece.wood},
                    {"grit", plan.question.place.grit},
                    {"kit", plan.kit.name},
                    {"finish", plan.finish_name},
                    {"second_light", plan.second ? Json(plan.second_light) : Json(nullptr)},
                    {"reading", plan.lessons.newest_number},
                    {"coats_seen", plan.coats_seen},
                    {"coats_on_wood", plan.coats_on_wood},
                    {"finish_pairs", plan.finish_pairs},
                    {"tolerance", rounded(plan.question.tolerance)},
                    {"original", look_json(plan.question.target)},
                    {"now", look_json(plan.now.finished)},
                    {"now_de2000", rounded(plan.now.de2000)},
                    {"schedules", schedules},
                    {"nearest", nearest},
                    {"missing", missing},
                    {"history", history}});
}

}  // namespace tonemend
