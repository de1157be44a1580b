#pragma once

#include <vector>

namespace tonemend {

/// How what is left of a change falls with time, from 1 at 0 s towards 0, apart from its size.
struct SettlingShape {
    double scale = 60;  ///< seconds until a sixteenth is left by one stage, or by the slower of two
    double drag = 0;    ///< how the end drags on: 0 exponential; above, at last as time^(−1/drag)
    double share = 0;   ///< of a second, faster stage, 0..1; 0: one stage
    double faster = 1;  ///< how many times as fast that one is

    bool two_stages() const { return share > 0; }
    /// What is left after `seconds` (0 or more). One stage: exp(−k·t), or (1 + drag·k·t)^(−1/drag), with k
    /// such that a sixteenth is left at `scale`. Two: (1 − share) of that and `share` of the same, faster.
    /// Sources, from memory: the one- and two-term exponentials of thin-layer drying (W. K. Lewis, 1921; S.
    /// M. Henderson, Trans. ASAE 17 (1974)); drag is kinetics of an order of 1 + drag.
    double left(double seconds) const { return left_at(rate() * seconds); }
    /// The seconds at which `part` (0..1, both excluded) is left; the inverse of left.
    double time_of(double part) const;

    double rate() const;                  ///< k, a second
    double left_at(double passed) const;  ///< left, by k·t
};

/// A shape and the logarithm of its prior density.
struct WeighedShape {
    SettlingShape shape;
    double log_prior = 0;
};

/// What is believed of the scale before a reading: log-normal.
struct SettlingPrior {
    double minutes = 40;  ///< median
    double spread = 1.4;  ///< standard deviation of the natural logarithm
};

/// Shapes of one and two stages, at scales evenly spread in their logarithm from `shortest` to `longest`
/// seconds, `count` at least 2 of them, each with its prior.
std::vector<WeighedShape> make_shapes(const SettlingPrior& prior, double shortest, double longest, int count);

}  // namespace tonemend
