#include "live/gl_picture.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "calibrate/calibrated_light.h"
#include "calibrate/flat/flat_grid.h"
#include "live/display_profile.h"
#include "live/gl_shader_text.h"
#include "live/overlay_colours.h"
#include "picture/linear_picture.h"

namespace tonemend {
namespace {

enum Unit : int {
    picture_unit,
    curves_unit,
    shaper_unit,
    nodes_unit,
    difference_unit,
    even_light_unit,
    flat_unit
};

// Places of the evened-out light to a side of the square that each of them is the mean of: so near each other
// that lines between them stand for what lies there.
constexpr double places_a_reach = 4;

std::string picture_shader(const std::string& definitions) {
    return join_shaders(definitions,
                        {"numbers.glsl", "calibration.glsl", "picture_texels.glsl", "flat_field.glsl",
                         "lab.glsl", "ciede2000.glsl", "overlay_colours.glsl", "overlays.glsl",
                         "overlay_pixel.glsl", "display_table.glsl", "picture.frag"});
}

void set_overlay(const GlProgram& program, const OverlaySettings& overlay) {
    program.set("overlay_strength", overlay.strength);
    program.set("reference_lab", Vector3{overlay.reference.L, overlay.reference.a, overlay.reference.b});
    program.set("difference_span", overlay.difference_span);
    program.set("evenness_span", overlay.evenness_span);
    program.set("blend_level", overlay.blend_level);
    program.set("blend_span", overlay.blend_span);
    const GlareGauge& glare = overlay.glare;
    Vector3 weights{};
    std::ranges::copy(glare.weights, weights.begin());
    program.set("glare_weights", weights);
    program.set("glare_centre", static_cast<double>(glare.centre));
    program.set("glare_limit", static_cast<double>(glare.limit));
    program.set("glare_brightness", static_cast<double>(glare.brightness));
    program.set("plane_level", overlay.plane.level);
    program.set("plane_at", overlay.plane.x, overlay.plane.y);
    program.set("plane_slope", overlay.plane.slope_x, overlay.plane.slope_y);
    program.set("figure_axis", overlay.figure.axis);
    program.set("figure_boundary", overlay.figure.boundary);
    program.set("clipped_bright_colour", clipped_bright_colour());
    program.set("clipped_dark_colour", clipped_dark_colour());
}

/// How many samples a side a screen pixel takes: enough that no picture pixel falls between, up to a limit.
int samples_per_side(double texels_per_pixel, int most) {
    return static_cast<int>(std::clamp(std::ceil(texels_per_pixel - 1e-6), 1.0, static_cast<double>(most)));
}

}  // namespace

void GlPicture::calibrate(const ColourEncoding& encoding, std::shared_ptr<const Calibration> calibration) {
    calibration_ = std::move(calibration);
    even_reach_ = 0;
    is_light_ = !encoding.decoding->separable();
    load_flat_field();
    spread_clipping_ = encoding.camera_native;
    if (is_light_) {
        model_ =
            calibration_ ? calibration_->characterisation.model : ColourModel::of_matrix(encoding.to_xyz_d50);
        return;
    }
    const CodeCurves curves = make_code_curves(encoding, calibration_.get());
    upload_table(curves_, curves.light);
    model_ = curves.model;
}

void GlPicture::load_flat_field() {
    evened_out_ = !is_light_ && calibration_ && calibration_->flat_field;
    if (!evened_out_) return;
    const FlatGrid grid(*calibration_->flat_field);
    flat_node_spacing_ = {static_cast<double>(grid.width) / (FlatGrid::columns - 1),
                          static_cast<double>(grid.height) / (FlatGrid::rows - 1)};
    flat_gains_.upload(TexelKind::rgb32f, FlatGrid::columns, FlatGrid::rows, grid.gains.data());
}

void GlPicture::load(const Frame& frame) {
    has_difference_ = false;
    even_reach_ = 0;
    if (is_light_)
        load_light(frame);
    else
        picture_.upload(frame);
    of_8_bits_ = !is_light_ && frame.type == SampleType::uint8;
}

void GlPicture::load_light(const Frame& frame) {
    const PixelRect whole{0, 0, frame.width, frame.height};
    const LinearPicture linear =
        calibration_ ? calibrated_light(frame, *calibration_, whole) : linear_light(frame, whole);
    std::vector<float> texels;
    texels.reserve(4 * linear.clipped.size());
    for (std::size_t i = 0; i < linear.clipped.size(); ++i) {
        texels.insert(texels.end(), linear.rgb.begin() + static_cast<std::ptrdiff_t>(3 * i),
                      linear.rgb.begin() + static_cast<std::ptrdiff_t>(3 * i + 3));
        texels.push_back(linear.clipped[i] ? 0.0F : 1.0F);
    }
    picture_.upload(TexelKind::rgba32f, frame.width, frame.height, texels.data());
}

void GlPicture::set_flat_field(const GlProgram& program) const {
    if (!evened_out_) return;
    program.set("flat_node_spacing", flat_node_spacing_.x, flat_node_spacing_.y);
    flat_gains_.bind(flat_unit);
    glActiveTexture(GL_TEXTURE0);
}

void GlPicture::load_difference_map(const float* difference) {
    difference_.upload(TexelKind::r32f, width(), height(), difference);
    has_difference_ = true;
}

void set_colour_model(const GlProgram& program, const ColourModel& model) {
    program.set("to_working", model.to_working);
    program.set("from_working", model.from_working.linear);
    program.set("from_roots", model.from_working.roots);
}

std::string display_definitions(const DisplayTable& table) {
    return table.address == DisplayAddress::lab ? "#define DISPLAY_BY_LAB\n" : "";
}

void set_display_address(const GlProgram& program, const DisplayTable& table) {
    program.set("display_from_xyz", table.from_xyz);
    program.set("display_black", table.black);
    program.set("display_lab_scale", table.lab_scale);
    program.set("display_lab_offset", table.lab_offset);
}

GlPictureRenderer::GlPictureRenderer() {
    set_display(make_srgb_display_table());
}

void GlPictureRenderer::set_display(DisplayTable table) {
    display_ = std::move(table);
    upload_table(shaper_, display_.shaper);
    nodes_.upload_cube(static_cast<int>(display_.side), display_.nodes.data());
}

const GlProgram& GlPictureRenderer::program_for(const std::string& definitions) const {
    auto found = programs_.find(definitions);
    if (found == programs_.end()) {
        found = programs_
                    .try_emplace(definitions, join_shaders({"full_screen.vert"}), picture_shader(definitions))
                    .first;
        const GlProgram& program = found->second;
        program.use();
        program.set("picture", picture_unit);
        program.set("code_curves", curves_unit);
        program.set("display_shaper", shaper_unit);
        program.set("display_nodes", nodes_unit);
        program.set("difference_map", difference_unit);
        program.set("even_light", even_light_unit);
        program.set("flat_gains", flat_unit);
    }
    return found->second;
}

void GlPictureRenderer::even_out(const GlPicture& picture, double reach) const {
    if (picture.even_reach_ == reach) return;
    const double step = reach / places_a_reach;
    const auto places = [step](int pixels) {
        return std::max(1, static_cast<int>(std::ceil(pixels / step)));
    };
    const int width = places(picture.width()), height = places(picture.height());
    GLint before = 0;
    glGetIntegerv(GL_FRAMEBUFFER_BINDING, &before);
    std::unique_ptr<GlFramebuffer>& target = picture.even_light_;
    if (!target || target->texture().width() != width || target->texture().height() != height)
        target = std::make_unique<GlFramebuffer>(TexelKind::rgba32f, width, height);
    const std::string definitions =
        fmt::format("#define PICTURE_IS_LIGHT {}\n#define EVENED_OUT {}\n#define PLACES_AROUND {}\n{}",
                    picture.is_light_, picture.evened_out_, 16 * most_samples_ * most_samples_,
                    picture.of_8_bits_ ? "#define CODES_OF_8_BITS\n" : "");
    auto found = even_programs_.find(definitions);
    if (found == even_programs_.end())
        found = even_programs_
                    .try_emplace(
                        definitions, join_shaders({"full_screen.vert"}),
                        join_shaders(definitions, {"numbers.glsl", "calibration.glsl", "picture_texels.glsl",
                                                   "flat_field.glsl", "even_light.frag"}))
                    .first;
    const GlProgram& program = found->second;
    target->bind();
    program.use();
    program.set("picture", picture_unit);
    program.set("code_curves", curves_unit);
    program.set("flat_gains", flat_unit);
    set_colour_model(program, picture.model_);
    picture.set_flat_field(program);
    program.set("map_step", step);
    program.set("reach", reach);
    picture.picture_.bind(picture_unit);
    picture.curves_.bind(curves_unit);
    triangle_.draw();
    glBindFramebuffer(GL_FRAMEBUFFER, static_cast<GLuint>(before));
    picture.even_reach_ = reach;
}

void GlPictureRenderer::draw(const GlPicture& picture, const PictureView& view,
                             const OverlaySettings& overlay) const {
    const bool evened =
        (overlay.kind == Overlay::evenness || overlay.kind == Overlay::blend) && overlay.evenness_reach > 1;
    if (evened) even_out(picture, overlay.evenness_reach);
    const int samples = samples_per_side(view.texels_per_pixel, most_samples_);
    const GlProgram& program = program_for(fmt::format(
        "#define OVERLAY {}\n#define SAMPLES_PER_SIDE {}\n#define PICTURE_IS_LIGHT {}\n#define "
        "SPREAD_CLIPPING {}\n"
        "#define USE_DIFFERENCE_MAP {}\n#define EVENED_OUT {}\n{}{}",
        static_cast<int>(overlay.kind), samples, picture.is_light_,
        picture.spread_clipping_ && !picture.is_light_, picture.has_difference_, picture.evened_out_,
        picture.of_8_bits_ ? "#define CODES_OF_8_BITS\n" : "", display_definitions(display_)));
    program.use();
    picture.picture_.bind(picture_unit);
    picture.curves_.bind(curves_unit);
    shaper_.bind(shaper_unit);
    nodes_.bind(nodes_unit);
    picture.difference_.bind(difference_unit);
    if (evened) picture.even_light_->texture().bind(even_light_unit);
    glActiveTexture(GL_TEXTURE0);

    set_display_address(program, display_);
    program.set("even_light_step", evened ? overlay.evenness_reach / places_a_reach : 0.0);
    set_colour_model(program, picture.model_);
    picture.set_flat_field(program);
    program.set("surround", surround_);
    program.set("sample_spacing", view.texels_per_pixel / samples);
    program.set("texels_per_pixel", view.texels_per_pixel);
    program.set("view_origin", view.origin_x, view.origin_y);
    program.set("view_corner", static_cast<double>(view.left),
                static_cast<double>(view.bottom + view.height));
    set_overlay(program, overlay);

    glViewport(view.left, view.bottom, view.width, view.height);
    glEnable(GL_SCISSOR_TEST);
    glScissor(view.left, view.bottom, view.width, view.height);
    constexpr std::array<GLenum, 4> off{GL_FRAMEBUFFER_SRGB, GL_BLEND, GL_DEPTH_TEST, GL_CULL_FACE};
    for (const GLenum feature : off) glDisable(feature);
    triangle_.draw();
}

}  // namespace tonemend
