#pragma once

#include <string>
#include <vector>

#include "record/store/job_types.h"

namespace tonemend {

/// What is to be heeded in doing these steps, each kind of danger once: sanding dust and old lead, bleaches,
/// solvents that burn, skin and lungs, oily rags, spraying; last, that label, safety sheet, local rules and
/// licensed practice come first. Found by the step's kind and by words in what it names; where in doubt the
/// caution is given. Nothing without steps.
std::vector<std::string> cautions_for(const std::vector<FinishingStep>& steps);

}  // namespace tonemend
