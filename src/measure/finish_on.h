#pragma once

#include <array>
#include <memory>
#include <span>

#include "colour/lab.h"
#include "colour/matrix3.h"

namespace tonemend {

/// What the dry wood is looked at under.
enum class FinishLook {
    finished,  ///< its clear finish, dry
    wet,       ///< mineral spirits or another thinner, still wet: the trade's preview of the finish
};
/// How yellow the finish is in the can.
enum class FinishTint { clear, light, amber };
enum class FinishSheen { gloss, satin, matt };

/// What is known of a finish without any reading of it.
struct FinishFacts {
    FinishLook look = FinishLook::finished;
    FinishTint tint = FinishTint::light;
    FinishSheen sheen = FinishSheen::satin;
};

/// The same place of a board, dry and bare (stained or not), then with the finish on.
struct FinishPair {
    Lab bare, finished;
    std::array<double, 3> bare_u95{}, finished_u95{};  ///< half widths of the 95 % intervals
};

/// A colour foretold.
struct FinishForecast {
    Lab lab;
    std::array<double, 3> u95{};  ///< half widths of the 95 % intervals of L*, a*, b*
    double de2000_u95 = 0;        ///< 95 % of what may come lies within this of `lab`
    int pairs = 0;                ///< that were learnt from
};

/// What wood looks like with a finish on. First from physics: each wavelength of an estimated reflectance
/// through the film (see through_film) with what is usual for such finishes, and how much those differ; then
/// from the user's own `pairs` of this wood and finish, which narrow the film's k2, wetting, tint and haze
/// and what this wood and finish have in common beside (linear Bayes, repeated until it stands). More pairs
/// never widen the interval.
class FinishModel {
  public:
    FinishModel(const FinishFacts& facts, std::span<const FinishPair> pairs);
    /// What wood that reads `bare` will look like.
    FinishForecast foretell(const Lab& bare, const std::array<double, 3>& bare_u95) const;
    /// The middle of that alone.
    Lab finished(const Lab& bare) const;

  private:
    struct Learnt;
    std::shared_ptr<const Learnt> learnt_;
    int pairs_ = 0;
};

}  // namespace tonemend
