#pragma once

#include <functional>
#include <unordered_map>

#include "colour/lab.h"

namespace tonemend {

/// A slow, smooth function from CIELAB to CIELAB made quick to ask thousands of times: its values at the
/// nodes of a lattice two units wide, each reckoned when it is first needed, interpolated between (linear
/// in each axis). Not for several threads at once.
class LabTable {
  public:
    explicit LabTable(std::function<Lab(const Lab&)> function) : function_(std::move(function)) {}

    /// Beyond ±400 in an axis the value there; L* below 0 is taken as 0.
    Lab operator()(const Lab& at) const;

  private:
    const Lab& node(int l, int a, int b) const;

    std::function<Lab(const Lab&)> function_;
    mutable std::unordered_map<int, Lab> nodes_;
};

}  // namespace tonemend
