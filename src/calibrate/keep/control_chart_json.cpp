#include "calibrate/keep/control_chart_json.h"

#include <nlohmann/json.hpp>

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t most_points = 100'000;
constexpr double most_difference = 100;

Lab to_chart_lab(const JsonPart& json) {
    const auto [L, a, b] = json.numbers<3>(-1000, 1000);
    return {L, a, b};
}

Json lab_json(const Lab& lab) {
    return {lab.L, lab.a, lab.b};
}

}  // namespace

Json chart_json(const ControlChart& chart) {
    Json points = Json::array();
    for (const ChartPoint& point : chart.points)
        points.push_back({{"when", point.when}, {"picture", point.picture}, {"lab", lab_json(point.lab)}});
    return {{"known_lab", chart.known ? lab_json(*chart.known) : Json(nullptr)},
            {"warn_de2000", chart.warn_de2000},
            {"expire_de2000", chart.expire_de2000},
            {"points", points}};
}

ControlChart to_chart(const JsonPart& json) {
    ControlChart chart;
    if (const auto known = json.find("known_lab")) chart.known = to_chart_lab(*known);
    chart.warn_de2000 = json.at("warn_de2000").number(0, most_difference);
    chart.expire_de2000 = json.at("expire_de2000").number(chart.warn_de2000, most_difference);
    for (const JsonPart& point : json.at("points").list(most_points))
        chart.points.push_back(
            {point.at("when").text(40), point.at("picture").text(), to_chart_lab(point.at("lab"))});
    if (!chart.points.empty() && !chart.known) json.at("known_lab").refuse("is missing");
    return chart;
}

}  // namespace tonemend
