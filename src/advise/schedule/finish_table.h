#pragma once

#include <unordered_map>

#include "advise/model/wood_look.h"
#include "measure/finish_on.h"

namespace tonemend {

/// What bare colours look like with a finish on, quick to ask thousands of times: FinishModel's colour at the
/// nodes of a lattice in CIELAB, each reckoned when it is first needed, and interpolated between; within
/// ΔE2000 0.05 of it over colours of wood (tests/advise/finish_table.cpp). Not for several threads at once.
class FinishTable {
  public:
    explicit FinishTable(FinishModel model) : model_(std::move(model)) {}

    Lab finished(const Lab& bare) const;
    WoodLook finished(const WoodLook& bare) const;
    const FinishModel& model() const { return model_; }

  private:
    const Lab& node(int l, int a, int b) const;

    FinishModel model_;
    mutable std::unordered_map<int, Lab> nodes_;
};

}  // namespace tonemend
