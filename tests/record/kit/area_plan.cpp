// A plan for an area: what is learnt from a job's own coats and readings, and what is refused. The contract
// is this program's own.
#include "record/kit/area_plan.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "colour/difference.h"
#include "tests/catch.h"
#include "tests/record/store/any_store.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

std::string reading_text(const Lab& original, const Lab& repair) {
    const auto side = [](const Lab& lab) {
        return nlohmann::json{{"lab", {lab.L, lab.a, lab.b}},
                              {"lab_u95", {0.9, 0.9, 0.9}},
                              {"ground", {lab.L, lab.a, lab.b}},
                              {"figure", {lab.L, lab.a, lab.b}},
                              {"figure_share", 0}};
    };
    return nlohmann::json{
        {"schema", "tonemend.comparison/1"}, {"original", side(original)}, {"repair", side(repair)}}
        .dump();
}

// A shop with a kit, an oak piece, and the pen to write into its job.
struct PlannedJob {
    AnyStore place{"sqlite"};
    JobStore store{open_store(place.location, StoreUse::keeping)};
    JobAtHand job{store};
    KeptKit kit;
    int minute = 0;

    PlannedJob() {
        KitShelf shelf(store);
        kit = shelf.start_kit("mill shop");
        KitJar walnut = usual_jar("Walnut 4", KitKind::dye_alcohol);
        walnut.hue = HueWord::brown;
        KitJar honey = usual_jar("Honey Lane", KitKind::dye_alcohol);
        honey.hue = HueWord::yellow;
        for (const KitJar& jar : {walnut, honey, usual_jar("Umber Yard", KitKind::pigment_oil),
                                  usual_jar("Satin", KitKind::clear_coat)})
            add_jar(kit.kit, jar);
        shelf.save(kit);
    }
    std::string now() { return fmt::format("2026-11-27T10:{:02}:00Z", minute++); }
    void read(const Lab& original, const Lab& repair, bool unfit = false) {
        ReadingForStore reading;
        reading.record.area = job.area.uid, reading.record.taken = now(), reading.record.unfit = unfit;
        reading.record.original = original, reading.record.repair = repair;
        reading.text = reading_text(original, repair);
        store.add_reading(reading);
    }
    void coat(StepKind kind, const std::string& jar, const std::string& dilution = "") {
        FinishingStep step;
        step.area = job.area.uid, step.kind = kind, step.colourant = jar, step.dilution = dilution;
        step.grit = kind == StepKind::dye ? 180 : 0, step.done = now();
        store.add_step(step);
    }
    std::shared_ptr<const AreaPlan> plan(const PlanWishes& wishes = {}) {
        return plan_area(store, job.area.uid, wishes);
    }
};

const Lab bare{69, 7, 24}, original{40, 14, 24};

}  // namespace

TEST_CASE("A plan learns from the job's own coats, says what had been foretold, and goes on from there") {
    PlannedJob shop;
    shop.read(original, bare);
    const auto first = shop.plan();
    CHECK(first->coats_seen == 0);
    CHECK_FALSE(first->check_strips.empty());  // nothing was read on oak: strips come first
    CHECK(first->question.price.margin == on_unknown_wood.margin);
    CHECK(first->finish_name == "Satin");
    REQUIRE_FALSE(first->schedules.empty());
    CHECK(first->now.de2000 > 5);
    shop.coat(StepKind::dye, "walnut 4", "2:1");
    CHECK(refusal_of([&] { (void)shop.plan(); }).find("take a reading") != std::string::npos);
    shop.read(original, {60, 11, 24});
    const auto second = shop.plan();
    CHECK(second->coats_seen == 1);
    CHECK(second->coats_on_wood == 1);
    CHECK(second->check_strips.empty());
    CHECK(second->question.place.grit == 180);
    CHECK(second->question.place.wood == "oak");
    REQUIRE(second->history.size() == 1);
    CHECK(second->history[0].came.look.ground.L == 60);
    CHECK(second->history[0].de2000 ==
          Approx(ciede2000(whole_of(second->history[0].foretold.look), {60, 11, 24}).value));
    CHECK(second->lessons.earlier == std::vector<int>{1, 0, 0});
    CHECK(second->tried == std::vector<bool>{true, false, false});
    REQUIRE_FALSE(second->schedules.empty());
    // Pigment on: no dye any more. A clear coat on: finish against finish.
    shop.coat(StepKind::pigment, "Umber Yard", "1:1");
    shop.read(original, {54, 12, 26});
    CHECK(shop.plan()->question.from == FinishingStage::pigment);
    shop.coat(StepKind::clear, "Satin");
    shop.read(original, {41, 14, 25});
    const auto finished = shop.plan();
    CHECK(finished->lessons.finished);
    CHECK_FALSE(finished->finish);
    CHECK(finished->now.finished.ground.L == 41);
    REQUIRE(finished->lessons.finishes.size() == 1);
    CHECK(finished->lessons.finishes[0].pair.bare.L == Approx(54));
    CHECK(finished->lessons.finishes[0].pair.finished.L == Approx(41));
    // Another job learns from this one.
    const JobAtHand other(shop.store, "Second chair");
    ReadingForStore reading;
    reading.record.area = other.area.uid, reading.record.taken = shop.now();
    reading.text = reading_text(original, bare);
    shop.store.add_reading(reading);
    const auto elsewhere = plan_area(shop.store, other.area.uid, {});
    CHECK(elsewhere->coats_seen == 2);
    CHECK(elsewhere->finish_pairs == 1);
    CHECK(plan_area(shop.store, other.area.uid, {.read_other_jobs = false})->coats_seen == 0);
}

TEST_CASE("What a plan cannot do without is asked for in a line, and what teaches nothing is passed over") {
    PlannedJob shop;
    CHECK(refusal_of([&] { (void)shop.plan(); }).find("no fit reading") != std::string::npos);
    shop.read(original, bare, true);
    CHECK(refusal_of([&] { (void)shop.plan(); }).find("no fit reading") != std::string::npos);
    shop.read(original, bare);
    CHECK(refusal_of([&] { (void)shop.plan({.kit = "other"}); }).find("mill shop") != std::string::npos);
    // Something that the kit does not hold, and sanding: what lies between teaches nothing.
    shop.coat(StepKind::dye, "a neighbour's dye");
    shop.read(original, {55, 10, 22});
    shop.coat(StepKind::sand, "");
    shop.read(original, {68, 7, 24});
    CHECK(shop.plan()->coats_seen == 0);
    CHECK(shop.plan()->history.empty());
    // There already.
    shop.read({69, 7, 24}, {69, 7.2, 24});
    const auto there = shop.plan({.as_they_are = true});
    CHECK(there->schedules.empty());
    CHECK_FALSE(there->nearest);
    // A damaged text is no reading.
    CHECK_FALSE(looks_of("no JSON"));
    CHECK_FALSE(looks_of(R"({"original":{},"repair":{}})"));
    CHECK_FALSE(second_light_of("[]"));
    const std::string far = reading_text({50, 1e9, 0}, {50, 0, 0});
    CHECK_FALSE(looks_of(far));
    // A job with something damaged in it teaches nothing and stops nobody.
    const JobAtHand other(shop.store, "Damaged");
    FinishingStep step;
    step.area = other.area.uid, step.kind = StepKind::dye, step.colourant = "Walnut 4",
    step.done = shop.now();
    const FinishingStep kept = shop.store.add_step(step);
    shop.store.parts().database->execute(
        "UPDATE steps SET dilution = 'nonsense', coats = 2000000000 WHERE uid = ?", {kept.uid});
    CHECK_FALSE(shop.plan({.as_they_are = true})->nearest);
}

TEST_CASE("A second light that was stated is planned for until the next coat") {
    // A light of which only the temperature was stated is kept as "2700 K".
    for (const std::string stated : {"CIE-A", "2700 K", "led:3000"}) {
        PlannedJob shop;
        shop.read(original, bare);
        const nlohmann::json light{
            {"name", "hall"},
            {"stated", stated},
            {"comparison", {{"original", {{"lab", {41, 17, 27}}}}, {"repair", {{"lab", {70, 10, 26}}}}}}};
        ComparisonRecord comparison{
            .uid = {}, .area = shop.job.area.uid, .kind = ComparisonKind::second_light};
        comparison.made = shop.now();
        comparison.text =
            nlohmann::json{{"schema", "tonemend.second-light/1"}, {"lights", {{{"name", "shop"}}, light}}}
                .dump();
        shop.store.add_comparison(comparison);
        const auto plan = shop.plan();
        REQUIRE(plan->second);
        CHECK(plan->second_light == stated);
        REQUIRE_FALSE(plan->schedules.empty());
        CHECK(plan->schedules.front().last().second_de2000);
        shop.coat(StepKind::dye, "Walnut 4", "2:1");
        shop.read(original, {60, 11, 24});
        CHECK_FALSE(shop.plan()->second);
    }
}

TEST_CASE("Amounts and names of steps are the trade's") {
    CHECK(coat_millilitres(10000) == Approx(132));  // 110 ml a square metre and a fifth to spare
    CHECK(step_kind_of(KitKind::dye_water) == StepKind::dye);
    CHECK(step_kind_of(KitKind::glaze) == StepKind::glaze);
    CHECK(step_kind_of(KitKind::pigment_oil) == StepKind::pigment);
    CHECK(step_kind_of(KitKind::clear_coat) == StepKind::clear);
    CHECK(step_kind_of(KitKind::sealer) == StepKind::seal);
    CHECK(step_kind_of(KitKind::bleach) == StepKind::bleach);
    CHECK(step_kind_of(KitKind::toner) == StepKind::toner);
}
