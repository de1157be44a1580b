#include "live/status_file.h"

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <span>

#include "live/drying_follower.h"
#include "live/overlay_choice.h"
#include "live/second_light_view.h"
#include "picture/write_picture.h"

namespace tonemend {
namespace {

using nlohmann::json;

json corners_json(const std::optional<Region>& region) {
    if (!region) return nullptr;
    json corners = json::array();
    for (const Point& corner : region->corners) corners.push_back({corner.x, corner.y});
    return corners;
}

double rounded(double value) {
    return std::round(value * 10) / 10;
}

}  // namespace

StatusFile::StatusFile() {
    if (const char* path = std::getenv("TONEMEND_STATUS_FILE"); path != nullptr) path_ = path;
}

void StatusFile::write(const Bench& bench, const Layout& layout, const std::vector<std::string>& cut,
                       const DrawingPace& pace) {
    if (!wanted()) return;
    const BenchState& state = bench.state();
    json object;
    object["source"] = bench.feed().name();
    object["frame"] = bench.newest_number();
    object["measured_frame"] = state.frame_number;
    object["card"] = state.card.has_value();
    object["card_window"] = state.card_window
                                ? corners_json(Region{{state.card_window->begin(), state.card_window->end()}})
                                : json();
    object["frames_averaged"] = state.frames_averaged;
    object["guidance"] = bench.guidance().words;
    object["verdict"] = state.comparison ? json(std::string(name(state.comparison->verdict))) : json();
    object["de2000"] = state.comparison ? json(state.comparison->difference.de2000) : json();
    object["u95"] = state.comparison ? json(state.comparison->difference.de2000_u95) : json();
    object["warnings"] = json::array();
    for (const Warning& warning : bench.warnings()) object["warnings"].push_back(warning.code);
    object["light"] = bench.settings().light;
    object["colourants"] = name(bench.settings().colourants);
    object["evened_out"] = state.calibration && state.calibration->flat_field;
    object["regions"] = {{"original", corners_json(bench.editor().regions().original)},
                         {"repair", corners_json(bench.editor().regions().repair)},
                         {"card", corners_json(bench.editor().regions().card)}};
    object["second_light"] = second_light_word(state);
    object["drying"] = json();
    if (state.drying)
        object["drying"] = {{"state", name(state.drying->report.state)},
                            {"readings", state.drying->report.readings},
                            {"trouble", state.drying->trouble}};
    object["overlay"] = std::string(name(bench.overlay()));
    object["view"] = std::string(name(bench.mode()));
    object["before"] = bench.before() ? json(bench.before()->number) : json();
    object["display"] = bench.display_name();
    object["job"] = bench.place().job;
    object["piece"] = bench.place().piece;
    object["area"] = bench.place().area;
    object["average"] = bench.settings().average;
    object["tick"] = bench.settings().tick;
    object["coats"] = json::array();
    for (const Coat& coat : bench.coats())
        object["coats"].push_back({{"number", coat.number},
                                   {"de2000", coat.de2000},
                                   {"verdict", std::string(name(coat.verdict))},
                                   {"kept", coat.kept == Kept::saved}});
    object["stale"] = state.stale;
    object["notice"] = bench.notice();
    object["theme"] = bench.settings().theme == ThemeName::light ? "light" : "dark";
    object["text_scale"] = bench.settings().text_scale;
    static constexpr std::array pages{"picture", "keys", "warnings", "jobs", "coat", "plan", "board"};
    object["page"] = pages.at(static_cast<std::size_t>(bench.page()));
    object["typed"] = bench.desk().typed();
    object["desk_lines"] = bench.desk().lines().size();
    object["board_lines"] = bench.board_desk().lines().size();
    const auto& plan = bench.plan_desk().plan();
    object["schedules"] = plan ? static_cast<int>(plan->schedules.size()) : -1;
    object["latency_ms"] = state.latency.count();
    object["fps"] = rounded(pace.frames_per_second);
    object["draw_ms"] = rounded(pace.draw_ms);
    object["capture_fps"] = rounded(pace.capture_per_second);
    object["cut"] = cut;
    for (const NamedBox& named : named_boxes(layout))
        object["boxes"][named.name] = {named.box.x, named.box.y, named.box.width, named.box.height};
    std::string text = object.dump(-1, ' ', false, json::error_handler_t::replace) + "\n";
    if (text == last_) return;
    last_ = std::move(text);
    try {
        write_whole_file(path_, std::as_bytes(std::span(last_)));
    } catch (const std::exception&) {
        path_.clear();  // a test that cannot be told is none of the person's business
    }
}

}  // namespace tonemend
