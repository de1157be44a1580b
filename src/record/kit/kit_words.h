#pragma once

#include <string>
#include <vector>

#include "record/kit/area_plan.h"

namespace tonemend {

/// "45 min", "2 h", "1 h 30 min".
std::string say_minutes(double minutes);
/// How long a jar's coat is left: "45 min (its label)", "2 h (usual; the label's own time comes first)", "as
/// its label says".
std::string say_wait(const KitJar& jar);
/// "undiluted" or "2 parts alcohol to 1".
std::string say_thinning(double thinner, const std::string& carrier);
/// The jar that a coat of the plan is of.
const KitJar& jar_of(const AreaPlan& plan, const AppliedCoat& coat);
/// "'Walnut 4' and 'Honey Lane'".
std::string coat_names(const std::vector<AppliedCoat>& coats, const AreaPlan& plan);
/// One coat as it is mixed, by parts: "2 parts alcohol, 1 part Walnut 4".
std::string say_parts(const std::vector<AppliedCoat>& coats, const AreaPlan& plan);
/// And by volume, for so much of it: "4.4 ml alcohol, 2.2 ml Walnut 4"; in US fluid ounces with `us`.
std::string say_volumes(const std::vector<AppliedCoat>& coats, const AreaPlan& plan, double millilitres,
                        bool us);
/// What is missing (see AreaPlan::Nearest), as "darker by 2.3, less red by 0.2, yellower by 1.3".
std::string say_missing(const std::array<double, 3>& missing);
/// "A red dye would bring it to about 1.2."
std::string say_missing_jar(const MissingJar& jar);
/// The coats of one application as steps of the job.
std::vector<FinishingStep> steps_of(const std::vector<AppliedCoat>& coats, const AreaPlan& plan);

}  // namespace tonemend
