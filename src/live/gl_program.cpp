#include "live/gl_program.h"

#include <array>
#include <stdexcept>

namespace tonemend {
namespace {

std::string shader_log(GLuint shader) {
    std::array<char, 4096> text{};
    glGetShaderInfoLog(shader, static_cast<GLsizei>(text.size()), nullptr, text.data());
    return text.data();
}

std::string program_log(GLuint program) {
    std::array<char, 4096> text{};
    glGetProgramInfoLog(program, static_cast<GLsizei>(text.size()), nullptr, text.data());
    return text.data();
}

void attach(GLuint program, GLenum kind, const std::string& source) {
    const GLuint shader = glCreateShader(kind);
    const char* text = source.c_str();
    glShaderSource(shader, 1, &text, nullptr);
    glCompileShader(shader);
    GLint compiled = GL_FALSE;
    glGetShaderiv(shader, GL_COMPILE_STATUS, &compiled);
    const std::string log = compiled ? "" : shader_log(shader);
    glAttachShader(program, shader);
    glDeleteShader(shader);  // lives on in the program
    if (!compiled) throw std::runtime_error("a shader does not compile: " + log);
}

}  // namespace

GlProgram::GlProgram(const std::string& vertex, const std::string& fragment) : id_(glCreateProgram()) {
    try {
        attach(id_, GL_VERTEX_SHADER, vertex);
        attach(id_, GL_FRAGMENT_SHADER, fragment);
        glLinkProgram(id_);
        GLint linked = GL_FALSE;
        glGetProgramiv(id_, GL_LINK_STATUS, &linked);
        if (!linked) throw std::runtime_error("the shaders do not link: " + program_log(id_));
    } catch (...) {
        glDeleteProgram(id_);
        throw;
    }
}

GlProgram::~GlProgram() {
    glDeleteProgram(id_);
}

void GlProgram::use() const {
    glUseProgram(id_);
}

GLint GlProgram::place(const char* name) const {
    return glGetUniformLocation(id_, name);
}

void GlProgram::set(const char* name, int value) const {
    glUniform1i(place(name), value);
}

void GlProgram::set(const char* name, double value) const {
    glUniform1f(place(name), static_cast<float>(value));
}

void GlProgram::set(const char* name, double x, double y) const {
    glUniform2f(place(name), static_cast<float>(x), static_cast<float>(y));
}

void GlProgram::set(const char* name, const Vector3& value) const {
    glUniform3f(place(name), static_cast<float>(value[0]), static_cast<float>(value[1]),
                static_cast<float>(value[2]));
}

void GlProgram::set(const char* name, const XYZ& value) const {
    set(name, Vector3{value.X, value.Y, value.Z});
}

void GlProgram::set(const char* name, const Matrix3& value) const {
    std::array<float, 9> rows{};
    for (std::size_t i = 0; i < 9; ++i) rows[i] = static_cast<float>(value.m[i / 3][i % 3]);
    glUniformMatrix3fv(place(name), 1, GL_TRUE, rows.data());
}

FullScreenTriangle::FullScreenTriangle() {
    glGenVertexArrays(1, &vertices_);
}

FullScreenTriangle::~FullScreenTriangle() {
    glDeleteVertexArrays(1, &vertices_);
}

void FullScreenTriangle::draw() const {
    glBindVertexArray(vertices_);
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glBindVertexArray(0);
}

}  // namespace tonemend
