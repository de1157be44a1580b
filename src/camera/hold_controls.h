#pragma once

#include <optional>
#include <vector>

#include "camera/plugin/tonemend_video.h"
#include "camera/source.h"

namespace tonemend {

/// A camera's controls, whatever is behind them.
class CameraControls {
  public:
    virtual ~CameraControls() = default;
    /// Absent when the camera has no such control.
    virtual std::optional<double> read(TonemendVideoControl control) = 0;
    /// False when the driver refused; true is no proof.
    virtual bool write(TonemendVideoControl control, double value) = 0;
};

/// Holds exposure, gain, white balance and focus where they are: switches off what is automatic, writes the
/// value found before back, and reads both again. One outcome each for "exposure", "gain", "white balance"
/// and "focus"; a control that the camera does not have counts as not held, except that a camera without
/// automatic focus has a fixed one.
std::vector<ControlOutcome> hold_controls(CameraControls& camera);

}  // namespace tonemend
