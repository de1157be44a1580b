#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "practice/camera.h"
#include "practice/camera_curve.h"
#include "practice/faults.h"
#include "practice/finish.h"

namespace tonemend {

/// What the repair was coloured with.
enum class PairKind {
    same_colourant,  ///< the original's own colourants, more or less of one of them
    earth,           ///< other earth and wood colourants
    other,           ///< colourants of any other hue
};

/// How the reference card lies in the picture.
enum class CardMount {
    framed,  ///< in the window of a card frame
    bare,    ///< alone: its corners are in the truth
    absent,
};

/// A coat that a side of the board is told to have.
struct PracticeCoat {
    std::string colourant;     ///< one of colourants()
    double concentration = 1;  ///< share of it in the mixture, over 0 to 1
    bool operator==(const PracticeCoat&) const = default;
};

/// A side of the board as it is told to be, in place of what the seed draws.
struct PracticeSide {
    std::vector<PracticeCoat> coats;  ///< in order; of one colourant each further one adds less
    Finish finish = Finish::raw;
    bool operator==(const PracticeSide&) const = default;
};

/// What lies before the camera.
enum class PracticeSubject {
    work,        ///< original, repair and card
    grey_sheet,  ///< a sheet of matt grey paper that fills the picture, with its texture, dust and a scratch
};

/// The shape of uneven light.
enum class FallOff { linear, radial };

/// A practice picture. The defaults are the ordinary good picture; whatever is left empty is drawn from the
/// seed, each from a stream of its own, so that setting one thing changes no other.
struct PracticeOptions {
    std::uint64_t seed = 1;
    int width = 1600;   ///< pixels, at least 320
    int height = 1200;  ///< pixels, at least 240

    PracticeSubject subject = PracticeSubject::work;

    std::optional<std::string> wood;  ///< one of wood_kinds()
    double grain_strength = 1;        ///< 0 an even surface, 1 the wood's own contrast, at most 2
    double grain_size = 1;            ///< times the wood's own lengths, 0.25..10; 3 is coarse
    double streaks = 0;               ///< 0..0.9, see GrainStyle
    Finish finish = Finish::clear_coat;

    PairKind pair = PairKind::same_colourant;
    std::optional<PracticeSide> original, repair;  ///< both or neither
    std::optional<double> difference;  ///< CIEDE2000 of the long-run means; drawn between the two below
    double smallest_difference = 0;
    double largest_difference = 8;
    std::optional<int> region_size;  ///< side of both regions in pixels; drawn: 350 to 450 in 1600 columns

    std::string lamp = "CIE-D65";  ///< see read_lamp
    std::string second_lamp;       ///< empty: one lamp
    /// The lamp under which the pair is drawn, so that pictures of one seed under several lamps show the same
    /// two boards; absent: `lamp`.
    std::optional<std::string> pair_lamp;
    double second_lamp_share = 0;  ///< of the luminance, 0..1
    double fall_off_percent =
        0;  ///< light lost from the brightest to the darkest point of the picture, 0..90
    FallOff fall_off = FallOff::linear;
    std::optional<double>
        fall_off_direction;  ///< degrees from the x axis towards y, where it darkens (linear)
    double repair_gloss_percent =
        0;  ///< share of the lamp's light that the repair mirrors into the camera, 0..50
    double original_gloss_percent = 0;  ///< likewise the original
    /// Where the lamp stands, degrees from the x axis towards y. Gloss then depends on it and on the place
    /// (see Sheen), and unless told otherwise the light falls off away from the lamp. Absent: gloss is an
    /// even veil.
    std::optional<double> lamp_from;
    /// How much a place's light differs from the mean because its fibres lean, standard deviation, 0..20;
    /// only with lamp_from.
    double original_shimmer_percent = 0, repair_shimmer_percent = 0;

    std::optional<std::uint64_t> camera;  ///< number for make_camera; drawn: 0 to 23
    WhiteBalance white_balance = WhiteBalance::automatic;
    std::optional<double> exposure;  ///< linear output of the perfect diffuser, 0.05..2; drawn: 0.75 to 0.92
    std::optional<double>
        black_level;  ///< added to the light, as a share of white, 0..0.2; drawn: 0 to the next
    double largest_black_level = 0.003;
    CameraTone tone = CameraTone::srgb;
    std::optional<double> s_curve;  ///< strength of the mild S-curve, 0..0.9; drawn: 0.05 to 0.2
    std::optional<double>
        blur;               ///< standard deviation of the lens's blur in pixels, 0..20; drawn: 0.4 to 0.8
    double noise = 1;       ///< times the camera's own noise, 0..100
    int bits = 16;          ///< 8 or 16 a sample; files that hold 8 alone get 8
    int jpeg_quality = 90;  ///< 1..100

    std::string card = "six-step-card";  ///< a name in calibration/ or a path
    CardMount card_mount = CardMount::framed;
    std::string frame = "medium";  ///< which card frame
    /// Where the middle of card or sheet is, as a share of the picture's width and height, over board or
    /// bench; drawn: above the board. Both or neither.
    std::optional<double> card_x, card_y;
    std::optional<double> rotation;        ///< degrees in the picture's plane, clockwise; drawn: −12 to 12
    std::optional<double> tilt;            ///< degrees out of that plane, 0..60; drawn: 0 to 6
    std::optional<double> tilt_direction;  ///< degrees; drawn: any

    PracticeFaults faults;

    bool operator==(const PracticeOptions&) const = default;
};

/// The pictures of the accuracy study: 16 bits, six-step card, CIE D65, a black level to 1 %, a mild unknown
/// tone curve, even light, more or less of the same colourant.
PracticeOptions accuracy_study(std::uint64_t seed);

/// Throws InputError, naming the option and its range, unless every number is within it.
void require_valid(const PracticeOptions& options);

}  // namespace tonemend
