#include "cli/drying_text.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <cmath>
#include <ctime>
#include <nlohmann/json.hpp>

#include "record/json_numbers.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

std::string say_lab(const Lab& lab) {
    return fmt::format("L* {:.1f}  a* {:.1f}  b* {:.1f}", lab.L, lab.a, lab.b);
}

Json believed_json(const Believed& value) {
    return {{"middle", rounded(value.middle)}, {"low", rounded(value.low)}, {"high", rounded(value.high)}};
}

}  // namespace

std::string reading_line(const FollowedReading& reading, DryingWatch::Taken taken, double seconds,
                         const DryingReport& report) {
    const auto time = static_cast<std::time_t>(seconds);
    std::string text =
        fmt::format("  {:%F %T}  {}   {}", fmt::localtime(time), say_lab(reading.lab), say_state(report));
    if (taken == DryingWatch::Taken::held) text += "; this reading lies far off: the next one will tell";
    if (taken == DryingWatch::Taken::restarted)
        text += "; another coat, a hand or a moved card: begun anew from the reading before this one";
    constexpr double worth_saying = 2;  // pixels
    if (reading.moved_px > worth_saying)
        text += fmt::format("; the region was followed by {:.0f} px", reading.moved_px);
    return text + "\n";
}

std::string settled_line(const DryingReport& report) {
    const Lab &wet = report.fit.wet, &now = report.fit.now;
    return fmt::format("  SETTLED after {:.0f} minutes: ΔE2000 {:.1f} since wet (L* {}  a* {}  b* {})\n",
                       report.seen_minutes, report.changed(), number_text(now.L - wet.L, Sign::always),
                       number_text(now.a - wet.a, Sign::always), number_text(now.b - wet.b, Sign::always));
}

std::string end_text(const DryingReport& report, DryingKind kind) {
    std::string text = fmt::format("\n  {} readings over {:.0f} minutes: {}\n", report.readings,
                                   report.seen_minutes, say_state(report));
    if (report.state == DryingState::settling)
        text += fmt::format(
            "  minutes still to go, 95 %: {:.0f} to {:.0f}; ΔE2000 still to go {:.1f}, at most {:.1f}\n",
            report.fit.minutes.low, report.fit.minutes.high, report.fit.remaining.middle,
            report.fit.remaining.high);
    if (report.state != DryingState::watching)
        text +=
            fmt::format("  dry it will be {} (± {:.1f}, {:.1f}, {:.1f}); ΔE2000 {:.1f} since wet so far\n",
                        say_lab(report.fit.final), report.fit.final_u95[0], report.fit.final_u95[1],
                        report.fit.final_u95[2], report.changed());
    text += report.wait_is_labels ? fmt::format("  the label's wait: {:g} minutes\n", report.wait_minutes)
                                  : fmt::format("  usual wait, {}: {:g} minutes ({})\n", wait_of(kind).what,
                                                report.wait_minutes, wait_origin);
    return text + "  judge a match dry and with finish on\n\n";
}

Json drying_json(const DryingReport& report, DryingKind kind) {
    const SettlingFit& fit = report.fit;
    return {
        {"schema", "tonemend.drying-report/1"},
        {"state", name(report.state)},
        {"says", say_state(report)},
        {"readings", report.readings},
        {"restarts", report.restarts},
        {"seen_minutes", rounded(report.seen_minutes)},
        {"minutes_to_settle", believed_json(fit.minutes)},
        {"settled_within_de2000", settled_within},
        {"remaining_de2000", believed_json(fit.remaining)},
        {"wet_lab", lab_json(fit.wet)},
        {"now_lab", lab_json(fit.now)},
        {"final_lab", lab_json(fit.final)},
        {"final_lab_u95", {rounded(fit.final_u95[0]), rounded(fit.final_u95[1]), rounded(fit.final_u95[2])}},
        {"change_since_wet_de2000", rounded(report.changed())},
        {"two_stages", rounded(fit.two_stages)},
        {"kind", wait_of(kind).name},
        {"wait_minutes", rounded(report.wait_minutes)},
        {"wait_from", report.wait_is_labels ? "label" : "common practice"}};
}

std::string waits_text() {
    std::string text =
        "Usual waits before a colour is judged; the label's own time comes first, these are common "
        "practice:\n";
    for (const DryingWait& wait : drying_waits())
        text += fmt::format("  {:14} {:26} {:4.0f} minutes\n", wait.name, wait.what, wait.minutes);
    return text;
}

}  // namespace tonemend
