#include "advise/kit/kit.h"

#include <fmt/format.h>

#include "picture/input_error.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"

namespace tonemend {

double KitJar::wait_minutes() const {
    return dry_minutes > 0 ? dry_minutes : wait_of(facts().drying).minutes;
}

std::optional<std::size_t> Kit::find(const std::string& wanted) const {
    for (std::size_t i = 0; i < jars.size(); ++i)
        if (in_small_letters(jars[i].name) == in_small_letters(wanted)) return i;
    return std::nullopt;
}

KitJar usual_jar(const std::string& name, KitKind kind) {
    const KitKindFacts& facts = facts_of(kind);
    return {name, kind, std::string(facts.carrier), 0, facts.most_thinner, 0, std::nullopt, {}};
}

void require_jar(const KitJar& jar) {
    if (jar.name.empty()) throw InputError("a colourant needs a name; give the one on its label");
    const std::string name = one_line(jar.name, 60);
    if (in_small_letters(jar.name) == "thinner")
        throw InputError("'thinner' is what a colourant is thinned with; give the jar another name");
    constexpr double most_parts = 100, longest_wait = 7 * 24 * 60;
    // Written so that what is no number fails as well.
    if (!(jar.least_thinner >= 0 && jar.least_thinner <= jar.most_thinner && jar.most_thinner <= most_parts))
        throw InputError(
            fmt::format("'{}': may be thinned from {:g} to {:g} parts; give 0 to 100, the smaller first",
                        name, jar.least_thinner, jar.most_thinner));
    if (!(jar.dry_minutes >= 0 && jar.dry_minutes <= longest_wait))
        throw InputError(fmt::format("'{}': dries in {:g} minutes; give 0 to 10080", name, jar.dry_minutes));
}

void add_jar(Kit& kit, const KitJar& jar) {
    require_jar(jar);
    if (kit.find(jar.name))
        throw InputError(fmt::format("the kit has '{}' already; take it out first, or give another name",
                                     one_line(jar.name, 60)));
    kit.jars.push_back(jar);
}

ModelJars model_jars(const Kit& kit) {
    ModelJars result;
    for (std::size_t i = 0; i < kit.jars.size(); ++i) {
        const auto group = kit.jars[i].facts().group;
        result.colourant.push_back(group ? std::optional(result.colourants.size()) : std::nullopt);
        if (!group) continue;
        result.colourants.push_back({*group, kit.jars[i].hue});
        result.jar_of.push_back(i);
    }
    return result;
}

double concentration_of(double thinner_parts) {
    return 1 / (1 + thinner_parts);
}

double thinner_of(double concentration) {
    return 1 / concentration - 1;
}

}  // namespace tonemend
