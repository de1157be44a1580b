#pragma once

#include <epoxy/gl.h>

#include <string>

#include "colour/matrix3.h"
#include "colour/xyz.h"

namespace tonemend {

/// A linked pair of shaders. Needs a current OpenGL 3.3 context, here and wherever it is used.
class GlProgram {
  public:
    /// Throws std::runtime_error with the driver's own text when one does not compile or link.
    GlProgram(const std::string& vertex, const std::string& fragment);
    ~GlProgram();
    GlProgram(const GlProgram&) = delete;
    GlProgram& operator=(const GlProgram&) = delete;

    void use() const;
    // Uniforms of the program in use. A name that the compiler found unused is ignored.
    void set(const char* name, int value) const;
    void set(const char* name, double value) const;
    void set(const char* name, double x, double y) const;
    void set(const char* name, const Vector3& value) const;
    void set(const char* name, const XYZ& value) const;
    void set(const char* name, const Matrix3& value) const;

  private:
    GLint place(const char* name) const;
    GLuint id_ = 0;
};

/// A triangle that covers the viewport, drawn with the program in use and the vertex shader of
/// shaders/full_screen.vert.
class FullScreenTriangle {
  public:
    FullScreenTriangle();
    ~FullScreenTriangle();
    FullScreenTriangle(const FullScreenTriangle&) = delete;
    FullScreenTriangle& operator=(const FullScreenTriangle&) = delete;
    void draw() const;

  private:
    GLuint vertices_ = 0;  // empty, but the core profile draws nothing without one
};

}  // namespace tonemend
