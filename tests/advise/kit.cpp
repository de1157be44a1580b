// Kits, boards, the guide and the cautions. What is usual is common practice, no source.
#include "advise/kit/kit.h"

#include <array>

#include "advise/board/board.h"
#include "advise/board/guide.h"
#include "advise/board/strip_regions.h"
#include "advise/kit/cautions.h"
#include "tests/catch.h"
#include "tests/support/refusal_of.h"

using namespace tonemend;
using tonemend::testing::refusal_of;

namespace {

Kit small_kit() {
    Kit kit;
    kit.name = "mill shop";
    add_jar(kit, usual_jar("Walnut 4", KitKind::dye_alcohol));
    add_jar(kit, usual_jar("Umber Yard", KitKind::pigment_oil));
    add_jar(kit, usual_jar("Satin", KitKind::clear_coat));
    return kit;
}

StripReading reading(int coats, double L, const std::string& finish = {}) {
    return {coats, finish, "", "2026-11-27T10:00:00Z", {plain_look({L, 10, 25}), 0.2}};
}

}  // namespace

TEST_CASE("A jar has what is usual for its kind, and what cannot be is refused with the cure") {
    const KitJar stain = usual_jar("Umber Yard", KitKind::pigment_oil);
    CHECK(stain.carrier == "mineral spirits");
    // Oil stain can be lightened with thinner while fresh, dye cannot.
    CHECK(stain.facts().wipes_back);
    CHECK_FALSE(usual_jar("Walnut 4", KitKind::dye_water).facts().wipes_back);
    CHECK(stain.wait_minutes() == wait_of(DryingKind::pigment_oil).minutes);
    KitJar labelled = stain;
    labelled.dry_minutes = 300;
    CHECK(labelled.wait_minutes() == 300);  // the label comes first
    Kit kit = small_kit();
    CHECK(refusal_of([&] { add_jar(kit, usual_jar("WALNUT 4", KitKind::glaze)); }).find("already") !=
          std::string::npos);
    CHECK_FALSE(refusal_of([] { require_jar(usual_jar("", KitKind::glaze)); }).empty());
    KitJar wrong = stain;
    wrong.least_thinner = 5, wrong.most_thinner = 2;
    CHECK_FALSE(refusal_of([&] { require_jar(wrong); }).empty());
    CHECK(refusal_of([] { (void)parse_kit_kind("paint"); }).find("dye-alcohol") != std::string::npos);
    for (const KitKindFacts& facts : kit_kinds())
        CHECK(parse_kit_kind(std::string(facts.name)) == facts.kind);
    CHECK(concentration_of(2) == Approx(1.0 / 3));
    CHECK(thinner_of(concentration_of(7)) == Approx(7));
    const ModelJars jars = model_jars(kit);
    CHECK(jars.colourants.size() == 2);  // the clear coat does not colour
    CHECK_FALSE(jars.colourant[2]);
}

TEST_CASE("A board teaches each coat between two bare readings, and finish from the same strip with it on") {
    const Kit kit = small_kit();
    const ModelJars jars = model_jars(kit);
    SampleBoard board{"scraps", "oak", 180, {}};
    board.strips.push_back({"1", {}, {}});
    record_reading(board, "1", reading(0, 70));
    record_coat(board, "1", {"walnut 4", 2}, kit);
    record_reading(board, "1", reading(1, 60));
    record_coat(board, "1", {"Walnut 4", 2}, kit);
    record_reading(board, "1", reading(2, 53));
    record_reading(board, "1", reading(2, 40, "Satin"));
    record_coat(board, "2", {"Umber Yard", 0}, kit);
    record_reading(board, "2", reading(1, 50));
    const auto seen = observations_of(board, kit, jars);
    REQUIRE(seen.size() == 3);
    CHECK(seen[0].coats.at(0).concentration == Approx(1.0 / 3));
    CHECK(seen[0].before.look.ground.L == 70);
    CHECK(seen[1].coats.at(0).earlier == 1);
    CHECK(seen[1].before.look.ground.L == 60);
    CHECK(seen[1].after.look.ground.L == 53);
    // Strip 2 was not read bare: its neighbour stands for it, less surely.
    CHECK(seen[2].coats.at(0).colourant == 1);
    CHECK(seen[2].before.look.ground.L == 70);
    CHECK(seen[2].before.u > seen[0].before.u);
    const auto pairs = finish_pairs_of(board, "Satin");
    REQUIRE(pairs.size() == 1);
    CHECK(pairs[0].bare.L == Approx(53));
    CHECK(pairs[0].finished.L == Approx(40));
    CHECK(finish_pairs_of(board, "Gloss").empty());
    CHECK(refusal_of([&] {
              record_coat(board, "1", {"Honey", 1}, kit);
          }).find("kit show") != std::string::npos);
    CHECK(refusal_of([&] {
              record_coat(board, "1", {"Walnut 4", 30}, kit);
          }).find("0 to 9") != std::string::npos);
    CHECK_FALSE(refusal_of([&] { record_reading(board, "7", reading(0, 50)); }).empty());
    // A jar that left the kit teaches nothing.
    Kit less = kit;
    less.jars.erase(less.jars.begin());
    CHECK(observations_of(board, less, model_jars(less)).size() == 1);
}

TEST_CASE(
    "The guide asks for a strip of each jar, then a second coat on it, and each narrows what is foretold") {
    const Kit kit = small_kit();
    const ModelJars jars = model_jars(kit);
    const ReadLook bare{plain_look({70, 7, 25}), 0.2};
    const CoatPlace place{"oak", "scraps", 180};
    const auto advice = advise_strips(kit, jars, {}, bare, place, 6);
    REQUIRE(advice.size() >= 4);
    CHECK(advice[0].jar != advice[1].jar);
    for (const StripAdvice& one : advice) {
        CHECK(one.jar < 2);
        CHECK(one.after < one.before);
    }
    CHECK((!advice[0].second && !advice[1].second));
    CHECK((advice[2].second || advice[3].second));
    // With the strips there, hardly anything is left to ask.
    const ColourantModel prior(jars.colourants, {});
    std::vector<CoatObservation> seen;
    for (std::size_t k = 0; k < 2; ++k)
        for (const double share : {1.0, 0.33, 0.5})
            for (const int earlier : {0, 1}) {
                ReadLook before = bare;
                if (earlier > 0)
                    before.look = prior.foretell(bare, std::array{AppliedCoat{k, share, 0}}, place).look;
                const AppliedCoat coat{k, share, earlier};
                seen.push_back(
                    {{coat}, place, before, {prior.foretell(before, std::array{coat}, place).look, 0.2}});
            }
    CHECK(advise_strips(kit, jars, seen, bare, place, 6).size() < 2);
}

TEST_CASE("Strips lie side by side across a board that was photographed askew") {
    const Quad board{Point{100, 100}, Point{500, 140}, Point{480, 400}, Point{90, 380}};
    const auto regions = strip_regions(board, 4);
    REQUIRE(regions.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(area(regions[i]) > 0.4 * area({{board.begin(), board.end()}}) / 4);
        CHECK(area(regions[i]) < 0.6 * area({{board.begin(), board.end()}}) / 4);
        for (std::size_t j = 0; j < i; ++j) CHECK(shared_part(regions[i], regions[j]) == 0);
    }
}

TEST_CASE("Each kind brings the cautions that belong to it, and the label comes first") {
    CHECK(dangers_of(KitKind::pigment_oil, "mineral spirits") ==
          std::set<Danger>{Danger::solvent, Danger::skin, Danger::oily_rags});
    CHECK(dangers_of(KitKind::dye_water, "water") == std::set<Danger>{Danger::skin});
    CHECK(dangers_of(KitKind::dye_alcohol, "alcohol") == std::set<Danger>{Danger::solvent, Danger::skin});
    CHECK(dangers_of(KitKind::bleach, "water").contains(Danger::bleach));
    CHECK(dangers_of(KitKind::toner, "lacquer thinner").contains(Danger::spray));
    CHECK(dangers_of(KitKind::clear_coat, "water").contains(Danger::oily_rags));
    const auto lines = say_cautions(dangers_of(KitKind::glaze, "mineral spirits"));
    CHECK(lines.back() == caution_order);
    CHECK(say_cautions({}).empty());
    for (const Danger danger : {Danger::dust, Danger::lead, Danger::bleach, Danger::solvent, Danger::skin,
                                Danger::oily_rags, Danger::spray})
        CHECK(caution_text(danger).size() > 40);
    CHECK(std::string(caution_text(Danger::oily_rags)).find("closed metal can") != std::string::npos);
}
