// The numbers of the JSON object: rounded to four decimals, never a minus zero, never anything but JSON. The
// contract is this program's own (DEVELOPERS.md); JSON itself is RFC 8259.
#include "record/comparison_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/catch.h"

using namespace tonemend;

namespace {

Comparison plain_comparison() {
    Comparison comparison;
    comparison.original.lab = comparison.original.ground = comparison.original.figure = {50, 10, 30};
    comparison.repair.lab = comparison.repair.ground = comparison.repair.figure = {52, 11, 29};
    comparison.original.pixels = 4096, comparison.repair.pixels = 4000;
    comparison.repair.rejected_clipped = 90, comparison.repair.rejected_glare = 6;
    comparison.verdict = Verdict::close;
    return comparison;
}

Calibration plain_calibration() {
    Calibration calibration;
    calibration.card_name = "shop card";
    calibration.white = {0.9642, 1.0, 0.8249};
    calibration.tone_curve = "gain";
    calibration.characterisation.description = "sRGB";
    return calibration;
}

struct Rounding {
    double value;
    const char* printed;
};

}  // namespace

TEST_CASE("Every number is rounded to four decimals, half away from zero, and a zero has no sign") {
    // Binary fractions, so that the halves are halves exactly.
    const Rounding rows[] = {
        {1.23456, "1.2346"},        {-1.23456, "-1.2346"}, {0.03125, "0.0313"}, {-0.03125, "-0.0313"},
        {0.00004, "0.0"},           {-0.00004, "0.0"},     {-0.0, "0.0"},       {0.00006, "0.0001"},
        {-0.00006, "-0.0001"},      {12.0, "12.0"},        {99.99996, "100.0"}, {-1e-300, "0.0"},
        {123.456789012, "123.4568"}};
    for (const Rounding& row : rows) {
        INFO(row.value);
        Comparison comparison = plain_comparison();
        Difference& d = comparison.difference;
        d.de2000 = d.de2000_u95 = d.dL = d.da = d.db = d.dC = d.dH = d.ground_de2000 = d.figure_de2000 =
            row.value;
        comparison.original.lab = {row.value, row.value, row.value};
        comparison.original.lab_u95 = {row.value, row.value, row.value};
        comparison.original.blank_de2000 = row.value;
        comparison.direction = {{Move::redden, row.value, row.value}};
        const auto json = to_json(plain_calibration(), comparison);
        for (const auto& [key, number] : json["difference"].items()) CHECK(number.dump() == row.printed);
        for (const char* key : {"lab", "lab_u95"})
            for (const auto& number : json["original"][key]) CHECK(number.dump() == row.printed);
        CHECK(json["original"]["blank_de2000"].dump() == row.printed);
        CHECK(json["direction"][0]["amount"].dump() == row.printed);
        CHECK(json["direction"][0]["gain_de2000"].dump() == row.printed);
        CHECK(to_text(json).find("-0.0,") == std::string::npos);
        CHECK(to_text(json).find("-0.0\n") == std::string::npos);
    }
}

TEST_CASE("What was measured stands under its own name") {
    Comparison comparison = plain_comparison();
    comparison.direction = {{Move::darken, 2, 1.5}, {Move::yellow, 1, 0.4}};
    comparison.warnings = {{"glare", "text with \"quotes\", a \\ and\na new line", true}};
    comparison.tolerance = 0.75;
    const auto json = to_json(plain_calibration(), comparison);
    CHECK(json["original"]["lab"] == nlohmann::json{50.0, 10.0, 30.0});
    CHECK(json["repair"]["lab"] == nlohmann::json{52.0, 11.0, 29.0});
    CHECK(json["original"]["pixels"] == 4096);
    CHECK(json["repair"]["rejected"] == nlohmann::json{{"clipped", 90}, {"glare", 6}});
    CHECK(json["direction"][0]["move"] == "darken");
    CHECK(json["direction"][1]["move"] == "yellow");
    CHECK(json["verdict"] == "close");
    CHECK(json["tolerance"] == 0.75);
    CHECK(json["light"]["card"] == "shop card");
    CHECK(json["light"]["white_xyz"] == nlohmann::json{0.9642, 1.0, 0.8249});
    CHECK(json["warnings"][0]["unfit"] == true);
    CHECK(json["warnings"][0]["text"] == comparison.warnings[0].text);
}

TEST_CASE("The text is one JSON object, schema first, UTF-8 whatever went in, a newline last") {
    Calibration calibration = plain_calibration();
    calibration.card_name = "Grau\xe4 \xff \x01 ΔE";
    const std::string text = to_text(to_json(calibration, plain_comparison()));
    CHECK(text.starts_with("{\n  \"schema\": \"tonemend.comparison/1\""));
    CHECK(text.ends_with("}\n"));
    const auto read = nlohmann::json::parse(text);
    CHECK(read["light"]["card"] == "Grau\xef\xbf\xbd \xef\xbf\xbd \x01 ΔE");
    CHECK(read["direction"].is_array());
    CHECK(read["direction"].empty());
    CHECK(read["warnings"].is_array());
}
