#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>

#include "calibrate/keep/calibration_file.h"
#include "cli/check_options.h"
#include "cli/commands.h"
#include "cli/lab_text.h"
#include "cli/output.h"
#include "colour/difference.h"
#include "measure/reading.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "record/comparison_json.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

const char* name(ChartState state) {
    switch (state) {
        case ChartState::good:
            return "good";
        case ChartState::drifting:
            return "drifting";
        case ChartState::expired:
            return "expired";
        case ChartState::unchecked:
            break;
    }
    return "unchecked";
}

void require_words(const CheckOptions& options) {
    if (!options.picture.empty() && options.region.empty())
        throw InputError(
            "--region: say where the check patch is in the picture, for example 250,691,389,389");
    const bool for_picture = !options.region.empty() || !options.lab.empty() || options.restart;
    if (options.picture.empty() && for_picture)
        throw InputError("--region, --lab and --restart belong to a picture of the check patch; give it too");
}

// The colour that is known of the check patch: given now, or kept in the chart.
Lab known_colour(const CheckOptions& options, const ControlChart& chart) {
    if (options.lab.empty()) {
        if (chart.known) return *chart.known;
        throw InputError(
            "--lab: give the check patch's own colour at the first check, as an instrument reads it, for "
            "example 52.3,14.1,27.8");
    }
    const Lab lab = parse_lab(options.lab, "--lab");
    constexpr double same = 1e-6;
    if (chart.known && delta_e_76(lab, *chart.known) > same)
        throw InputError(fmt::format(
            "--lab {}: the chart is about a patch of {:g},{:g},{:g}; leave --lab away, or begin a chart for "
            "another patch with --restart",
            one_line(options.lab, 60), chart.known->L, chart.known->a, chart.known->b));
    return lab;
}

void set_limits(const CheckOptions& options, ControlChart& chart) {
    if (options.warn_at) chart.warn_de2000 = *options.warn_at;
    if (options.expire_at) chart.expire_de2000 = *options.expire_at;
    if (chart.warn_de2000 > chart.expire_de2000)
        throw InputError(
            fmt::format("--warn-at {:g} is above --expire-at {:g}, so nothing would ever be warned of; give "
                        "a smaller one",
                        chart.warn_de2000, chart.expire_de2000));
}

// What makes the reading of a check patch worthless: all that is unfit but for the chart's own last word.
const Warning* find_obstacle(const Calibration& calibration) {
    for (const Warning& warning : calibration.warnings)
        if (warning.unfit && warning.code != "calibration-expired") return &warning;
    return nullptr;
}

ChartPoint read_point(const CheckOptions& options, const std::shared_ptr<const KeptCalibration>& kept) {
    const Region region = parse_region(options.region, "--region");
    const Frame frame = read_frame(options.picture, options.light);
    const Calibration calibration = calibrate_with(frame, options.light, kept);
    if (const Warning* obstacle = find_obstacle(calibration))
        throw InputError(fmt::format("{}: no check can be made with it: {} ({})", frame.name, obstacle->text,
                                     obstacle->code));
    const Reading reading = read_region(frame, calibration, region, "--region");
    return {utc_now(), std::filesystem::path(options.picture).filename().string(), reading.lab};
}

std::string json_text(const KeptCalibration& kept, const ChartVerdict& verdict) {
    const auto lab_json = [](const Lab& lab) { return Json{lab.L, lab.a, lab.b}; };
    const ControlChart& chart = kept.chart;
    Json json{{"schema", "tonemend.check/1"},
              {"state", name(verdict.state)},
              {"why", verdict.why},
              {"calibration_made", kept.made},
              {"points", chart.points.size()},
              {"known_lab", chart.known ? lab_json(*chart.known) : Json(nullptr)},
              {"warn_de2000", chart.warn_de2000},
              {"expire_de2000", chart.expire_de2000}};
    if (!chart.points.empty()) {
        json["last_lab"] = lab_json(chart.points.back().lab);
        json["from_known_de2000"] = verdict.from_known;
        json["from_centre_de2000"] = verdict.from_centre ? Json(*verdict.from_centre) : Json(nullptr);
    }
    return to_text(json);
}

std::string chart_text(const KeptCalibration& kept, const ChartVerdict& verdict) {
    std::string text = fmt::format("\n  calibration of {} on {}\n", kept.made, kept.picture.name);
    if (verdict.state == ChartState::unchecked)
        return text + "  never checked; give a picture of the check patch, --region and --lab\n\n";
    text += "\n" + draw_chart(kept.chart) + "\n";
    if (verdict.limits) {
        const auto& limits = *verdict.limits;
        text += fmt::format("  usual: L* {:.1f} ± {:.1f}  a* {:.1f} ± {:.1f}  b* {:.1f} ± {:.1f}\n",
                            limits[0].centre, limits[0].action(), limits[1].centre, limits[1].action(),
                            limits[2].centre, limits[2].action());
    }
    switch (verdict.state) {
        case ChartState::expired:
            return text + fmt::format(
                              "  EXPIRED: {}. Look at lamp, camera and check patch; if all is as it "
                              "was, calibrate anew.\n\n",
                              verdict.why);
        case ChartState::drifting:
            return text + fmt::format("  drifting: {}. Check again.\n\n", verdict.why);
        default:
            return text + "  good: the calibration holds\n\n";
    }
}

}  // namespace

ExitStatus check_calibration(const CheckOptions& options) {
    require_words(options);
    auto kept = std::make_shared<KeptCalibration>(read_calibration(options.calibration));
    const auto prepare = [&](ControlChart& chart) {
        if (options.restart) chart = {};
        if (!options.picture.empty()) chart.known = known_colour(options, chart);
        set_limits(options, chart);
    };
    ControlChart before = kept->chart;
    prepare(before);  // refuses before the picture is read
    const bool limits_given = options.warn_at || options.expire_at;
    if (!options.picture.empty() || limits_given) {
        std::optional<ChartPoint> point;
        if (!options.picture.empty()) point = read_point(options, kept);
        change_calibration(options.calibration, [&](KeptCalibration& now) {
            prepare(now.chart);
            if (point) now.chart.points.push_back(*point);
            *kept = now;
        });
    }
    const ChartVerdict verdict = judge_chart(kept->chart);
    print_out(options.json ? json_text(*kept, verdict) : chart_text(*kept, verdict));
    return verdict.state == ChartState::expired ? ExitStatus::unfit : ExitStatus::measured;
}

void add_check_options(CLI::App& command, CheckOptions& options) {
    command.add_option("--region", options.region, "Where the check patch is: x,y,w,h or a polygon");
    command.add_option("--lab", options.lab,
                       "Its own colour, L*,a*,b* (D50, 2°), at the first check; kept from then on");
    command.add_option("--warn-at", options.warn_at, "ΔE2000 off that colour from which to warn; kept")
        ->check(CLI::Range(0.05, 20.0));
    command.add_option("--expire-at", options.expire_at, "ΔE2000 off it at which the calibration ends; kept")
        ->check(CLI::Range(0.05, 20.0));
    command.add_flag("--restart", options.restart, "Begin a new chart, for another check patch");
}

void add_check_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<CheckOptions>();
    CLI::App* command = app.add_subcommand(
        "check", "Read a patch of known colour with a saved calibration, and say whether it still holds");
    command->add_option("calibration", options->calibration, "File that 'tonemend calibrate --save' wrote")
        ->required();
    command->add_option("picture", options->picture,
                        "Picture with the card and the check patch; without it the chart is shown");
    add_calibration_options(*command, options->light);
    add_check_options(*command, *options);
    command->add_flag("--json", options->json, "Print one JSON object and nothing else");
    command->callback([options, &status] { status = check_calibration(*options); });
}

}  // namespace tonemend
