#include "live/gl_picture.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "live/gl_shader_text.h"
#include "live/overlay_colours.h"
#include "picture/linear_picture.h"

namespace tonemend {
namespace {

enum Unit : int { picture_unit, curves_unit, shaper_unit, nodes_unit, difference_unit };

std::string picture_shader() {
    return join_shaders({"numbers.glsl", "calibration.glsl", "lab.glsl", "ciede2000.glsl", "overlay_colours.glsl",
                         "overlays.glsl", "overlay_pixel.glsl", "display_table.glsl", "picture.frag"});
}

void set_overlay(const GlProgram& program, const OverlaySettings& overlay) {
    program.set("overlay", static_cast<int>(overlay.kind));
    program.set("overlay_strength", overlay.strength);
    program.set("reference_lab", Vector3{overlay.reference.L, overlay.reference.a, overlay.reference.b});
    program.set("difference_span", overlay.difference_span);
    program.set("evenness_span", overlay.evenness_span);
    program.set("evenness_reach", overlay.evenness_reach);
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
int samples_per_side(double texels_per_pixel) {
    constexpr double most = 4;
    return static_cast<int>(std::clamp(std::ceil(texels_per_pixel - 1e-6), 1.0, most));
}

}  // namespace

void GlPicture::calibrate(const ColourEncoding& encoding, std::shared_ptr<const Calibration> calibration) {
    calibration_ = std::move(calibration);
    is_light_ = !encoding.decoding->separable();
    spread_clipping_ = encoding.camera_native;
    if (is_light_) {
        to_xyz_d50_ = calibration_ ? calibration_->to_xyz_d50 : encoding.to_xyz_d50;
        return;
    }
    const CodeCurves curves = make_code_curves(encoding, calibration_.get());
    curves_.upload(TexelKind::rgb32f, static_cast<int>(CodeCurves::entries), 1, curves.light.data());
    to_xyz_d50_ = curves.to_xyz_d50;
}

void GlPicture::load(const Frame& frame) {
    has_difference_ = false;
    if (is_light_)
        load_light(frame);
    else
        picture_.upload(frame);
}

void GlPicture::load_light(const Frame& frame) {
    ChannelCurves curves;
    if (calibration_) curves = calibration_->channel_curves();
    const LinearPicture linear =
        linear_light(frame, {0, 0, frame.width, frame.height}, calibration_ ? &curves : nullptr);
    std::vector<float> texels;
    texels.reserve(4 * linear.clipped.size());
    for (std::size_t i = 0; i < linear.clipped.size(); ++i) {
        texels.insert(texels.end(), linear.rgb.begin() + static_cast<std::ptrdiff_t>(3 * i),
                      linear.rgb.begin() + static_cast<std::ptrdiff_t>(3 * i + 3));
        texels.push_back(linear.clipped[i] ? 0.0F : 1.0F);
    }
    picture_.upload(TexelKind::rgba32f, frame.width, frame.height, texels.data());
}

void GlPicture::load_difference_map(const float* difference) {
    difference_.upload(TexelKind::r32f, width(), height(), difference);
    has_difference_ = true;
}

GlPictureRenderer::GlPictureRenderer() : program_(join_shaders({"full_screen.vert"}), picture_shader()) {
    program_.use();
    program_.set("picture", picture_unit);
    program_.set("code_curves", curves_unit);
    program_.set("display_shaper", shaper_unit);
    program_.set("display_nodes", nodes_unit);
    program_.set("difference_map", difference_unit);
}

void set_display_address(const GlProgram& program, const DisplayTable& table) {
    program.use();
    program.set("display_by_lab", table.address == DisplayAddress::lab ? 1 : 0);
    program.set("display_from_xyz", table.from_xyz);
    program.set("display_black", table.black);
    program.set("display_lab_scale", table.lab_scale);
    program.set("display_lab_offset", table.lab_offset);
}

void GlPictureRenderer::set_display(const DisplayTable& table) {
    shaper_.upload(TexelKind::rgb32f, static_cast<int>(DisplayTable::shaper_entries), 1, table.shaper.data());
    nodes_.upload_cube(static_cast<int>(table.side), table.nodes.data());
    set_display_address(program_, table);
}

void GlPictureRenderer::draw(const GlPicture& picture, const PictureView& view, const OverlaySettings& overlay) const {
    program_.use();
    picture.picture_.bind(picture_unit);
    picture.curves_.bind(curves_unit);
    shaper_.bind(shaper_unit);
    nodes_.bind(nodes_unit);
    picture.difference_.bind(difference_unit);
    glActiveTexture(GL_TEXTURE0);

    program_.set("picture_is_light", picture.is_light_ ? 1 : 0);
    program_.set("spread_clipping", picture.spread_clipping_ && !picture.is_light_ ? 1 : 0);
    program_.set("use_difference_map", picture.has_difference_ ? 1 : 0);
    program_.set("to_xyz_d50", picture.to_xyz_d50_);
    program_.set("surround", surround_);
    const int samples = samples_per_side(view.texels_per_pixel);
    program_.set("samples_per_side", samples);
    program_.set("sample_spacing", view.texels_per_pixel / samples);
    program_.set("texels_per_pixel", view.texels_per_pixel);
    program_.set("view_origin", view.origin_x, view.origin_y);
    program_.set("view_corner", static_cast<double>(view.left), static_cast<double>(view.bottom + view.height));
    set_overlay(program_, overlay);

    glViewport(view.left, view.bottom, view.width, view.height);
    glEnable(GL_SCISSOR_TEST);
    glScissor(view.left, view.bottom, view.width, view.height);
    constexpr std::array<GLenum, 4> off{GL_FRAMEBUFFER_SRGB, GL_BLEND, GL_DEPTH_TEST, GL_CULL_FACE};
    for (const GLenum feature : off) glDisable(feature);
    triangle_.draw();
}

}  // namespace tonemend
