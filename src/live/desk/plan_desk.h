#pragma once

#include <memory>
#include <string>

#include "live/desk/desk_key.h"
#include "record/kit/area_plan.h"

namespace tonemend {

/// The page of the plan: which of its schedules is looked at. Knows nothing of drawing. Belongs to one
/// thread.
class PlanDesk {
  public:
    /// Plans for that area of the store; why there is none is said in trouble().
    void open(std::shared_ptr<JobStore> store, const std::string& area);
    /// ↑ ↓ go from schedule to schedule; ← → turn over whether the repair is bare, and plan anew.
    void press(DeskKey key);
    void select(std::size_t schedule);

    /// Null: there is none.
    const std::shared_ptr<const AreaPlan>& plan() const { return plan_; }
    const std::string& trouble() const { return trouble_; }
    /// Index of the schedule that is looked at.
    std::size_t chosen() const { return chosen_; }
    /// Repair and original are held against each other as they are, no finish reckoned in.
    bool as_they_are() const { return wishes_.as_they_are; }
    /// The coats of its first step, as steps of the job; empty: there is none.
    std::vector<FinishingStep> first_coat() const;

  private:
    void plan_anew();

    std::shared_ptr<JobStore> store_;
    std::string area_;
    PlanWishes wishes_;
    std::shared_ptr<const AreaPlan> plan_;
    std::string trouble_;
    std::size_t chosen_ = 0;
};

}  // namespace tonemend
