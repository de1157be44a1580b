// Steps: what was put on, and recipes carried from one area to another.
#include <fmt/format.h>

#include <cmath>

#include "record/store/dilution.h"
#include "record/store/job_store.h"
#include "record/store/store_action.h"
#include "record/store/store_rows.h"
#include "record/store/store_text.h"
#include "record/store/uid.h"

namespace tonemend {
namespace {

constexpr double longest_wait_minutes = 60.0 * 24 * 365;

void require_range(const FinishingStep& step) {
    if (step.coats < 1 || step.coats > 20) throw InputError("coats are 1 to 20");
    if (step.grit < 0 || step.grit > 5000) throw InputError("grit is up to 5000; 0: not said");
    if (!(step.wait_minutes >= 0 && step.wait_minutes <= longest_wait_minutes))
        throw InputError("a wait is 0 minutes to a year");
    if (!step.dilution.empty()) (void)parse_dilution(step.dilution);
}

std::string words_for(const FinishingStep& step) {
    return step.colourant.empty()
               ? fmt::format("step {} ({})", step.place, name(step.kind))
               : fmt::format("step {} ({}, '{}')", step.place, name(step.kind), step.colourant);
}

void add_to(StoreAction& action, FinishingStep& step) {
    const auto last = action.database().row(
        "SELECT coalesce(max(place), 0) + 1 FROM steps WHERE area = ? AND undone = ''", {step.area});
    step.place = static_cast<int>(whole_in(last->at(0)));
    step.uid = new_uid();
    action.add("steps", {{"uid", step.uid},
                         {"area", step.area},
                         {"place", static_cast<std::int64_t>(step.place)},
                         {"kind", std::string(name(step.kind))},
                         {"colourant", step.colourant},
                         {"carrier", step.carrier},
                         {"dilution", step.dilution},
                         {"coats", static_cast<std::int64_t>(step.coats)},
                         {"grit", static_cast<std::int64_t>(step.grit)},
                         {"wait_minutes", step.wait_minutes},
                         {"note", step.note},
                         {"done", step.done},
                         {"folded", folded(step.colourant)}});
}

}  // namespace

FinishingStep JobStore::add_step(const FinishingStep& wanted) {
    return add_steps({wanted}).front();
}

std::vector<FinishingStep> JobStore::add_steps(std::vector<FinishingStep> steps) {
    const std::lock_guard lock(mutex_);
    if (steps.empty()) throw InputError("there is no step to record");
    for (FinishingStep& step : steps) {
        require_range(step);
        step.colourant = kept_words(step.colourant), step.carrier = kept_words(step.carrier);
        step.dilution = kept_words(step.dilution), step.note = kept_note(step.note);
    }
    StoreAction action(*store_.database, job_of_area(steps.front().area).uid);
    for (FinishingStep& step : steps) add_to(action, step);
    action.commit(steps.size() == 1
                      ? words_for(steps.front())
                      : fmt::format("{} steps from {} on", steps.size(), words_for(steps.front())));
    return steps;
}

void JobStore::finish_step(const std::string& step, const std::string& when) {
    const std::lock_guard lock(mutex_);
    const auto row = store_.database->row(select_from("steps", "uid = ? AND undone = ''"), {step});
    if (!row) throw InputError("there is no such step any more");
    const FinishingStep planned = to_step(*row);
    if (!planned.done.empty()) throw InputError(fmt::format("{} is done already", words_for(planned)));
    StoreAction action(*store_.database, job_of_area(planned.area).uid);
    action.set("steps", step, "done", when);
    action.commit("doing " + words_for(planned));
}

std::vector<FinishingStep> JobStore::copy_recipe(const std::string& from_area, const std::string& to_area) {
    const std::lock_guard lock(mutex_);
    std::vector<FinishingStep> recipe = steps(from_area);
    if (recipe.empty()) throw InputError("there is no recipe to copy: no step is kept there");
    StoreAction action(*store_.database, job_of_area(to_area).uid);
    for (FinishingStep& step : recipe) {
        step.area = to_area;
        step.done.clear();
        add_to(action, step);
    }
    action.commit(fmt::format("a recipe of {} steps", recipe.size()));
    return recipe;
}

std::vector<FinishingStep> JobStore::steps(const std::string& area) {
    const std::lock_guard lock(mutex_);
    return read_all(*store_.database, "steps", "area = ? AND undone = '' ORDER BY place, uid", {area},
                    to_step);
}

}  // namespace tonemend
