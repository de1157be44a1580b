#include "advise/model/colourant_model.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace tonemend {
namespace {

Eigen::Vector3d to_vector(const Lab& lab) {
    return {lab.L, lab.a, lab.b};
}

double squared(double value) {
    return value * value;
}

}  // namespace

LookVector to_vector(const WoodLook& look) {
    LookVector vector;
    vector << to_vector(look.ground), to_vector(look.figure);
    return vector;
}

Eigen::Matrix3d LookForecast::whole_covariance() const {
    Eigen::Matrix<double, 3, 6> mix;
    const Eigen::Matrix3d one = Eigen::Matrix3d::Identity();
    mix << (1 - look.figure_share) * one, look.figure_share * one;
    return mix * covariance * mix.transpose();
}

std::array<double, 3> LookForecast::whole_u95() const {
    const Eigen::Vector3d variance = whole_covariance().diagonal();
    return {1.96 * std::sqrt(variance[0]), 1.96 * std::sqrt(variance[1]), 1.96 * std::sqrt(variance[2])};
}

std::optional<Eigen::Index> ColourantModel::find_latent(const Latent& wanted) const {
    const auto found = std::find(latents_.begin(), latents_.end(), wanted);
    if (found == latents_.end()) return std::nullopt;
    return values_.size() - (latents_.end() - found);
}

ColourantModel::AmountParts ColourantModel::amount_parts(const AppliedCoat& coat,
                                                         const CoatPlace& place) const {
    const ColourantGroup group = colourants_[coat.colourant].group;
    const WoodBelief& belief = wood_belief(group);
    AmountParts parts;
    const auto add = [&](const Latent& latent, double sd) {
        if (const auto found = find_latent(latent)) {
            parts.known.push_back(*found);
        } else {
            parts.unknown_variance += squared(sd);
        }
    };
    add({group, std::nullopt, place.wood, false}, belief.wood);
    add({group, coat.colourant, place.wood, false}, belief.own);
    add({group, std::nullopt, place.board, true}, belief.board);
    return parts;
}

double ColourantModel::log_amount(const AppliedCoat& coat, const CoatPlace& place, bool figure) const {
    const auto value = [&](Unknown unknown) {
        return values_[first_[coat.colourant] + static_cast<Eigen::Index>(unknown)];
    };
    double sum =
        value(Unknown::thinning) * std::log(coat.concentration) + value(Unknown::next_coat) * coat.earlier +
        value(Unknown::grit) * std::log2(place.grit / 150.0) + (figure ? value(Unknown::lodging) : 0);
    for (const Eigen::Index part : amount_parts(coat, place).known) sum += values_[part];
    return sum;
}

namespace {

// One surface on its way through the coats.
struct CoatOfSurface {
    ColourantGroup group;
    CoatStrength strength;
    double log_amount;
};

Lab after_coats(const Lab& before, const std::vector<CoatOfSurface>& coats) {
    WideChannels channels = to_channels(before);
    for (const CoatOfSurface& coat : coats)
        channels = after_coat(channels, coat.group, coat.strength, std::exp(coat.log_amount));
    return to_lab(channels);
}

constexpr double log_step = 0.01, lab_step = 0.05;

// By half the difference of two runs.
template <typename Change>
Eigen::Vector3d slope_of(const Lab& before, std::vector<CoatOfSurface> coats, double step, Change change) {
    std::vector<CoatOfSurface> less = coats;
    change(coats, step), change(less, -step);
    return (to_vector(after_coats(before, coats)) - to_vector(after_coats(before, less))) / (2 * step);
}

SurfaceSlopes slopes_of(const Lab& before, const std::vector<CoatOfSurface>& coats) {
    SurfaceSlopes slopes;
    slopes.after = after_coats(before, coats);
    for (std::size_t c = 0; c < coats.size(); ++c) {
        CoatSlopes& coat = slopes.coats.emplace_back();
        for (std::size_t i = 0; i < 3; ++i)
            coat.absorption.col(static_cast<Eigen::Index>(i)) =
                slope_of(before, coats, log_step, [&](std::vector<CoatOfSurface>& list, double step) {
                    list[c].strength.absorption[i] *= std::exp(step);
                });
        coat.scattering =
            coats[c].group != ColourantGroup::pigment
                ? Eigen::Vector3d::Zero()
                : slope_of(before, coats, log_step, [&](std::vector<CoatOfSurface>& list, double step) {
                      list[c].strength.scattering *= std::exp(step);
                  });
        coat.amount = slope_of(before, coats, log_step, [&](std::vector<CoatOfSurface>& list, double step) {
            list[c].log_amount += step;
        });
    }
    for (int axis = 0; axis < 3; ++axis) {
        const auto moved = [&](double by) {
            Lab lab = before;
            (axis == 0 ? lab.L : axis == 1 ? lab.a : lab.b) += by;
            return to_vector(after_coats(lab, coats));
        };
        slopes.before.col(axis) = (moved(lab_step) - moved(-lab_step)) / (2 * lab_step);
    }
    return slopes;
}

}  // namespace

SurfaceSlopes ColourantModel::surface_slopes(const Lab& before, std::span<const AppliedCoat> coats,
                                             const CoatPlace& place, bool figure) const {
    std::vector<CoatOfSurface> list;
    for (const AppliedCoat& coat : coats) {
        assert(coat.colourant < colourants_.size() && coat.concentration > 0);
        const ColourantGroup group = colourants_[coat.colourant].group;
        const Eigen::Index first = first_[coat.colourant];
        CoatOfSurface& one = list.emplace_back();
        one.group = group;
        for (std::size_t i = 0; i < 3; ++i)
            one.strength.absorption[i] = std::exp(values_[first + static_cast<Eigen::Index>(i)]);
        if (group == ColourantGroup::pigment)
            one.strength.scattering =
                std::exp(values_[first + static_cast<Eigen::Index>(Unknown::scattering)]);
        one.log_amount = log_amount(coat, place, figure);
    }
    return slopes_of(before, list);
}

LookSlopes ColourantModel::slopes(const WoodLook& before, std::span<const AppliedCoat> coats,
                                  const CoatPlace& place) const {
    LookSlopes both;
    both.ground = surface_slopes(before.ground, coats, place, false);
    both.figure = before.plain() ? both.ground : surface_slopes(before.figure, coats, place, true);
    both.after = {both.ground.after, both.figure.after, before.figure_share};
    return both;
}

LookForecast as_forecast(const ReadLook& read) {
    return {read.look, read.u * read.u * LookCovariance::Identity()};
}

LookCovariance ColourantModel::unlearnt(const LookSlopes& slopes, const LookForecast& before,
                                        std::span<const AppliedCoat> coats) const {
    LookCovariance through = LookCovariance::Zero();
    through.topLeftCorner<3, 3>() = slopes.ground.before;
    through.bottomRightCorner<3, 3>() = slopes.figure.before;
    LookCovariance covariance = through * before.covariance * through.transpose();
    double rest = 0;
    const double moved = (to_vector(slopes.after.ground) - to_vector(before.look.ground)).norm();
    for (std::size_t c = 0; c < coats.size(); ++c) {
        const WoodBelief& belief = wood_belief(colourants_[coats[c].colourant].group);
        const LookVector amount = slopes.amount(c);
        covariance += squared(belief.application) * amount * amount.transpose();
        rest = std::max(rest, squared(belief.discrepancy) + squared(belief.discrepancy_share * moved));
    }
    covariance.diagonal().array() += rest;
    return covariance;
}

LookForecast ColourantModel::foretell(const ReadLook& before, std::span<const AppliedCoat> coats,
                                      const CoatPlace& place) const {
    return foretell(as_forecast(before), coats, place);
}

LookForecast ColourantModel::foretell(const LookForecast& before, std::span<const AppliedCoat> coats,
                                      const CoatPlace& place) const {
    const LookSlopes by = slopes(before.look, coats, place);
    LookForecast forecast{by.after, unlearnt(by, before, coats)};
    const UnknownSlopes learnt = slopes_by_unknowns(by, coats, place, before.look.plain());
    for (std::size_t i = 0; i < learnt.places.size(); ++i)
        for (std::size_t j = 0; j < learnt.places.size(); ++j)
            forecast.covariance += covariance_(learnt.places[i], learnt.places[j]) *
                                   learnt.slopes.col(static_cast<Eigen::Index>(i)) *
                                   learnt.slopes.col(static_cast<Eigen::Index>(j)).transpose();
    for (std::size_t c = 0; c < coats.size(); ++c) {
        const LookVector amount = by.amount(c);
        forecast.covariance += amount_parts(coats[c], place).unknown_variance * amount * amount.transpose();
    }
    return forecast;
}

UnknownSlopes ColourantModel::slopes_by_unknowns(const LookSlopes& by, std::span<const AppliedCoat> coats,
                                                 const CoatPlace& place, bool plain) const {
    UnknownSlopes result;
    std::vector<LookVector> columns;
    const auto add = [&](Eigen::Index unknown, const LookVector& slope) {
        const auto found = std::find(result.places.begin(), result.places.end(), unknown);
        if (found == result.places.end()) {
            result.places.push_back(unknown);
            columns.push_back(slope);
        } else {
            columns[static_cast<std::size_t>(found - result.places.begin())] += slope;
        }
    };
    for (std::size_t c = 0; c < coats.size(); ++c) {
        const AppliedCoat& coat = coats[c];
        const Eigen::Index first = first_[coat.colourant];
        const auto own = [&](Unknown unknown, const LookVector& slope) {
            add(first + static_cast<Eigen::Index>(unknown), slope);
        };
        const LookVector amount = by.amount(c);
        for (int i = 0; i < 3; ++i) {
            LookVector absorption;
            absorption << by.ground.coats[c].absorption.col(i), by.figure.coats[c].absorption.col(i);
            add(first + i, absorption);
        }
        own(Unknown::thinning, std::log(coat.concentration) * amount);
        own(Unknown::next_coat, coat.earlier * amount);
        own(Unknown::grit, std::log2(place.grit / 150.0) * amount);
        LookVector lodging = amount;
        lodging.head<3>().setZero();
        if (!plain) own(Unknown::lodging, lodging);
        if (colourants_[coat.colourant].group == ColourantGroup::pigment) {
            LookVector scattering;
            scattering << by.ground.coats[c].scattering, by.figure.coats[c].scattering;
            own(Unknown::scattering, scattering);
        }
        for (const Eigen::Index part : amount_parts(coat, place).known) add(part, amount);
    }
    result.slopes.resize(6, static_cast<Eigen::Index>(columns.size()));
    for (std::size_t i = 0; i < columns.size(); ++i)
        result.slopes.col(static_cast<Eigen::Index>(i)) = columns[i];
    return result;
}

double ColourantModel::amount_sd(std::size_t colourant, const CoatPlace& place) const {
    const AmountParts parts = amount_parts({colourant, 1, 0}, place);
    double variance = parts.unknown_variance;
    for (const Eigen::Index i : parts.known)
        for (const Eigen::Index j : parts.known) variance += covariance_(i, j);
    return std::sqrt(variance);
}

bool ColourantModel::wood_known(std::size_t colourant, const std::string& wood) const {
    return find_latent({colourants_[colourant].group, std::nullopt, wood, false}).has_value();
}

LearntValue ColourantModel::belief(std::size_t colourant, Unknown unknown) const {
    assert(static_cast<std::size_t>(unknown) < unknowns_of(colourants_[colourant].group));
    const Eigen::Index at = first_[colourant] + static_cast<Eigen::Index>(unknown);
    return {values_[at], std::sqrt(covariance_(at, at))};
}

}  // namespace tonemend
