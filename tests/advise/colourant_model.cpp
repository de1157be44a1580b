// What the model learns and how sure it says it is. The contracts are this program's own; facts of the trade
// are marked.
#include "advise/model/colourant_model.h"

#include <array>
#include <cmath>

#include "colour/difference.h"
#include "practice/wood_shop.h"
#include "tests/advise/shop_reader.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

const ReadLook bare_oak{{{68, 7, 24}, {58, 9, 24}, 0.3}, 0.2};
const CoatPlace oak{"oak", "scrap", 150};

ColourantModel untaught(ColourantGroup group, HueWord hue = HueWord::brown) {
    return ColourantModel({{group, hue}}, {});
}

double lightness(const LookForecast& forecast) {
    return whole_of(forecast.look).L;
}

double spread(const LookForecast& forecast) {
    return std::sqrt(forecast.whole_covariance().trace());
}

// A strip as a dye twice as strong as is believed would make it.
CoatObservation strong_strip(double concentration, const CoatPlace& place, double times = 2) {
    const ColourantModel model = untaught(ColourantGroup::dye);
    CoatStrength strength;
    for (std::size_t i = 0; i < 3; ++i)
        strength.absorption[i] = times * std::exp(model.belief(0, static_cast<Unknown>(i)).mean);
    const double amount = std::pow(concentration, 0.92);
    const auto coat = [&](const Lab& lab) {
        return to_lab(after_coat(to_channels(lab), ColourantGroup::dye, strength, amount));
    };
    const WoodLook& look = bare_oak.look;
    return {{{0, concentration, 0}},
            place,
            bare_oak,
            {{coat(look.ground), coat(look.figure), look.figure_share}, 0.2}};
}

}  // namespace

TEST_CASE("Before anything is tried the model knows what the trade knows") {
    // Common practice, no source, all of it.
    std::vector<double>
        figure_share;  // how much the figure darkens, by how much the ground does; dye, pigment
    for (const ColourantGroup group : {ColourantGroup::dye, ColourantGroup::pigment}) {
        const ColourantModel model = untaught(group);
        const auto after = [&](double concentration, int earlier, int grit = 150) {
            return lightness(model.foretell(bare_oak, std::array{AppliedCoat{0, concentration, earlier}},
                                            {"oak", "a", grit}));
        };
        // Every coat darkens; thinned two to one it darkens less; a second coat over the first goes darker
        // still.
        CHECK(after(1, 0) < whole_of(bare_oak.look).L - 5);
        CHECK(after(1.0 / 3, 0) > after(1, 0) + 2);
        const LookForecast first = model.foretell(bare_oak, std::array{AppliedCoat{0, 1, 0}}, oak);
        const LookForecast second = model.foretell(first, std::array{AppliedCoat{0, 1, 1}}, oak);
        CHECK(lightness(second) < lightness(first) - 1);
        // Coarse grit takes more pigment; dye hardly cares.
        const double by_grit = after(1, 0, 220) - after(1, 0, 80);
        if (group == ColourantGroup::pigment)
            CHECK(by_grit > 2);
        else
            CHECK(std::abs(by_grit) < 2);
        figure_share.push_back((bare_oak.look.figure.L - first.look.figure.L) /
                               (bare_oak.look.ground.L - first.look.ground.L));
    }
    // Pigment sets the figure, dye the ground.
    CHECK(figure_share[1] > 1.15 * figure_share[0]);
}

TEST_CASE("A hard, close-grained wood that took little pigment on one strip is taken to take little of any") {
    const std::vector<ColourantModel::Colourant> two{{ColourantGroup::pigment, HueWord::umber},
                                                     {ColourantGroup::pigment, HueWord::sienna}};
    const ColourantModel before(two, {});
    // Both were tried on pine, one on maple, where a third was taken. (Pine takes much, maple little: common
    // practice.)
    std::vector<CoatObservation> seen;
    for (std::size_t k = 0; k < 2; ++k) {
        const LookForecast after =
            before.foretell(bare_oak, std::array{AppliedCoat{k, 1, 0}}, {"pine", "p", 150});
        seen.push_back({{{k, 1, 0}}, {"pine", "p", 150}, bare_oak, {after.look, 0.2}});
    }
    const LookForecast little =
        before.foretell(bare_oak, std::array{AppliedCoat{0, 0.3, 0}}, {"maple", "m", 150});
    seen.push_back({{{0, 1, 0}}, {"maple", "m", 150}, bare_oak, {little.look, 0.2}});
    const ColourantModel model(two, seen);
    const auto other = [&](const char* wood) {
        return lightness(model.foretell(bare_oak, std::array{AppliedCoat{1, 1, 0}}, {wood, "new", 150}));
    };
    CHECK(other("maple") > other("pine") + 3);
    CHECK(other("birch") == Approx(other("pine")).margin(4));  // nothing is known of birch
    CHECK(model.amount_sd(1, {"maple", "new", 150}) < model.amount_sd(1, {"birch", "new", 150}));
    CHECK(model.wood_known(1, "maple"));
    CHECK_FALSE(model.wood_known(1, "birch"));
}

TEST_CASE("One strip helps, each more narrows, and on the job's own wood most") {
    const std::array<AppliedCoat, 1> asked{AppliedCoat{0, 0.6, 0}};
    std::vector<CoatObservation> seen;
    double last = spread(untaught(ColourantGroup::dye).foretell(bare_oak, asked, oak));
    const Lab truth = whole_of(strong_strip(0.6, oak).after.look);
    const double at_first =
        ciede2000(whole_of(untaught(ColourantGroup::dye).foretell(bare_oak, asked, oak).look), truth).value;
    for (const double concentration : {1.0, 0.33, 0.5, 0.2}) {
        seen.push_back(strong_strip(concentration, oak));
        const LookForecast forecast =
            ColourantModel({{ColourantGroup::dye, HueWord::brown}}, seen).foretell(bare_oak, asked, oak);
        CHECK(spread(forecast) < last);
        last = spread(forecast);
        CHECK(ciede2000(whole_of(forecast.look), truth).value < 0.2 * at_first);
    }
    // Ten strips on another wood leave more open than one on this.
    std::vector<CoatObservation> elsewhere;
    for (int i = 0; i < 10; ++i)
        elsewhere.push_back(strong_strip(0.1 * (i + 1), {"ash", "scrap of ash", 150}));
    const std::vector<CoatObservation> here{strong_strip(1, oak)};
    const auto sd = [&](const std::vector<CoatObservation>& strips) {
        return spread(
            ColourantModel({{ColourantGroup::dye, HueWord::brown}}, strips).foretell(bare_oak, asked, oak));
    };
    CHECK(sd(here) < 0.75 * sd(elsewhere));
}

TEST_CASE("Strips are found to be what they were made of, and a misread one does not pull the others") {
    std::vector<CoatObservation> seen;
    for (const double concentration : {1.0, 0.5, 0.33, 0.2}) seen.push_back(strong_strip(concentration, oak));
    const std::vector<ColourantModel::Colourant> jar{{ColourantGroup::dye, HueWord::brown}};
    const ColourantModel model(jar, seen);
    for (const Unknown channel : {Unknown::red, Unknown::green, Unknown::blue}) {
        const LearntValue learnt = model.belief(0, channel);
        const double truth = untaught(ColourantGroup::dye).belief(0, channel).mean + std::log(2.0);
        // How much is the wood's and how much the dye's cannot be told from one wood.
        CHECK(std::abs(learnt.mean - truth) < 2 * learnt.sd);
        CHECK(learnt.sd < 0.5);
    }
    CoatObservation misread = strong_strip(0.5, oak);
    misread.after.look.ground.L += 25, misread.after.look.figure.L += 25;
    std::vector<CoatObservation> with_misread = seen;
    with_misread.push_back(misread);
    const std::array<AppliedCoat, 1> asked{AppliedCoat{0, 0.6, 0}};
    const Lab one = whole_of(model.foretell(bare_oak, asked, oak).look);
    const Lab other = whole_of(ColourantModel(jar, with_misread).foretell(bare_oak, asked, oak).look);
    CHECK(ciede2000(one, other).value < 1.5);
    // The same observations, the same model.
    CHECK(ColourantModel(jar, seen).belief(0, Unknown::green).mean == model.belief(0, Unknown::green).mean);
}

TEST_CASE("Several coats between two readings teach as well, and what follows is foretold in sequence") {
    WoodShop shop(4711, 4);
    ShopReader reader(shop, 1, 0.05);
    std::vector<CoatObservation> seen;
    for (std::size_t jar = 0; jar < 4; ++jar) reader.make_strips(jar, 4, 4, seen);
    ShopReader::Strip strip = reader.new_strip(4);
    CoatObservation both{{{0, 0.5, 0}, {1, 0.5, 0}}, reader.place(strip), reader.read(strip), {}};
    const ColourantModel model(reader.colourants(), seen);
    const LookForecast forecast = model.foretell(both.before, both.coats, both.place);
    for (const AppliedCoat& coat : both.coats) reader.put_on(strip, coat);
    both.after = reader.read(strip);
    CHECK(ciede2000(whole_of(forecast.look), whole_of(both.after.look)).value < 4);
    seen.push_back(both);
    const ColourantModel taught(reader.colourants(), seen);
    CHECK(spread(taught.foretell(both.before, both.coats, both.place)) < spread(forecast));
    CHECK(ciede2000(whole_of(taught.foretell(both.before, both.coats, both.place).look),
                    whole_of(both.after.look))
              .value <= ciede2000(whole_of(forecast.look), whole_of(both.after.look)).value);
}
