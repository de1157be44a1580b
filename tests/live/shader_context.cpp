#include "tests/live/shader_context.h"

#include <epoxy/gl.h>

#include <array>
#include <stdexcept>

namespace tonemend::testing {

ShaderContext::ShaderContext(Prefer prefer) {
    if (prefer == Prefer::graphics_card && epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_EXT_device_base")) {
        std::array<EGLDeviceEXT, 16> devices{};
        EGLint count = 0;
        eglQueryDevicesEXT(static_cast<EGLint>(devices.size()), devices.data(), &count);
        for (EGLint i = 0; i < count; ++i)
            if (open(eglGetPlatformDisplayEXT(EGL_PLATFORM_DEVICE_EXT, devices[static_cast<std::size_t>(i)],
                                              nullptr)))
                return;
    }
    if (open(eglGetPlatformDisplayEXT(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr))) return;
    throw std::runtime_error("no OpenGL 3.3 without a window here: install libegl1 and libgl1-mesa-dri");
}

bool ShaderContext::open(EGLDisplay display) {
    EGLint major = 0, minor = 0;
    if (display == EGL_NO_DISPLAY || !eglInitialize(display, &major, &minor)) return false;
    constexpr std::array<EGLint, 5> wanted_config{EGL_SURFACE_TYPE, 0, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT,
                                                  EGL_NONE};
    constexpr std::array<EGLint, 7> wanted{EGL_CONTEXT_MAJOR_VERSION,
                                           3,
                                           EGL_CONTEXT_MINOR_VERSION,
                                           3,
                                           EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                           EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                           EGL_NONE};
    EGLConfig config{};
    EGLint configs = 0;
    eglBindAPI(EGL_OPENGL_API);
    if (!eglChooseConfig(display, wanted_config.data(), &config, 1, &configs) || configs < 1) return false;
    const EGLContext context = eglCreateContext(display, config, EGL_NO_CONTEXT, wanted.data());
    if (context == EGL_NO_CONTEXT) return false;
    if (!eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, context)) {
        eglDestroyContext(display, context);
        return false;
    }
    display_ = display, context_ = context;
    return true;
}

ShaderContext::~ShaderContext() {
    eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    // The display stays open: Mesa's driver, unloaded and loaded again for every context, leaks a little each
    // time.
    eglDestroyContext(display_, context_);
}

std::string ShaderContext::renderer() const {
    return std::string(reinterpret_cast<const char*>(glGetString(GL_RENDERER))) + ", " +
           reinterpret_cast<const char*>(glGetString(GL_VERSION));
}

}  // namespace tonemend::testing
