#include "calibrate/model/characterisation_prior.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "picture/input_error.h"
#include "practice/prior_ensemble.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

double furthest(const Eigen::MatrixXd& left, const Eigen::MatrixXd& right) {
    return (left - right).cwiseAbs().maxCoeff() / right.cwiseAbs().maxCoeff();
}

// A theta of unequal numbers, so that no two can be exchanged unnoticed.
CharacterisationPrior two_lamps() {
    CharacterisationPrior prior = characterisation_prior();
    std::erase_if(prior.lights, [](const LightPrior& light) {
        return light.family == LampFamily::led || (light.kelvin != 4000 && light.kelvin != 5000);
    });
    return prior;
}

}  // namespace

TEST_CASE("The prior in the file is what simulated cameras teach", "[.slow]") {
    // A part of what make_characterisation_prior does, done again: the file keeps five digits, and
    // half of the fifth is at most 5e-5 of the largest number.
    const LightPrior again = learn_light(draw_subjects(prior_seed), LampFamily::led, 4000, prior_cameras);
    const auto& lights = characterisation_prior().lights;
    const auto kept = std::find_if(lights.begin(), lights.end(), [](const LightPrior& light) {
        return light.family == LampFamily::led && light.kelvin == 4000;
    });
    REQUIRE(kept != lights.end());
    for (const ModelForm form : {ModelForm::linear, ModelForm::root}) {
        CHECK(furthest(kept->of(form).mean, again.of(form).mean) < 5e-5);
        CHECK(furthest(kept->of(form).covariance, again.of(form).covariance) < 5e-5);
        for (std::size_t kind = 0; kind < repair_colourants_count; ++kind)
            CHECK(furthest(kept->of(form).residual[kind], again.of(form).residual[kind]) < 5e-5);
        for (std::size_t k = 0; k < stated_for_count; ++k)
            CHECK(furthest(kept->of(form).stated[k].cross, again.of(form).stated[k].cross) < 5e-5);
    }
}

TEST_CASE("Between two lamps the prior is interpolated on the scale of reciprocal temperature") {
    // By hand: 1/4000 = 250 and 1/5000 = 200 mired; 4444.4 K is 225, half way.
    const CharacterisationPrior prior = two_lamps();
    StatedLight light = parse_light("daylight:5000");
    light.kelvin = 1e6 / 225;
    const Eigen::VectorXd expected = (prior.lights[0].linear.mean + prior.lights[1].linear.mean) / 2;
    CHECK(furthest(prior.under(light).linear.mean, expected) < 1e-12);
    light.kelvin = 2000;
    CHECK(furthest(prior.under(light).linear.mean, prior.lights[0].linear.mean) < 1e-12);
}

TEST_CASE("A light of unknown kind is as uncertain as the kinds are apart") {
    // Law of total variance for two equal shares: mean of the variances plus a quarter of the squared
    // difference.
    const CharacterisationPrior& prior = characterisation_prior();
    StatedLight light = parse_light("led:4000");
    const FormPrior led = prior.under(light).linear;
    light.family = LampFamily::thermal;
    const FormPrior thermal = prior.under(light).linear;
    light.family.reset();
    const FormPrior either = prior.under(light).linear;
    const Eigen::VectorXd apart = led.mean - thermal.mean;
    const Eigen::MatrixXd expected =
        (led.covariance + thermal.covariance) / 2 + apart * apart.transpose() / 4;
    CHECK(furthest(either.covariance, expected) < 1e-12);
}

TEST_CASE("A prior survives being written and read") {
    const std::string text = to_json_text(characterisation_prior());
    CHECK(to_json_text(parse_prior(text, "again")) == text);
}

TEST_CASE("A file that is no prior is refused in a line that says what to do") {
    CHECK_THROWS_WITH(parse_prior("{}", "some.json"),
                      "some.json: not a characterisation prior of schema tonemend.characterisation-prior/1; "
                      "put the file that came with the program back");
    CHECK_THROWS_AS(parse_prior("[", "some.json"), InputError);
}
