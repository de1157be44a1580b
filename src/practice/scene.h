#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "calibrate/card/card.h"
#include "calibrate/card/card_frame.h"
#include "picture/geometry.h"
#include "practice/camera.h"
#include "practice/options.h"
#include "practice/pair.h"

namespace tonemend {

/// Light that falls off: `at` is 1 at the brightest point of the picture, 1 − loss at the darkest.
struct LightFall {
    FallOff shape = FallOff::linear;
    double loss = 0;              ///< 0..1
    double cosine = 1, sine = 0;  ///< linear: where it darkens
    double offset = 0, span = 1;  ///< linear: projection of the brightest corner, and to the darkest
    double centre_x = 0, centre_y = 0,
           reach = 1;  ///< radial: brightest point, distance of the farthest corner

    double at(double x, double y) const;
};

/// One half of the board.
struct BoardSide {
    Recipe recipe;
    NodeXyz xyz{};                              ///< truth, under the lamp
    std::array<Vector3, darkness_nodes> raw{};  ///< what the camera sees, before exposure
    PixelRect board;                            ///< where this half lies
    PixelRect region;                           ///< what is measured, well inside
    double gloss = 0;                           ///< share of the lamp's light mirrored into the camera
    double shimmer = 0;                         ///< of the wood's own light, standard deviation; see Sheen
};

/// The reference card in the picture.
struct PlacedCard {
    Card card;
    std::vector<Bands> paints;       ///< a reflectance a patch
    std::optional<CardFrame> frame;  ///< absent: a bare card
    Quad sheet{};                    ///< corners of what lies there: the frame's sheet, or the bare card
    Quad corners{};                  ///< corners of the card itself
    double rotation = 0, tilt = 0, tilt_direction = 0;  ///< degrees
};

/// A practice picture before it is taken: everything drawn, nothing rendered.
struct PracticeScene {
    PracticeOptions options;
    WoodKind wood;
    GrainStyle grain;
    LongRunWeights wood_weights;
    Lamp lamp;
    LightFall light;
    PracticeCamera camera;
    CameraView view;
    double exposure = 1;
    double black_level = 0;
    double s_curve = 0;
    double blur = 0;
    PixelRect board;  ///< both halves
    BoardSide original;
    BoardSide repair;
    std::optional<PlacedCard> card;
};

/// Draws the scene. Throws InputError: an option out of range, an unknown wood, lamp, card or frame, a region
/// that does not fit its half of the board.
PracticeScene make_scene(const PracticeOptions& options);

}  // namespace tonemend
