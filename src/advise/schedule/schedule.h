#pragma once

#include <array>
#include <vector>

#include "advise/kit/kit.h"
#include "advise/schedule/next_move.h"

namespace tonemend {

/// A coat of a schedule and what it is foretold to do.
struct ScheduleStep {
    CoatMove move;
    std::vector<std::size_t> jars;  ///< in the kit, of each of the move's coats
};

/// Coats in the trade's order, a reading after each.
struct Schedule {
    std::vector<ScheduleStep> steps;  ///< at least one
    double cost = 0;                  ///< of the last move, and a little for each step

    /// What it is foretold to end with.
    const CoatMove& last() const { return steps.back().move; }
};

/// What to plan with.
struct ScheduleQuestion {
    const Kit* kit = nullptr;
    const ModelJars* jars = nullptr;  ///< of the kit
    const ColourantModel* model = nullptr;
    const FinishTable* finish = nullptr;  ///< null: what is wanted is bare, or a finish is on already
    ReadLook now;
    std::vector<int> earlier;  ///< coats on it already, of each of the model's colourants
    CoatPlace place;
    WoodLook target;
    MovePrice price = on_known_wood;
    const SecondLook* second = nullptr;            ///< null: nothing is known under a second light
    FinishingStage from = FinishingStage::bleach;  ///< what comes before is done with
    std::size_t most_steps = 5;
    double tolerance = 1;  ///< ΔE2000 at which nothing more is needed
};

/// The best schedules, each of which begins with other jars; the cheapest first. Empty: nothing in the kit
/// makes it better. Bleach is thought of only where the wood is darker than the target.
///
/// A beam search: from each of the best beginnings the cheapest next moves, in the trade's order, until none
/// is cheaper; a step more costs `step_price`, so that of equals the shorter is taken. What may come out
/// grows from step to step as if nothing were read between, so that the first step of a schedule lands on the
/// light side by the margin; in the planning study this left fewer repairs too dark than planning the first
/// step alone.
std::vector<Schedule> plan_schedules(const ScheduleQuestion& question, std::size_t most = 3);

/// The question of the first move alone, with all jars of the kit that may be used.
MoveQuestion to_move_question(const ScheduleQuestion& question);

/// Price of a step, as ΔE2000.
inline constexpr double step_price = 0.25;

/// What the wood lacks when a schedule has done what it can: target minus foretold, of the whole, CIELAB.
std::array<double, 3> missing_colour(const CoatMove& last, const WoodLook& target);

}  // namespace tonemend
