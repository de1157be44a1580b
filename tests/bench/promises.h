#pragma once

#include <string>
#include <vector>

#include "tests/bench/characterisation_scores.h"

namespace tonemend::bench {

/// Collects what is promised, prints what is broken.
class Promises {
  public:
    void require(bool holds, const std::string& what);
    /// Median and 95th percentile at most so large.
    void require_target(const std::string& what, const std::vector<double>& errors, double median,
                        double most);
    /// Each of the four intervals holds the truth in 90 to 99 % of pictures.
    void require_coverage(const std::string& where, const Scores& scores);
    /// Neither median nor 95th percentile of the errors `with` may stand over those `without`, of the same
    /// pictures, `group` values in a row for each. Two bounds: a rise beyond `most_rise` of the error (for
    /// 480 pictures; more for fewer, as a percentile then scatters) and `smallest_rise` is refused whatever
    /// made it; smaller ones are kept until judge_rises.
    void require_no_rise(const std::string& where, const std::vector<double>& with,
                         const std::vector<double>& without, std::size_t group);
    /// Of all rises that were kept, those are refused which the choice of pictures does not explain: so many
    /// are looked at that some stand out by chance, so the chance to refuse even one wrongly is held at 5 %
    /// by Holm's method.
    void judge_rises();
    bool broken() const { return broken_; }

    static constexpr double most_rise = 0.05, smallest_rise = 0.005;

  private:
    std::vector<std::string> rises_;
    std::vector<double> chances_;
    bool broken_ = false;
};

/// "median/95th percentile".
std::string pair_of(const std::vector<double>& values);

}  // namespace tonemend::bench
