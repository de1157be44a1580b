// Schedules against a search through everything, and the rules of the trade that they keep.
#include "advise/schedule/schedule.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "advise/schedule/cup.h"
#include "advise/schedule/missing_jar.h"
#include "colour/difference.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

// An invented kit whose jars are known from strips on oak.
struct KitAtHand {
    Kit kit;
    ModelJars jars;
    std::vector<CoatObservation> strips;
    std::unique_ptr<ColourantModel> model;
    ReadLook bare{plain_look({70, 7, 25}), 0.2};
    CoatPlace place{"oak", "job", 180};

    explicit KitAtHand(const std::vector<std::pair<KitKind, HueWord>>& content) {
        for (const auto& [kind, hue] : content) {
            KitJar jar = usual_jar("jar " + std::to_string(kit.jars.size() + 1), kind);
            jar.hue = hue;
            add_jar(kit, jar);
        }
        jars = model_jars(kit);
        const ColourantModel prior(jars.colourants, {});
        for (std::size_t k = 0; k < jars.colourants.size(); ++k)
            for (const double share : {1.0, 0.33}) {
                const AppliedCoat coat{k, share, 0};
                const CoatPlace board{"oak", "board", 180};
                strips.push_back(
                    {{coat}, board, bare, {prior.foretell(bare, std::array{coat}, board).look, 0.2}});
            }
        model = std::make_unique<ColourantModel>(jars.colourants, strips);
    }
    ScheduleQuestion question(const Lab& target) const {
        ScheduleQuestion asked;
        asked.kit = &kit, asked.jars = &jars, asked.model = model.get();
        asked.now = bare, asked.earlier.assign(jars.colourants.size(), 0), asked.place = place;
        asked.target = plain_look(target);
        return asked;
    }
    // What these coats are foretold to give, one after the other.
    Lab after(const std::vector<AppliedCoat>& coats) const {
        return whole_of(model->foretell(bare, coats, place).look);
    }
};

const std::vector<std::pair<KitKind, HueWord>> two_dyes_and_a_stain{{KitKind::dye_alcohol, HueWord::brown},
                                                                    {KitKind::dye_alcohol, HueWord::yellow},
                                                                    {KitKind::pigment_oil, HueWord::umber}};

}  // namespace

TEST_CASE("The cheapest next coat is that of a search through all of a small kit") {
    const KitAtHand hand(two_dyes_and_a_stain);
    for (const Lab& target : {Lab{52, 12, 30}, Lab{45, 14, 26}, Lab{60, 9, 30}}) {
        const MoveQuestion question = to_move_question(hand.question(target));
        const std::vector<CoatMove> ranked = rank_moves(question, 10);
        REQUIRE_FALSE(ranked.empty());
        double exhaustive = stand_now(question).cost;
        for (const ShelfJar& jar : question.shelf)
            for (int i = 0; i <= 400; ++i) {
                const double strength = jar.weakest * std::pow(jar.strongest / jar.weakest, i / 400.0);
                exhaustive = std::min(exhaustive, try_coats(question, {{jar.colourant, strength, 0}}).cost);
            }
        // The two dyes go into one cup too; the stain has another carrier and does not.
        for (int i = 0; i <= 60; ++i)
            for (int share = 1; share <= 3; ++share) {
                const ShelfJar &one = question.shelf[0], &other = question.shelf[1];
                const double strength = one.weakest * std::pow(one.strongest / one.weakest, i / 60.0);
                exhaustive = std::min(
                    exhaustive, try_coats(question, {{one.colourant, 0.25 * share * strength, 0},
                                                     {other.colourant, (1 - 0.25 * share) * strength, 0}})
                                    .cost);
            }
        CHECK(ranked.front().cost <= exhaustive + 0.02);
        CHECK(ranked.front().cost >= exhaustive - 0.1);
        CHECK(std::is_sorted(ranked.begin(), ranked.end(),
                             [](const CoatMove& a, const CoatMove& b) { return a.cost < b.cost; }));
        for (const CoatMove& move : ranked)
            if (move.coats.size() == 2) CHECK(move.coats[0].colourant + move.coats[1].colourant == 1);
    }
}

TEST_CASE("Two jars whose thinnings have nothing in common go into no cup with each other") {
    KitAtHand hand({{KitKind::dye_alcohol, HueWord::brown}, {KitKind::dye_alcohol, HueWord::yellow}});
    MoveQuestion question = to_move_question(hand.question({45, 14, 26}));
    question.shelf[0].weakest = 0.9, question.shelf[0].strongest = 1;
    question.shelf[1].weakest = 0.1, question.shelf[1].strongest = 0.5;
    for (const CoatMove& move : rank_moves(question, 10)) {
        REQUIRE(move.coats.size() == 1);
        const ShelfJar& jar = question.shelf[move.coats[0].colourant];
        CHECK(move.coats[0].concentration >= jar.weakest - 1e-9);
        CHECK(move.coats[0].concentration <= jar.strongest + 1e-9);
    }
}

TEST_CASE("A schedule of two coats is as good as a search through all pairs of coats") {
    const KitAtHand hand(two_dyes_and_a_stain);
    ScheduleQuestion question = hand.question(hand.after({{1, 0.5, 0}, {2, 0.4, 0}}));
    question.most_steps = 2;
    const std::vector<Schedule> schedules = plan_schedules(question);
    REQUIRE_FALSE(schedules.empty());
    const MoveQuestion start = to_move_question(question);
    double best = stand_now(start).cost;
    constexpr int looks = 24;
    const auto strength = [&](const ShelfJar& jar, int i) {
        return jar.weakest * std::pow(jar.strongest / jar.weakest, i / double(looks - 1));
    };
    for (const ShelfJar& first : start.shelf)
        for (int i = 0; i < looks; ++i) {
            const CoatMove one = try_coats(start, {{first.colourant, strength(first, i), 0}});
            best = std::min(best, one.cost + step_price);
            MoveQuestion then = start;
            then.now = one.bare, then.earlier[first.colourant] = 1;
            for (const ShelfJar& second : start.shelf) {
                // Dye first for the ground, then pigment over it: common practice, no source.
                if (first.colourant == 2 && second.colourant != 2) continue;
                for (int j = 0; j < looks; ++j) {
                    const int earlier = then.earlier[second.colourant];
                    best = std::min(best,
                                    try_coats(then, {{second.colourant, strength(second, j), earlier}}).cost +
                                        2 * step_price);
                }
            }
        }
    CHECK(schedules.front().cost <= best + 0.3);
}

TEST_CASE("Schedules begin thinned and light, keep the trade's order, and take the fewest steps when equal") {
    const KitAtHand hand({{KitKind::pigment_oil, HueWord::umber},
                          {KitKind::dye_alcohol, HueWord::brown},
                          {KitKind::dye_alcohol, HueWord::orange},
                          {KitKind::toner, HueWord::brown},
                          {KitKind::bleach, HueWord::yellow},
                          {KitKind::clear_coat, HueWord::yellow}});
    int planned = 0;
    for (const Lab& target :
         {Lab{40, 14, 24}, Lab{50, 12, 28}, Lab{33, 10, 14}, Lab{58, 10, 30}, Lab{62, 9, 28}}) {
        const std::vector<Schedule> schedules = plan_schedules(hand.question(target));
        for (const Schedule& schedule : schedules) {
            ++planned;
            REQUIRE_FALSE(schedule.steps.empty());
            CHECK(schedule.steps.size() <= 5);
            // Two parts thinner to one, or half and half, and build up: common practice, no source.
            double colourant = 0;
            for (const AppliedCoat& coat : schedule.steps.front().move.coats) colourant += coat.concentration;
            CHECK(colourant <= 0.5 + 1e-9);
            // The first coat lands on the light side by the margin.
            const CoatMove& first = schedule.steps.front().move;
            CHECK(whole_of(first.finished).L - on_known_wood.margin * first.sd_lightness > target.L - 0.7);
            FinishingStage stage = FinishingStage::bleach;
            for (const ScheduleStep& step : schedule.steps)
                for (const std::size_t jar : step.jars) {
                    const FinishingStage now = hand.kit.jars[jar].facts().stage;
                    CHECK(now >= stage);
                    stage = now;
                    // Bleach lightens: nothing for what has to go darker. Clear coats do not colour.
                    CHECK(hand.kit.jars[jar].kind != KitKind::bleach);
                    CHECK(hand.kit.jars[jar].kind != KitKind::clear_coat);
                }
        }
        // Each begins with other jars.
        for (std::size_t i = 1; i < schedules.size(); ++i)
            CHECK(schedules[i].steps.front().jars != schedules[0].steps.front().jars);
        // What one thinned coat does takes one step.
        const Lab light = hand.after({{1, 0.2, 0}});
        const auto simple = plan_schedules(hand.question(light), 1);
        if (!simple.empty()) CHECK(simple.front().steps.size() <= 2);
    }
    CHECK(planned >= 10);
}

TEST_CASE(
    "Where the wood is darker than the original, only bleach is planned; where nothing helps, nothing is") {
    const KitAtHand hand({{KitKind::bleach, HueWord::yellow}, {KitKind::dye_alcohol, HueWord::brown}});
    const std::vector<Schedule> lighter = plan_schedules(hand.question({80, 3, 16}));
    REQUIRE_FALSE(lighter.empty());
    CHECK(hand.kit.jars[lighter.front().steps.front().jars.front()].kind == KitKind::bleach);
    const KitAtHand dyes({{KitKind::dye_alcohol, HueWord::brown}});
    CHECK(plan_schedules(dyes.question({85, 3, 14})).empty());
}

TEST_CASE("What the kit lacks is named: the hue that is missing, and how near it would come") {
    const KitAtHand hand({{KitKind::dye_alcohol, HueWord::yellow}});
    const ScheduleQuestion question = hand.question({52, 26, 24});
    const auto missing = find_missing_jar(to_move_question(question), hand.bare.look);
    REQUIRE(missing);
    CHECK((missing->hue == HueWord::red || missing->hue == HueWord::red_oxide ||
           missing->hue == HueWord::sienna));
    CHECK(missing->de2000 < stand_now(to_move_question(question)).de2000);
    const auto lack = missing_colour(stand_now(to_move_question(question)), question.target);
    CHECK(lack[0] == Approx(-18));
    CHECK(lack[1] == Approx(19));
    CHECK(lack[2] == Approx(-1));
}

TEST_CASE("What is added to a cup is the best that may be added by quarter parts") {
    const KitAtHand hand(two_dyes_and_a_stain);
    const MoveQuestion question = to_move_question(hand.question(hand.after({{0, 0.2, 0}, {1, 0.25, 0}})));
    const Cup cup{{{0, 2}}, 4};
    const auto additions = rank_additions(question, cup, 5);
    REQUIRE_FALSE(additions.empty());
    CHECK(additions.front().move.cost < try_cup(question, cup).cost);
    double best = try_cup(question, cup).cost;
    for (int quarters = 1; quarters <= 120; ++quarters) {
        for (const bool thinner : {false, true}) {
            Cup more = cup;
            if (thinner)
                more.thinner += 0.25 * quarters;
            else
                more.parts.push_back({1, 0.25 * quarters});
            best = std::min(best, try_cup(question, more).cost);
        }
    }
    CHECK(additions.front().move.cost <= best + 0.1);
    for (const CupAddition& addition : additions) {
        CHECK(addition.cup.total() == Approx(cup.total() + addition.parts));
        CHECK((!addition.colourant || *addition.colourant != 2));  // the stain does not mix with the dye
    }
}
