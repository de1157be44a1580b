#pragma once

#include <Eigen/Core>
#include <array>
#include <string>
#include <vector>

#include "calibrate/model/colour_sample.h"

namespace tonemend {

/// A sample as the picture shows it.
struct SampleReading {
    ColourSample sample;
    Lab seen;                   ///< by the calibration
    std::array<double, 3> u{};  ///< of L*, a*, b*: instrument and reading
    bool left_out = false;      ///< it disagrees with the picture and the other samples
    Lab expected;               ///< what those say instead
};

/// What a calibration's colours may be off by before any sample is known, as a random field over CIELAB.
struct LocalPrior {
    std::array<double, 3> u{};        ///< standard deviation of L*, a*, b*
    std::array<double, 3> between{};  ///< correlation of two materials at one colour, 0..1
    /// Part of each sample's `u` that all share, because one instrument read them: it moves all colours alike
    /// and is not learnt away by more samples.
    double instrument = 0;
};

/// A correction of colours near samples of known colour: kriging (Gaussian-process regression, C. E.
/// Rasmussen, C. K. I. Williams, "Gaussian Processes for Machine Learning" (2006), 2.2) of stated minus seen,
/// each axis for itself, with a squared exponential covariance of length 15 in CIELAB: far from all samples
/// nothing is corrected. A sample of the other side's material counts less.
class LocalCorrection {
  public:
    LocalCorrection() = default;
    /// A sample farther than 3 standard deviations and 1 in ΔE2000 from what the others and the prior lead to
    /// expect is left out, the worst first.
    LocalCorrection(const LocalPrior& prior, std::vector<SampleReading> samples);

    bool empty() const { return used_.empty(); }
    const std::vector<SampleReading>& samples() const { return samples_; }
    Lab correct(const Lab& seen, SampleSide side) const;
    /// What stays unknown of the colours of an original and a repair: for each axis the covariance of their
    /// errors, original first.
    std::array<Eigen::Matrix2d, 3> covariance(const Lab& original, const Lab& repair) const;

  private:
    double kernel(const Lab& one, SampleSide its, const Lab& other, SampleSide others,
                  std::size_t axis) const;
    Eigen::VectorXd against(const Lab& seen, SampleSide side, std::size_t axis) const;
    void use(const std::vector<std::size_t>& used);
    bool leave_out_worst();

    LocalPrior prior_;
    std::vector<SampleReading> samples_;
    std::vector<std::size_t> used_;
    std::array<Eigen::MatrixXd, 3> inverse_;    // of the covariance of what was read at the samples used
    std::array<Eigen::VectorXd, 3> departure_;  // stated minus seen
};

}  // namespace tonemend
