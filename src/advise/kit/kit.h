#pragma once

#include <optional>
#include <string>
#include <vector>

#include "advise/kit/kit_kind.h"
#include "advise/model/colourant_model.h"

namespace tonemend {

/// One jar of the user's.
struct KitJar {
    std::string name;
    KitKind kind = KitKind::dye_alcohol;
    std::string carrier;       ///< what it is thinned with
    double least_thinner = 0;  ///< parts of thinner to one of colourant, as little as is allowed
    double most_thinner = 9;   ///< and as much
    double dry_minutes = 0;    ///< till the next coat, by the label; 0: the kind's usual time
    std::optional<HueWord> hue;
    std::string note;

    const KitKindFacts& facts() const { return facts_of(kind); }
    /// The label's, else the usual one.
    double wait_minutes() const;
    /// Whether that means anything: how long clear coats take differs too much for a usual time.
    bool wait_is_known() const { return dry_minutes > 0 || facts().group.has_value(); }
};

/// The user's colourants.
struct Kit {
    std::string name;
    std::vector<KitJar> jars;

    /// Index of the jar of that name, without regard to the case of ASCII letters.
    std::optional<std::size_t> find(const std::string& name) const;
};

/// A jar of a kind with all that is usual for it. Throws InputError for an empty name.
KitJar usual_jar(const std::string& name, KitKind kind);
/// Throws InputError: no name, or "thinner"; thinning out of 0 to 100 or the wrong way round, a wait out of 0
/// to 10,080 minutes.
void require_jar(const KitJar& jar);
/// Adds a jar. Throws InputError as require_jar, and when one of that name is there.
void add_jar(Kit& kit, const KitJar& jar);

/// The kit's jars for ColourantModel; those that do not colour have no place there.
struct ModelJars {
    std::vector<ColourantModel::Colourant> colourants;
    std::vector<std::size_t> jar_of;                    ///< index in the kit, of each colourant
    std::vector<std::optional<std::size_t>> colourant;  ///< index in `colourants`, of each jar
};
ModelJars model_jars(const Kit& kit);

/// Share of the colourant in a mixture of so many parts of thinner to one of it.
double concentration_of(double thinner_parts);
double thinner_of(double concentration);

}  // namespace tonemend
