// What a picture's user states, to a file and back. The format is this program's own.
#include <nlohmann/json.hpp>

#include "calibrate/keep/stated_facts_json.h"
#include "picture/input_error.h"
#include "tests/catch.h"

using namespace tonemend;
using Json = nlohmann::ordered_json;

namespace {

StatedFacts back(const Json& json) {
    return to_stated_facts(JsonPart(json, "stated"));
}

std::string refused(const Json& json) {
    try {
        (void)back(json);
    } catch (const InputError& error) {
        return error.what();
    }
    return {};
}

}  // namespace

TEST_CASE("Everything stated comes back, and what was not stated stays so") {
    StatedFacts facts;
    facts.black_level = 16.5;
    facts.light = parse_light("led:3000");
    facts.colourants = RepairColourants::other;
    facts.samples = {parse_sample("original:120,80,60,60=52.1,14.3,-27.0"),
                     parse_sample("10,10 90,10 50,80=40,1,2")};
    const StatedFacts again = back(stated_json(facts));
    CHECK(again.black_level == facts.black_level);
    REQUIRE(again.light);
    CHECK(again.light->text == "led:3000");
    CHECK(again.light->family == LampFamily::led);
    CHECK(again.light->power.values == facts.light->power.values);
    CHECK(again.colourants == RepairColourants::other);
    REQUIRE(again.samples.size() == 2);
    CHECK(again.samples[0].side == SampleSide::original);
    CHECK(again.samples[0].lab.b == -27.0);
    CHECK(again.samples[1].region.corners.size() == 3);
    for (const Json& nothing : {stated_json({}), Json::object()}) {
        const StatedFacts unstated = back(nothing);
        CHECK_FALSE(unstated.black_level);
        CHECK_FALSE(unstated.light);
        CHECK(unstated.colourants == RepairColourants::earth);
        CHECK(unstated.samples.empty());
    }
}

TEST_CASE("A light of which only the temperature is stated comes back as that") {
    StatedFacts facts;
    facts.light = parse_light("2700");
    const StatedFacts again = back(stated_json(facts));
    REQUIRE(again.light);
    CHECK(again.light->kelvin == 2700);
    CHECK_FALSE(again.light->family);
}

TEST_CASE("What cannot have been stated is refused by name") {
    CHECK_THAT(refused({{"light", "moon"}}), contains("stated.light is no light"));
    CHECK_THAT(refused({{"light", 2700}}), contains("stated.light"));
    CHECK_THAT(refused({{"colourants", "ink"}}), contains("stated.colourants is no kind"));
    CHECK_THAT(refused({{"black_level", -1}}), contains("stated.black_level"));
    CHECK_THAT(refused({{"samples", {"1,2,3,4"}}}), contains("stated.samples[0] is no sample"));
    CHECK_THAT(refused({{"samples", "1,2,3,4=1,2,3"}}), contains("stated.samples"));
    CHECK_THAT(refused(Json::array()), contains("stated"));
}
