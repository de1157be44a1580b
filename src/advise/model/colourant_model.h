#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "advise/model/colourant_model_parts.h"
#include "advise/model/colourant_prior.h"
#include "advise/model/wood_look.h"

namespace tonemend {

/// A coat as it was, or is to be, put on.
struct AppliedCoat {
    std::size_t colourant = 0;  ///< index in the model's list
    double concentration = 1;   ///< share of the colourant as it comes in what is put on, over 0 to 1
    int earlier = 0;            ///< coats of the same colourant on the wood already
};

/// Where it is put on.
struct CoatPlace {
    std::string wood;   ///< any name; the same name, the same wood
    std::string board;  ///< any name; the same name, the same board
    int grit = 150;     ///< the last one before staining, 60..600
};

/// Coats, wood before and after them. Several coats were put on with no reading between, or as one mixture.
struct CoatObservation {
    std::vector<AppliedCoat> coats;
    CoatPlace place;
    ReadLook before, after;
};

/// A colour foretold.
struct LookForecast {
    WoodLook look;
    /// Of L*, a*, b* of the ground, then of the figure, and of the reading that will be made of them.
    LookCovariance covariance;

    /// Of the whole look.
    Eigen::Matrix3d whole_covariance() const;
    /// Half widths of its 95 % intervals of L*, a*, b*.
    std::array<double, 3> whole_u95() const;
};

/// A reading as if it had been foretold: with the errors of ground and figure each its own.
LookForecast as_forecast(const ReadLook& read);

/// What a kit's colourants do to wood, learnt from readings before and after: a dye by the K/S that it adds,
/// a pigment by a Kubelka–Munk layer, in three wide channels, the amount of each by thinning, coats, grit and
/// what the wood takes. Begins with prior_belief, so that it foretells before anything was tried, with wide
/// intervals; each observation narrows them. Gauss's and Newton's steps to the most probable values, and the
/// curvature there as their covariance (Laplace's approximation).
class ColourantModel {
  public:
    struct Colourant {
        ColourantGroup group = ColourantGroup::dye;
        std::optional<HueWord> hue = std::nullopt;
    };
    /// Coats must name colourants of the list and have a concentration over 0 (asserted).
    ColourantModel(std::vector<Colourant> colourants, std::span<const CoatObservation> observations);

    /// The look after the coats, in their order, on wood that looks so before. The covariance counts what is
    /// not known of colourants, wood and board, how unevenly a hand puts coats on, the reading before, and
    /// what the model leaves out.
    LookForecast foretell(const ReadLook& before, std::span<const AppliedCoat> coats,
                          const CoatPlace& place) const;
    /// The same for a look that was itself foretold.
    LookForecast foretell(const LookForecast& before, std::span<const AppliedCoat> coats,
                          const CoatPlace& place) const;

    /// Standard deviation of the natural logarithm of the amount of this colourant that such a place takes.
    double amount_sd(std::size_t colourant, const CoatPlace& place) const;
    /// Whether a coat of the colourant's group was read on that wood.
    bool wood_known(std::size_t colourant, const std::string& wood) const;
    /// What is known by now: `unknown` must be one that the colourant's group has (asserted).
    LearntValue belief(std::size_t colourant, Unknown unknown) const;
    const std::vector<Colourant>& colourants() const { return colourants_; }

  private:
    void fit(const Eigen::VectorXd& prior_sd, std::span<const CoatObservation> observations);
    // A wood's or board's part of the amount, of one colourant or of its whole group.
    struct Latent {
        ColourantGroup group = ColourantGroup::dye;
        std::optional<std::size_t> colourant;
        std::string name;
        bool board = false;
        bool operator==(const Latent&) const = default;
    };
    std::optional<Eigen::Index> find_latent(const Latent& latent) const;
    // Places among the unknowns of what a coat's amount is made of beside its colourant's own, and the
    // variance of what is not among them.
    struct AmountParts {
        std::vector<Eigen::Index> known;
        double unknown_variance = 0;
    };
    AmountParts amount_parts(const AppliedCoat& coat, const CoatPlace& place) const;
    double log_amount(const AppliedCoat& coat, const CoatPlace& place, bool figure) const;

    SurfaceSlopes surface_slopes(const Lab& before, std::span<const AppliedCoat> coats,
                                 const CoatPlace& place, bool figure) const;
    LookSlopes slopes(const WoodLook& before, std::span<const AppliedCoat> coats,
                      const CoatPlace& place) const;
    UnknownSlopes slopes_by_unknowns(const LookSlopes& by, std::span<const AppliedCoat> coats,
                                     const CoatPlace& place, bool plain) const;
    // The covariance of what no observation teaches: the hand, the reading before, what the model leaves out.
    LookCovariance unlearnt(const LookSlopes& slopes, const LookForecast& before,
                            std::span<const AppliedCoat> coats) const;

    std::vector<Colourant> colourants_;
    std::vector<Eigen::Index> first_;  // of each colourant's unknowns
    std::vector<Latent> latents_;      // behind them
    Eigen::VectorXd values_;
    Eigen::MatrixXd covariance_;
};

}  // namespace tonemend
