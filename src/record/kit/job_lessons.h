#pragma once

#include <string>
#include <vector>

#include "advise/kit/kit.h"
#include "advise/model/colourant_model.h"
#include "measure/finish_on.h"
#include "record/store/job_types.h"

namespace tonemend {

/// How a kept reading's original and repair looked.
struct KeptLooks {
    ReadLook original, repair;
};

/// From a reading's text ("tonemend.comparison/1"); nothing when it is none or is damaged.
std::optional<KeptLooks> looks_of(const std::string& reading_text);

/// A pair as it was read under a second light.
struct KeptSecondLight {
    std::string light;  ///< as it was stated, see parse_light
    Lab original, repair;
};

/// From "tonemend.second-light/1": the first light after light one that was stated; nothing when there is
/// none.
std::optional<KeptSecondLight> second_light_of(const std::string& comparison_text);

/// One area's coats and readings in the order in which they were done and taken.
struct AreaLessons {
    std::vector<CoatObservation> seen;  ///< bare before and after coats of the kit's jars
    struct FinishSeen {
        std::string finish;  ///< as the step calls it
        FinishPair pair;
    };
    std::vector<FinishSeen> finishes;
    std::vector<int> earlier;  ///< coats of each of the model's colourants that are on by now
    FinishingStage stage = FinishingStage::bleach;  ///< the last that was done
    bool finished = false;                          ///< a clear coat is on
    std::string finish;                             ///< which
    bool grit_said = false;
    int grit = 150;                   ///< the last that was said
    std::optional<KeptLooks> newest;  ///< of the newest fit reading
    int newest_number = 0;            ///< of that reading; 0: none
    bool coat_since = false;          ///< a coat was put on after it
};

/// What a job's area teaches. Steps whose colourant the kit has no jar of, other than sanding and clear
/// coats, and readings on either side of one, teach nothing. `wood`: the piece's.
AreaLessons lessons_of(const JobDossier::AreaDossier& area, const std::string& wood, const Kit& kit,
                       const ModelJars& jars);

}  // namespace tonemend
