#pragma once

#include <memory>

#include "advise/model/lab_table.h"
#include "calibrate/model/stated_light.h"

namespace tonemend {

/// What a pair looks like under a second light, by what was read there and by what a change of colour under
/// the first light is taken to mean there: a change between the smoothest reflectances that have the two
/// colours (see SmoothestReflectance).
class SecondLook {
  public:
    /// `original` and `repair` as they were read under `light`, `repair_first` as the same repair was read
    /// under the first. Throws InputError when the CIE's tables are missing.
    SecondLook(const StatedLight& light, const Lab& original, const Lab& repair, const Lab& repair_first);

    /// What wood that comes out as `first` under the first light will look like under the second.
    Lab repair(const Lab& first) const;
    const Lab& original() const { return original_; }

  private:
    LabTable table_;
    Lab original_, offset_;
};

}  // namespace tonemend
