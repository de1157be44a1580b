// How the model learns.
#include <algorithm>
#include <cassert>
#include <cmath>

#include <Eigen/Cholesky>

#include "advise/model/colourant_model.h"

namespace tonemend {
namespace {

// Of one observation: what is missed, and how much that weighs.
struct Missed {
    LookVector residual;
    LookCovariance weight;  // zero for the figure of a plain wood
};

Missed weigh_residual(const CoatObservation& seen, const LookSlopes& by, LookCovariance covariance) {
    Missed missed;
    missed.residual = to_vector(seen.after.look) - to_vector(by.after);
    covariance.diagonal().array() += seen.after.u * seen.after.u;
    missed.weight.setZero();
    const Eigen::Index rows = seen.before.look.plain() ? 3 : 6;
    const Eigen::MatrixXd used = covariance.topLeftCorner(rows, rows);
    missed.weight.topLeftCorner(rows, rows) = used.ldlt().solve(Eigen::MatrixXd::Identity(rows, rows));
    // A strip that was misread or mislabelled must not pull all the others.
    const double distance =
        std::sqrt(missed.residual.dot(missed.weight * missed.residual) / static_cast<double>(rows));
    constexpr double far = 2.5;
    if (distance > far) missed.weight *= far / distance;
    return missed;
}

}  // namespace

ColourantModel::ColourantModel(std::vector<Colourant> colourants,
                               std::span<const CoatObservation> observations)
    : colourants_(std::move(colourants)) {
    Eigen::Index count = 0;
    for (const Colourant& colourant : colourants_) {
        first_.push_back(count);
        count += static_cast<Eigen::Index>(unknowns_of(colourant.group));
    }
    std::vector<double> latent_sd;
    const auto need = [&](const Latent& wanted, double sd) {
        if (std::find(latents_.begin(), latents_.end(), wanted) != latents_.end()) return;
        latents_.push_back(wanted);
        latent_sd.push_back(sd);
    };
    for (const CoatObservation& seen : observations)
        for (const AppliedCoat& coat : seen.coats) {
            assert(coat.colourant < colourants_.size());
            const ColourantGroup group = colourants_[coat.colourant].group;
            const WoodBelief& belief = wood_belief(group);
            need({group, std::nullopt, seen.place.wood, false}, belief.wood);
            need({group, coat.colourant, seen.place.wood, false}, belief.own);
            need({group, std::nullopt, seen.place.board, true}, belief.board);
        }
    values_ = Eigen::VectorXd::Zero(count + static_cast<Eigen::Index>(latents_.size()));
    Eigen::VectorXd sd(values_.size());
    for (std::size_t k = 0; k < colourants_.size(); ++k) {
        const ColourantBelief belief = prior_belief(colourants_[k].group, colourants_[k].hue);
        for (std::size_t i = 0; i < unknowns_of(colourants_[k].group); ++i) {
            values_[first_[k] + static_cast<Eigen::Index>(i)] = belief[i].mean;
            sd[first_[k] + static_cast<Eigen::Index>(i)] = belief[i].sd;
        }
    }
    for (std::size_t i = 0; i < latent_sd.size(); ++i)
        sd[count + static_cast<Eigen::Index>(i)] = latent_sd[i];
    fit(sd, observations);
}

void ColourantModel::fit(const Eigen::VectorXd& prior_sd, std::span<const CoatObservation> observations) {
    const Eigen::VectorXd prior = values_, prior_weight = prior_sd.array().square().inverse();
    constexpr int most_steps = 12;
    constexpr double longest = 0.7, settled = 1e-4;
    Eigen::MatrixXd information;
    for (int step = 0; step < most_steps; ++step) {
        information = prior_weight.asDiagonal();
        Eigen::VectorXd pull = prior_weight.cwiseProduct(prior - values_);
        for (const CoatObservation& seen : observations) {
            const LookSlopes by = slopes(seen.before.look, seen.coats, seen.place);
            const Missed missed =
                weigh_residual(seen, by, unlearnt(by, as_forecast(seen.before), seen.coats));
            const UnknownSlopes learnt =
                slopes_by_unknowns(by, seen.coats, seen.place, seen.before.look.plain());
            const Eigen::Matrix<double, Eigen::Dynamic, 6> weighted =
                learnt.slopes.transpose() * missed.weight;
            const Eigen::VectorXd force = weighted * missed.residual;
            const Eigen::MatrixXd stiffness = weighted * learnt.slopes;
            for (std::size_t i = 0; i < learnt.places.size(); ++i) {
                const auto row = static_cast<Eigen::Index>(i);
                pull[learnt.places[i]] += force[row];
                for (std::size_t j = 0; j < learnt.places.size(); ++j)
                    information(learnt.places[i], learnt.places[j]) +=
                        stiffness(row, static_cast<Eigen::Index>(j));
            }
        }
        if (observations.empty()) break;
        Eigen::VectorXd move = information.ldlt().solve(pull);
        const double length = move.cwiseAbs().maxCoeff();
        if (length > longest) move *= longest / length;
        values_ += move;
        if (length < settled) break;
    }
    covariance_ = information.ldlt().solve(Eigen::MatrixXd::Identity(values_.size(), values_.size()));
}

}  // namespace tonemend
