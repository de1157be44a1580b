#include "advise/schedule/schedule.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

// Half and half, as the trade begins: common practice, no source.
constexpr double first_coat_strength = 0.5;

bool nothing_on(const ScheduleQuestion& question) {
    return std::all_of(question.earlier.begin(), question.earlier.end(),
                       [](int coats) { return coats == 0; });
}

// Jars that may be used from this stage on, the `first` coat thinned. Those of one kind and carrier go into
// one cup.
std::vector<ShelfJar> shelf_from(const ScheduleQuestion& question, FinishingStage stage, bool too_dark,
                                 bool first) {
    std::vector<ShelfJar> shelf;
    for (std::size_t i = 0; i < question.kit->jars.size(); ++i) {
        const KitJar& jar = question.kit->jars[i];
        const auto colourant = question.jars->colourant[i];
        if (!colourant || jar.facts().stage < stage) continue;
        if (jar.facts().stage == FinishingStage::bleach && !too_dark) continue;
        ShelfJar& one = shelf.emplace_back();
        one.colourant = *colourant;
        one.weakest = concentration_of(jar.most_thinner), one.strongest = concentration_of(jar.least_thinner);
        if (first) one.strongest = std::max(one.weakest, std::min(one.strongest, first_coat_strength));
        // Bleaches are never mixed.
        if (jar.kind != KitKind::bleach) one.mixes_with = std::string(jar.facts().name) + "/" + jar.carrier;
    }
    return shelf;
}

FinishingStage stage_of(const ScheduleQuestion& question, const CoatMove& move) {
    return question.kit->jars[question.jars->jar_of[move.coats.front().colourant]].facts().stage;
}

struct Beginning {
    Schedule schedule;
    MoveQuestion next;
    FinishingStage stage = FinishingStage::bleach;
};

// The question that stands after the beginning's last step.
MoveQuestion after_step(const MoveQuestion& before, const CoatMove& move) {
    MoveQuestion next = before;
    next.now = move.bare;
    for (const AppliedCoat& coat : move.coats) ++next.earlier[coat.colourant];
    return next;
}

std::vector<std::size_t> colourants_of(const Schedule& schedule) {
    std::vector<std::size_t> list;
    for (const AppliedCoat& coat : schedule.steps.front().move.coats) list.push_back(coat.colourant);
    return list;
}

}  // namespace

MoveQuestion to_move_question(const ScheduleQuestion& question) {
    MoveQuestion move;
    move.model = question.model, move.finish = question.finish;
    move.shelf = shelf_from(question, question.from, true, nothing_on(question));
    move.now = as_forecast(question.now), move.earlier = question.earlier;
    move.place = question.place, move.target = question.target, move.price = question.price,
    move.second = question.second;
    return move;
}

std::vector<Schedule> plan_schedules(const ScheduleQuestion& question, std::size_t most) {
    const MoveQuestion start = to_move_question(question);
    const CoatMove now = stand_now(start);
    const bool too_dark = whole_of(now.finished).L < whole_of(question.target).L - question.tolerance;
    std::vector<Beginning> beam{{{}, start, question.from}};
    std::vector<Schedule> found;
    constexpr std::size_t first_width = 6, width = 2, moves_each = 3;
    for (std::size_t step = 0; step < question.most_steps && !beam.empty(); ++step) {
        std::vector<Beginning> longer;
        for (Beginning& beginning : beam) {
            beginning.next.shelf =
                shelf_from(question, beginning.stage, too_dark, step == 0 && nothing_on(question));
            const double so_far = beginning.schedule.steps.empty() ? now.cost : beginning.schedule.cost;
            for (CoatMove& move : rank_moves(beginning.next, step == 0 ? first_width : moves_each)) {
                Beginning grown{beginning.schedule, after_step(beginning.next, move),
                                stage_of(question, move)};
                ScheduleStep& added = grown.schedule.steps.emplace_back();
                for (const AppliedCoat& coat : move.coats)
                    added.jars.push_back(question.jars->jar_of[coat.colourant]);
                added.move = std::move(move);
                grown.schedule.cost =
                    added.move.cost + step_price * static_cast<double>(grown.schedule.steps.size());
                if (grown.schedule.cost < so_far) longer.push_back(std::move(grown));
            }
        }
        std::sort(longer.begin(), longer.end(), [](const Beginning& one, const Beginning& other) {
            return one.schedule.cost < other.schedule.cost;
        });
        for (const Beginning& beginning : longer) found.push_back(beginning.schedule);
        // Of the first coats all go on; later the best.
        if (step > 0 && longer.size() > width) longer.resize(width);
        std::erase_if(longer, [&](const Beginning& beginning) {
            return beginning.schedule.last().expected_de2000 <= 0.5 * question.tolerance;
        });
        beam = std::move(longer);
    }
    std::sort(found.begin(), found.end(),
              [](const Schedule& one, const Schedule& other) { return one.cost < other.cost; });
    std::vector<Schedule> best;
    for (Schedule& schedule : found) {
        if (best.size() == most) break;
        const bool same = std::any_of(best.begin(), best.end(), [&](const Schedule& other) {
            return colourants_of(other) == colourants_of(schedule);
        });
        if (!same) best.push_back(std::move(schedule));
    }
    return best;
}

std::array<double, 3> missing_colour(const CoatMove& last, const WoodLook& target) {
    const Lab there = whole_of(last.finished), wanted = whole_of(target);
    return {wanted.L - there.L, wanted.a - there.a, wanted.b - there.b};
}

}  // namespace tonemend
