#include "record/kit/kit_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

constexpr double no_thinner = 0.02;

double thinner_in(const std::vector<AppliedCoat>& coats) {
    double colourants = 0;
    for (const AppliedCoat& coat : coats) colourants += coat.concentration;
    return std::max(0.0, 1 - colourants);
}

std::string volume(double millilitres, bool us) {
    constexpr double ounce = 29.5735;
    if (us) return fmt::format("{:.2f} fl oz", millilitres / ounce);
    return millilitres < 10 ? fmt::format("{:.1f} ml", millilitres) : fmt::format("{:.0f} ml", millilitres);
}

std::string so_many_parts(double value) {
    std::string text = fmt::format("{:.1f}", value);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return fmt::format("{} part{}", text, text == "1" ? "" : "s");
}

}  // namespace

std::string say_minutes(double minutes) {
    const int whole = static_cast<int>(std::lround(minutes));
    if (whole < 60) return fmt::format("{} min", whole);
    const int hours = whole / 60, rest = whole % 60;
    return rest == 0 ? fmt::format("{} h", hours) : fmt::format("{} h {} min", hours, rest);
}

std::string say_wait(const KitJar& jar) {
    if (!jar.wait_is_known()) return "as its label says";
    return fmt::format("{} ({})", say_minutes(jar.wait_minutes()),
                       jar.dry_minutes > 0 ? "its label" : "usual; the label's own time comes first");
}

std::string say_thinning(double thinner, const std::string& carrier) {
    if (thinner < no_thinner) return "undiluted";
    return fmt::format("{} {} to 1", so_many_parts(thinner), carrier);
}

const KitJar& jar_of(const AreaPlan& plan, const AppliedCoat& coat) {
    return plan.kit.jars[plan.jars.jar_of[coat.colourant]];
}

std::string coat_names(const std::vector<AppliedCoat>& coats, const AreaPlan& plan) {
    std::vector<std::string> list;
    for (const AppliedCoat& coat : coats) list.push_back("'" + jar_of(plan, coat).name + "'");
    return fmt::format("{}", fmt::join(list, " and "));
}

std::string say_parts(const std::vector<AppliedCoat>& coats, const AreaPlan& plan) {
    double least = 1;
    for (const AppliedCoat& coat : coats) least = std::min(least, coat.concentration);
    std::vector<std::string> list;
    const double thinner = thinner_in(coats);
    if (thinner > no_thinner)
        list.push_back(
            fmt::format("{} {}", so_many_parts(thinner / least), jar_of(plan, coats.front()).carrier));
    else if (coats.size() == 1)
        return jar_of(plan, coats.front()).name + " undiluted";
    for (const AppliedCoat& coat : coats)
        list.push_back(
            fmt::format("{} {}", so_many_parts(coat.concentration / least), jar_of(plan, coat).name));
    return fmt::format("{}", fmt::join(list, ", "));
}

std::string say_volumes(const std::vector<AppliedCoat>& coats, const AreaPlan& plan, double millilitres,
                        bool us) {
    std::vector<std::string> list;
    const double thinner = thinner_in(coats);
    if (thinner > no_thinner)
        list.push_back(
            fmt::format("{} {}", volume(millilitres * thinner, us), jar_of(plan, coats.front()).carrier));
    for (const AppliedCoat& coat : coats)
        list.push_back(
            fmt::format("{} {}", volume(millilitres * coat.concentration, us), jar_of(plan, coat).name));
    return fmt::format("{}", fmt::join(list, ", "));
}

std::string say_missing(const std::array<double, 3>& missing) {
    return fmt::format("{} by {:.1f}, {} by {:.1f}, {} by {:.1f}", missing[0] < 0 ? "darker" : "lighter",
                       std::abs(missing[0]), missing[1] < 0 ? "less red" : "redder", std::abs(missing[1]),
                       missing[2] < 0 ? "less yellow" : "yellower", std::abs(missing[2]));
}

std::string say_missing_jar(const MissingJar& jar) {
    return fmt::format("A {} {} would bring it to about {:.1f}.", name(jar.hue),
                       jar.group == ColourantGroup::dye ? "dye" : "pigment stain", jar.de2000);
}

std::vector<FinishingStep> steps_of(const std::vector<AppliedCoat>& coats, const AreaPlan& plan) {
    std::vector<FinishingStep> steps;
    for (const AppliedCoat& coat : coats) {
        const KitJar& jar = jar_of(plan, coat);
        FinishingStep& step = steps.emplace_back();
        step.area = plan.area.uid, step.kind = step_kind_of(jar.kind);
        step.colourant = jar.name, step.carrier = jar.carrier;
        step.dilution = fmt::format("{:.2f}:1", thinner_of(coat.concentration));
        if (plan.lessons.grit_said) step.grit = plan.lessons.grit;
        if (jar.wait_is_known()) step.wait_minutes = jar.wait_minutes();
        if (coats.size() > 1) step.note = "in one cup: " + say_parts(coats, plan);
    }
    return steps;
}

}  // namespace tonemend
