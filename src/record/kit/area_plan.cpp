#include "record/kit/area_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "colour/difference.h"
#include "picture/small_letters.h"
#include "record/finish_pairs.h"
#include "record/kit/board_lessons.h"

namespace tonemend {
namespace {

void learn_from(const AreaLessons& lessons, const std::string& finish, std::vector<CoatObservation>& seen,
                std::vector<FinishPair>& pairs) {
    seen.insert(seen.end(), lessons.seen.begin(), lessons.seen.end());
    for (const AreaLessons::FinishSeen& one : lessons.finishes)
        if (in_small_letters(one.finish) == in_small_letters(finish)) pairs.push_back(one.pair);
}

AreaLessons lessons_on(const JobDossier::AreaDossier& area, const Piece& piece, const AreaPlan& plan) {
    AreaLessons lessons = lessons_of(area, piece.wood, plan.kit, plan.jars);
    for (CoatObservation& one : lessons.seen) one.place = place_of(piece.wood, piece.uid, one.place.grit);
    return lessons;
}

// Every other area in which a jar of the kit was used.
void learn_from_jobs(JobStore& store, const AreaPlan& plan, std::vector<CoatObservation>& seen,
                     std::vector<FinishPair>& pairs) {
    constexpr int most_jobs = 20;
    std::set<std::string> jobs;
    for (const KitJar& jar : plan.kit.jars)
        for (const JobSummary& found : store.search({.colourant = jar.name, .most = most_jobs}))
            jobs.insert(found.job.uid);
    for (const std::string& job : jobs) {
        try {
            for (const JobDossier::PieceDossier& piece : store.dossier(job).pieces)
                for (const JobDossier::AreaDossier& area : piece.areas)
                    if (area.area.uid != plan.area.uid)
                        learn_from(lessons_on(area, piece.piece, plan), plan.finish_name, seen, pairs);
        } catch (const InputError&) {
            // Something in it is damaged; 'tonemend job verify' says what. The others teach all the same.
        }
    }
}

std::string chosen_finish(const AreaPlan& plan, const PlanWishes& wishes) {
    if (!wishes.finish.empty()) return wishes.finish;
    if (!plan.lessons.finish.empty()) return plan.lessons.finish;
    for (const KitJar& jar : plan.kit.jars)
        if (jar.kind == KitKind::clear_coat) return jar.name;
    return {};
}

// Each coat of the area by what was known before it.
std::vector<ForetoldAndCame> history_of(const AreaPlan& plan, const std::vector<CoatObservation>& elsewhere) {
    std::vector<ForetoldAndCame> history;
    std::vector<CoatObservation> known = elsewhere;
    for (const CoatObservation& seen : plan.lessons.seen) {
        const ColourantModel model(plan.jars.colourants, known);
        ForetoldAndCame one{seen.coats, model.foretell(seen.before, seen.coats, seen.place), seen.after};
        const Lab foretold = whole_of(one.foretold.look), came = whole_of(one.came.look);
        one.de2000 = ciede2000(foretold, came).value;
        const Eigen::Matrix3d covariance =
            one.foretold.whole_covariance() + seen.after.u * seen.after.u * Eigen::Matrix3d::Identity();
        const Eigen::Vector3d miss(came.L - foretold.L, came.a - foretold.a, came.b - foretold.b);
        one.inside = true;
        for (int axis = 0; axis < 3; ++axis)
            one.inside = one.inside && std::abs(miss[axis]) <= 1.96 * std::sqrt(covariance(axis, axis));
        history.push_back(std::move(one));
        known.push_back(seen);
    }
    return history;
}

// A light of which only the temperature was stated is kept in words for people, "2700 K".
StatedLight light_of_text(const std::string& text) {
    return parse_light(text.ends_with(" K") ? text.substr(0, text.size() - 2) : text);
}

// The newest reading under a second light, when nothing was put on since.
void look_under_second(AreaPlan& plan, const JobDossier::AreaDossier& area) {
    std::string last_coat;
    for (const FinishingStep& step : area.steps) last_coat = std::max(last_coat, step.done);
    for (const ComparisonRecord& comparison : area.comparisons) {
        if (comparison.kind != ComparisonKind::second_light || comparison.made <= last_coat) continue;
        const auto kept = second_light_of(comparison.text);
        if (!kept) continue;
        try {
            plan.second =
                std::make_shared<const SecondLook>(light_of_text(kept->light), kept->original, kept->repair,
                                                   whole_of(plan.lessons.newest->repair.look));
            plan.second_light = kept->light;
        } catch (const InputError&) {
            // A light that is not known any more, or no tables of the CIE: planned without.
        }
    }
}

// What the kit can do at best, whatever the risk.
void find_nearest(AreaPlan& plan, const MoveQuestion& move) {
    ScheduleQuestion bold = plan.question;
    bold.price.margin = 0;
    const std::vector<Schedule> schedules = plan_schedules(bold, 1);
    const CoatMove& end = schedules.empty() ? plan.now : schedules.front().last();
    plan.nearest = AreaPlan::Nearest{end.de2000, missing_colour(end, bold.target)};
    if (plan.out_of_reach() && !plan.lessons.finished) plan.missing = find_missing_jar(move, end.bare.look);
}

void ask(AreaPlan& plan, const PlanWishes& wishes) {
    ScheduleQuestion& question = plan.question;
    question.kit = &plan.kit, question.jars = &plan.jars;
    question.model = plan.model.get(), question.finish = plan.finish.get();
    question.now = plan.lessons.newest->repair, question.target = plan.lessons.newest->original.look;
    question.earlier = plan.lessons.earlier;
    question.place = place_of(plan.piece.wood, plan.piece.uid,
                              plan.lessons.grit_said ? plan.lessons.grit : plan.board_grit);
    question.price = plan.coats_on_wood > 0 ? on_known_wood : on_unknown_wood;
    question.from = plan.lessons.finished ? FinishingStage::toner : plan.lessons.stage;
    question.second = plan.second.get();
    question.most_steps = wishes.most_steps, question.tolerance = wishes.tolerance;
    const MoveQuestion move = to_move_question(question);
    plan.now = stand_now(move);
    if (plan.now.de2000 > question.tolerance) {
        plan.schedules = plan_schedules(question);
        find_nearest(plan, move);
    }
    constexpr std::size_t strips = 4;
    if (plan.coats_on_wood == 0)
        plan.check_strips = advise_strips(plan.kit, plan.jars, {}, question.now, question.place, strips);
}

}  // namespace

bool AreaPlan::out_of_reach() const {
    return nearest && !near_enough(nearest->de2000);
}

bool AreaPlan::near_enough(double de2000) const {
    constexpr double enough = 1.5;
    return de2000 <= enough * question.tolerance;
}

StepKind step_kind_of(KitKind kind) {
    switch (facts_of(kind).stage) {
        case FinishingStage::bleach:
            return StepKind::bleach;
        case FinishingStage::dye:
            return StepKind::dye;
        case FinishingStage::seal:
            return StepKind::seal;
        case FinishingStage::pigment:
            return kind == KitKind::glaze ? StepKind::glaze : StepKind::pigment;
        case FinishingStage::toner:
            return StepKind::toner;
        default:
            return StepKind::clear;
    }
}

double coat_millilitres(double square_centimetres) {
    constexpr double per_square_metre = 110, square_metre = 1e4, spare = 1.2;
    return spare * per_square_metre * square_centimetres / square_metre;
}

std::shared_ptr<const AreaPlan> plan_area(JobStore& store, const std::string& area,
                                          const PlanWishes& wishes) {
    auto plan = std::make_shared<AreaPlan>();
    KitShelf shelf(store);
    const KeptKit kept = shelf.find_kit(wishes.kit);
    plan->kit = kept.kit;
    plan->jars = model_jars(plan->kit);
    if (plan->jars.colourants.empty())
        throw InputError(fmt::format("kit '{}' holds nothing that colours; 'tonemend kit add' adds a jar",
                                     plan->kit.name));
    plan->job = store.job_of_area(area);
    const JobDossier dossier = store.dossier(plan->job.uid);
    const JobDossier::AreaDossier* here = nullptr;
    for (const JobDossier::PieceDossier& piece : dossier.pieces)
        for (const JobDossier::AreaDossier& one : piece.areas)
            if (one.area.uid == area) here = &one, plan->piece = piece.piece, plan->area = one.area;
    if (here == nullptr) throw InputError("the area is not in the store any more");
    plan->lessons = lessons_on(*here, plan->piece, *plan);
    if (!plan->lessons.newest)
        throw InputError(
            fmt::format("job {}, {}: holds no fit reading yet; take one of the bare, dry repair beside "
                        "the original",
                        plan->job.number, plan->area.name));
    if (plan->lessons.coat_since)
        throw InputError(
            fmt::format("job {}, {}: a coat was put on since reading {}; let it dry and take a reading, "
                        "then plan",
                        plan->job.number, plan->area.name, plan->lessons.newest_number));
    plan->finish_name = wishes.as_they_are ? "" : chosen_finish(*plan, wishes);
    const std::string wood = place_of(plan->piece.wood, plan->piece.uid, 0).wood;
    const std::vector<KeptBoard> boards = shelf.boards(kept);
    std::vector<CoatObservation> seen = observations_of(boards, plan->kit, plan->jars);
    std::vector<FinishPair> pairs;
    if (!plan->finish_name.empty())
        for (const KeptBoard& board : boards)
            for (const FinishPair& pair : finish_pairs_of(board.board, plan->finish_name))
                pairs.push_back(pair);
    if (wishes.read_other_jobs) learn_from_jobs(store, *plan, seen, pairs);
    plan->history = history_of(*plan, seen);
    for (const CoatObservation& one : seen)
        if (one.place.wood == wood) plan->board_grit = one.place.grit;
    if (!plan->lessons.grit_said)
        for (CoatObservation& one : plan->lessons.seen) one.place.grit = plan->board_grit;
    learn_from(plan->lessons, plan->finish_name, seen, pairs);
    if (!plan->finish_name.empty())
        for (const FinishPair& pair : choose_pairs(read_finish_pairs(finish_pairs_path()), plan->piece.wood,
                                                   plan->finish_name, FinishLook::finished))
            pairs.push_back(pair);
    plan->coats_seen = static_cast<int>(seen.size());
    plan->coats_on_wood = static_cast<int>(std::count_if(
        seen.begin(), seen.end(), [&](const CoatObservation& one) { return one.place.wood == wood; }));
    plan->finish_pairs = static_cast<int>(pairs.size());
    plan->tried.assign(plan->jars.colourants.size(), false);
    for (const CoatObservation& one : seen)
        for (const AppliedCoat& coat : one.coats) plan->tried[coat.colourant] = true;
    plan->model = std::make_shared<const ColourantModel>(plan->jars.colourants, seen);
    if (!wishes.as_they_are && !plan->lessons.finished)
        plan->finish = std::make_shared<const FinishTable>(FinishModel(wishes.finish_facts, pairs));
    look_under_second(*plan, *here);
    ask(*plan, wishes);
    return plan;
}

}  // namespace tonemend
