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

// The cheapest of a coarse look over the strength of a cup, on a logarithmic scale, and where to look closer.
struct Looked {
    CoatMove best;
    double left = 0, right = 0;
};

template <typename Try>
Looked look_over(double weakest, double strongest, Try attempt) {
    constexpr int looks = 6;
    const double low = std::log(weakest), high = std::log(strongest), step = (high - low) / (looks - 1);
    Looked looked{attempt(strongest)};
    double place = high;
    for (int i = 0; i < looks - 1; ++i) {
        CoatMove move = attempt(std::exp(low + step * i));
        if (move.cost < looked.best.cost) looked.best = std::move(move), place = low + step * i;
    }
    looked.left = std::max(low, place - step), looked.right = std::min(high, place + step);
    return looked;
}

// A golden section between.
template <typename Try>
CoatMove look_closer(Looked&& looked, Try attempt) {
    CoatMove best = std::move(looked.best);
    double left = looked.left, right = looked.right;
    constexpr double golden = 0.618033988749895;
    const auto at = [&](double share) { return attempt(std::exp(left + share * (right - left))); };
    CoatMove lower = at(1 - golden), upper = at(golden);
    for (int i = 0; i < 6 && right - left > 0.02; ++i) {
        if (lower.cost < upper.cost) {
            right = left + golden * (right - left);
            upper = std::move(lower);
            lower = at(1 - golden);
        } else {
            left = left + (1 - golden) * (right - left);
            lower = std::move(upper);
            upper = at(golden);
        }
    }
    for (CoatMove* move : {&lower, &upper})
        if (move->cost < best.cost) best = std::move(*move);
    return best;
}

CoatMove best_alone(const MoveQuestion& question, const ShelfJar& jar) {
    const auto attempt = [&](double strength) {
        return try_coats(question, {coat_of(question, jar, strength)});
    };
    return look_closer(look_over(jar.weakest, jar.strongest, attempt), attempt);
}

// Two in one cup, as strong as both allow.
CoatMove best_together(const MoveQuestion& question, const ShelfJar& one, const ShelfJar& other) {
    const auto attempt_with = [&](double share) {
        return [&question, &one, &other, share](double strength) {
            return try_coats(question, {coat_of(question, one, share * strength),
                                        coat_of(question, other, (1 - share) * strength)});
        };
    };
    constexpr std::array shares{0.25, 0.5, 0.75};
    std::optional<Looked> best;
    double best_share = 0;
    for (const double share : shares) {
        Looked looked = look_over(std::max(one.weakest, other.weakest),
                                  std::min(one.strongest, other.strongest), attempt_with(share));
        if (best && looked.best.cost >= best->best.cost) continue;
        best = std::move(looked);
        best_share = share;
    }
    return look_closer(std::move(*best), attempt_with(best_share));
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
    for (const ShelfJar& jar : question.shelf) moves.push_back(best_alone(question, jar));
    for (std::size_t i = 0; i < question.shelf.size(); ++i)
        for (std::size_t j = i + 1; j < question.shelf.size(); ++j) {
            const ShelfJar &one = question.shelf[i], &other = question.shelf[j];
            const bool both = std::max(one.weakest, other.weakest) < std::min(one.strongest, other.strongest);
            if (both && !one.mixes_with.empty() && one.mixes_with == other.mixes_with)
                moves.push_back(best_together(question, one, other));
        }
    const double stands = stand_now(question).cost;
    std::erase_if(moves, [&](const CoatMove& move) { return move.cost >= stands; });
    std::sort(moves.begin(), moves.end(),
              [](const CoatMove& one, const CoatMove& other) { return one.cost < other.cost; });
    if (moves.size() > most) moves.resize(most);
    return moves;
}

}  // namespace tonemend
