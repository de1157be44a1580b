#include "live/desk/plan_desk.h"

#include "picture/input_error.h"
#include "record/kit/kit_words.h"

namespace tonemend {

void PlanDesk::open(std::shared_ptr<JobStore> store, const std::string& area) {
    store_ = std::move(store);
    area_ = area;
    plan_anew();
}

void PlanDesk::plan_anew() {
    plan_.reset();
    trouble_.clear();
    chosen_ = 0;
    try {
        plan_ = plan_area(*store_, area_, wishes_);
    } catch (const InputError& error) {
        trouble_ = error.what();
    }
}

void PlanDesk::select(std::size_t schedule) {
    if (plan_ && schedule < plan_->schedules.size()) chosen_ = schedule;
}

void PlanDesk::press(DeskKey key) {
    if (key == DeskKey::earlier && chosen_ > 0) --chosen_;
    if (key == DeskKey::later) select(chosen_ + 1);
    if ((key == DeskKey::left || key == DeskKey::right) && store_) {
        wishes_.as_they_are = !wishes_.as_they_are;
        plan_anew();
    }
}

std::vector<FinishingStep> PlanDesk::first_coat() const {
    if (!plan_ || plan_->schedules.empty()) return {};
    return steps_of(plan_->schedules[chosen_].steps.front().move.coats, *plan_);
}

}  // namespace tonemend
