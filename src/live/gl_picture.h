#pragma once

#include <array>
#include <map>
#include <memory>
#include <string>

#include "live/display_table.h"
#include "live/gl_framebuffer.h"
#include "live/gl_program.h"
#include "live/gl_texture.h"
#include "live/overlay_calibration.h"
#include "live/overlay_pixel.h"
#include "picture/frame.h"
#include "picture/geometry.h"

namespace tonemend {

/// A frame on the graphics card, ready to be looked at.
class GlPicture {
  public:
    /// How the codes of the frames to come are read; once for a source and whenever its calibration changes.
    /// `calibration` may be null.
    void calibrate(const ColourEncoding& encoding, std::shared_ptr<const Calibration> calibration);
    /// The next frame, which has the encoding that `calibrate` was told. Its samples go up as they are, but
    /// those of an encoding that is one function of all three channels are made into light here first.
    void load(const Frame& frame);
    /// ΔE2000 of every pixel against the reference, made by the processor where there is no graphics card;
    /// height × width. Gone with the next load.
    void load_difference_map(const float* difference);

    bool empty() const { return picture_.width() == 0; }
    int width() const { return picture_.width(); }
    int height() const { return picture_.height(); }

  private:
    friend class GlPictureRenderer;
    void load_light(const Frame& frame);
    void load_flat_field();
    /// Sets the uniforms of shaders/flat_field.glsl in the program in use.
    void set_flat_field(const GlProgram& program) const;

    GlTexture picture_, curves_, difference_, flat_gains_;
    Point flat_node_spacing_;
    /// The light evened out over squares of `even_reach_` picture pixels, at places a quarter of that apart;
    /// made when it is first asked for, out of date after each load.
    mutable std::unique_ptr<GlFramebuffer> even_light_;
    mutable double even_reach_ = 0;
    ColourModel model_;  // calibrated light → XYZ (D50)
    std::shared_ptr<const Calibration> calibration_;
    bool is_light_ = false, evened_out_ = false, spread_clipping_ = false, has_difference_ = false,
         of_8_bits_ = false;
};

/// Which part of the picture is seen where.
struct PictureView {
    int left = 0, bottom = 0, width = 0,
        height = 0;                     ///< framebuffer pixels, counted from the bottom left as OpenGL does
    double origin_x = 0, origin_y = 0;  ///< picture position at the view's top left corner
    double texels_per_pixel = 1;        ///< under 1: enlarged, picture pixels are then seen as squares
};

/// Sets the uniforms of shaders/calibration.glsl.
void set_colour_model(const GlProgram& program, const ColourModel& model);

/// The #define lines that shaders/display_table.glsl needs for `table`.
std::string display_definitions(const DisplayTable& table);
/// Sets the uniforms of shaders/display_table.glsl in the program in use; its textures are uploaded apart.
void set_display_address(const GlProgram& program, const DisplayTable& table);

/// Draws pictures with one overlay through the display's table.
class GlPictureRenderer {
  public:
    /// The display is sRGB until it is set.
    GlPictureRenderer();
    void set_display(DisplayTable table);
    /// Encoded for the display, 0..1: around the picture.
    void set_surround(const std::array<double, 3>& code) { surround_ = code; }
    /// How many picture pixels a side are averaged at most where the picture is made smaller; 4 at first.
    /// Each costs as much as a pixel: without a graphics card 2 keeps the window quick. Evenness takes the
    /// mean of sixteen times the square of that many, at few places.
    void limit_samples(int per_side) { most_samples_ = per_side; }
    /// Draws into the bound framebuffer, inside the view only. Leaves the scissor test on and set to the
    /// view. A combination of overlay and kind of picture that was not drawn before compiles its program
    /// first.
    void draw(const GlPicture& picture, const PictureView& view, const OverlaySettings& overlay) const;

  private:
    void even_out(const GlPicture& picture, double reach) const;
    const GlProgram& program_for(const std::string& definitions) const;

    mutable std::map<std::string, GlProgram> programs_;       // by their definitions
    mutable std::map<std::string, GlProgram> even_programs_;  // likewise, of even_light.frag
    FullScreenTriangle triangle_;
    DisplayTable display_;
    GlTexture shaper_, nodes_;
    int most_samples_ = 4;
    std::array<double, 3> surround_{0.466, 0.466, 0.466};  // L* 50 in sRGB
};

}  // namespace tonemend
