#pragma once

#include "camera/source.h"
#include "camera/steady_file.h"

namespace tonemend {

/// One picture file. next() gives it once, and again whenever the file has changed. Decoding is not
/// interrupted by `patience`.
class StillSource : public Source {
  public:
    explicit StillSource(const std::filesystem::path& path) : file_(path) {}

    std::string name() const override { return "picture " + file_.path().string(); }
    std::shared_ptr<const Frame> next(std::chrono::milliseconds patience) override;
    bool live() const override { return false; }

  private:
    SteadyFile file_;
};

}  // namespace tonemend
