#pragma once

#include <span>
#include <string>
#include <vector>

#include "advise/kit/kit.h"
#include "advise/model/colourant_model.h"

namespace tonemend {

/// What to put on a sample board next.
struct StripAdvice {
    std::size_t jar = 0;  ///< in the kit
    double thinner = 0;   ///< parts to one of colourant
    bool second = false;  ///< over the strip of that jar and thinning that is there, not on bare wood
    double before = 0;    ///< how well the kit's coats are foretold on this wood: see foretold_within
    double after = 0;     ///< and when this has been read
};

/// How far a coat of the kit's jars on this wood may come out from what is foretold: the root mean square
/// over all jars that colour, at half strength and at the strongest, first coat and second, of the standard
/// deviation of L*, a*, b* together. CIELAB units.
double foretold_within(const Kit& kit, const ModelJars& jars, const ColourantModel& model,
                       const ReadLook& bare, const CoatPlace& place);

/// The strips that teach the most about what the kit does on this wood, best first, at most `most`; a strip
/// that would narrow what is foretold by less than a fortieth is not asked for. `bare`: the wood as it is.
/// Each jar is asked for at its strongest first, then for a second coat on the same strip, then thinner:
/// common practice, and by simulation one strip on the job's own wood is worth more than ten on other woods.
std::vector<StripAdvice> advise_strips(const Kit& kit, const ModelJars& jars,
                                       std::span<const CoatObservation> seen, const ReadLook& bare,
                                       const CoatPlace& place, std::size_t most);

}  // namespace tonemend
