#pragma once

#include "advise/model/lab_table.h"
#include "advise/model/wood_look.h"
#include "measure/finish_on.h"

namespace tonemend {

/// What bare colours look like with a finish on, by FinishModel, quick to ask; within ΔE2000 0.1 of it over
/// colours of wood (tests/advise/tables.cpp). Not for several threads at once.
class FinishTable {
  public:
    explicit FinishTable(const FinishModel& model)
        : table_([model](const Lab& bare) { return model.finished(bare); }) {}

    Lab finished(const Lab& bare) const { return table_(bare); }
    WoodLook finished(const WoodLook& bare) const;

  private:
    LabTable table_;
};

}  // namespace tonemend
