#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "live/bench.h"
#include "live/layout.h"

namespace tonemend {

/// How the drawing goes.
struct DrawingPace {
    double frames_per_second = 0;  ///< drawn in the last second; few when nothing moves
    double draw_ms = 0;            ///< mean time of one drawing, all of it
    double capture_per_second = 0;
};

/// What tests read of the window: when TONEMEND_STATUS_FILE names a file, one line of JSON is written there,
/// whole, after each change.
class StatusFile {
  public:
    StatusFile();
    bool wanted() const { return !path_.empty(); }
    void write(const Bench& bench, const Layout& layout, const std::vector<std::string>& cut,
               const DrawingPace& pace);

  private:
    std::filesystem::path path_;
    std::string last_;
};

}  // namespace tonemend
