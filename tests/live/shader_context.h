#pragma once

#include <epoxy/egl.h>

#include <string>

namespace tonemend::testing {

/// An OpenGL 3.3 core context without a window or a display, current on this thread while it lives. Tries the
/// graphics cards that EGL lists first when asked for one (EGL_EXT_platform_device), else Mesa without a
/// surface (EGL_MESA_platform_surfaceless).
class ShaderContext {
  public:
    enum class Prefer { software, graphics_card };
    /// Throws std::runtime_error when the machine has neither.
    explicit ShaderContext(Prefer prefer = Prefer::software);
    ~ShaderContext();
    ShaderContext(const ShaderContext&) = delete;
    ShaderContext& operator=(const ShaderContext&) = delete;

    /// The driver's own name for itself, with the version.
    std::string renderer() const;

  private:
    bool open(EGLDisplay display);
    EGLDisplay display_ = EGL_NO_DISPLAY;
    EGLContext context_ = EGL_NO_CONTEXT;
};

}  // namespace tonemend::testing
