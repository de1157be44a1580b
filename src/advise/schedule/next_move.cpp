#include "advise/schedule/next_move.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <Eigen/Cholesky>

#include "colour/difference.h"

namespace tonemend {
namespace {

// L* of the finished whole, by L* of the bare one.
double lightness_slope(const FinishTable& finish, const Lab& bare) {
    constexpr double step = 1;
    Lab more = bare, less = bare;
    more.L += step, less.L -= step;
    return (finish.finished(more).L - finish.finished(less).L) / (2 * step);
}

// The mean of CIEDE2000 over what the whole may come out as: six points that have its covariance.
double expected_whole(const MoveQuestion& question, const CoatMove& move) {
    const Eigen::Matrix3d root = move.bare.whole_covariance().llt().matrixL();
    const Lab bare = whole_of(move.bare.look), target = whole_of(question.target);
    double sum = 0;
    for (int axis = 0; axis < 3; ++axis)
        for (const double sign : {-1.0, 1.0}) {
            const Eigen::Vector3d away = sign * std::sqrt(3.0) * root.col(axis);
            const Lab may_be{bare.L + away[0], bare.a + away[1], bare.b + away[2]};
            sum += ciede2000(question.finish != nullptr ? question.finish->finished(may_be) : may_be, target)
                       .value;
        }
    return sum / 6;
}

CoatMove weigh(const MoveQuestion& question, std::vector<AppliedCoat> coats, LookForecast bare) {
    CoatMove move{std::move(coats), std::move(bare), {}};
    move.finished = question.finish != nullptr ? question.finish->finished(move.bare.look) : move.bare.look;
    const double slope =
        question.finish != nullptr ? lightness_slope(*question.finish, whole_of(move.bare.look)) : 1;
    move.sd_lightness = slope * std::sqrt(move.bare.whole_covariance()(0, 0));
    move.de2000 = apart(move.finished, question.target);
    move.expected_de2000 = move.de2000 + expected_whole(question, move) -
                           ciede2000(whole_of(move.finished), whole_of(question.target)).value;
    move.too_dark = std::max(0.0, whole_of(question.target).L - (whole_of(move.finished).L -
                                                                 question.price.margin * move.sd_lightness));
    double apart_by = move.expected_de2000;
    if (question.second != nullptr) {
        move.second_de2000 =
            ciede2000(question.second->repair(whole_of(move.finished)), question.second->original()).value;
        apart_by = (apart_by + *move.second_de2000) / 2;
    }
    move.cost = apart_by + question.price.darkness * move.too_dark;
    return move;
}

AppliedCoat coat_of(const MoveQuestion& question, const ShelfJar& jar, double concentration) {
    return {jar.colourant, concentration, question.earlier[jar.colourant]};
}

// The least cost over the strength of a cup, on a logarithmic scale: a coarse look, then a golden section.
template <typename Try>
CoatMove best_strength(double weakest, double strongest, Try attempt) {
    constexpr int looks = 7;
    const double low = std::log(weakest), high = std::log(strongest);
    CoatMove best = attempt(strongest);
    double place = high;
    for (int i = 0; i < looks - 1; ++i) {
        const double here = low + (high - low) * i / (looks - 1);
        CoatMove move = attempt(std::exp(here));
        if (move.cost < best.cost) best = std::move(move), place = here;
    }
    const double reach = (high - low) / (looks - 1);
    double left = std::max(low, place - reach), right = std::min(high, place + reach);
    constexpr double golden = 0.618033988749895;
    const auto between = [&](double share) { return left + share * (right - left); };
    CoatMove lower = attempt(std::exp(between(1 - golden))), upper = attempt(std::exp(between(golden)));
    for (int i = 0; i < 6 && right - left > 0.02; ++i) {
        if (lower.cost < upper.cost) {
            right = between(golden);
            upper = std::move(lower);
            lower = attempt(std::exp(between(1 - golden)));
        } else {
            left = between(1 - golden);
            lower = std::move(upper);
            upper = attempt(std::exp(between(golden)));
        }
    }
    for (CoatMove* move : {&lower, &upper})
        if (move->cost < best.cost) best = std::move(*move);
    return best;
}

}  // namespace

CoatMove try_coats(const MoveQuestion& question, const std::vector<AppliedCoat>& coats) {
    return weigh(question, coats, question.model->foretell(question.now, coats, question.place));
}

double apart(const WoodLook& look, const WoodLook& target) {
    const double whole = ciede2000(whole_of(look), whole_of(target)).value;
    if (look.plain() || target.plain()) return whole;
    const double share = target.figure_share;
    return 0.5 * whole + 0.5 * ((1 - share) * ciede2000(look.ground, target.ground).value +
                                share * ciede2000(look.figure, target.figure).value);
}

CoatMove stand_now(const MoveQuestion& question) {
    return weigh(question, {}, question.now);
}

std::vector<CoatMove> rank_moves(const MoveQuestion& question, std::size_t most) {
    std::vector<CoatMove> moves;
    for (const ShelfJar& jar : question.shelf)
        moves.push_back(best_strength(jar.weakest, jar.strongest, [&](double strength) {
            return try_coats(question, {coat_of(question, jar, strength)});
        }));
    // Two in one cup: `share` of the first in the colourant, the whole as strong as both allow.
    constexpr std::array shares{0.25, 0.5, 0.75};
    for (std::size_t i = 0; i < question.shelf.size(); ++i)
        for (std::size_t j = i + 1; j < question.shelf.size(); ++j) {
            const ShelfJar &one = question.shelf[i], &other = question.shelf[j];
            if (one.mixes_with.empty() || one.mixes_with != other.mixes_with) continue;
            std::optional<CoatMove> best;
            for (const double share : shares) {
                CoatMove move = best_strength(
                    std::max(one.weakest, other.weakest), std::min(one.strongest, other.strongest),
                    [&](double strength) {
                        return try_coats(question, {coat_of(question, one, share * strength),
                                                    coat_of(question, other, (1 - share) * strength)});
                    });
                if (!best || move.cost < best->cost) best = std::move(move);
            }
            moves.push_back(std::move(*best));
        }
    const double stands = stand_now(question).cost;
    std::erase_if(moves, [&](const CoatMove& move) { return move.cost >= stands; });
    std::sort(moves.begin(), moves.end(),
              [](const CoatMove& one, const CoatMove& other) { return one.cost < other.cost; });
    if (moves.size() > most) moves.resize(most);
    return moves;
}

}  // namespace tonemend
