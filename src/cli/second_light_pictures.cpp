#include "cli/second_light_pictures.h"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>
#include <utility>

#include "calibrate/card/find_card.h"
#include "calibrate/keep/calibration_file.h"
#include "calibrate/keep/named_lights.h"
#include "calibrate/preflight/light_temperature.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

CalibrationOptions calibration_options(const SecondLightOptions& options, std::size_t index) {
    CalibrationOptions result = options.shared;
    const LightPictureOptions& own = options.of[index];
    result.light = own.light, result.card_at = own.card_at, result.calibration = own.calibration;
    result.flat = own.flat;
    return result;
}

// A picture that serves twice would be held against itself.
void require_different(const SecondLightOptions& options) {
    std::error_code failure;
    for (std::size_t i = 0; i < options.pictures.size(); ++i)
        for (std::size_t j = i + 1; j < options.pictures.size(); ++j)
            if (std::filesystem::equivalent(options.pictures[i], options.pictures[j], failure))
                throw InputError(
                    fmt::format("{}: given as picture {} and as picture {}; give a picture under each light",
                                one_line(options.pictures[i], 400), i + 1, j + 1));
}

KnownLight known_light(const std::string& asked, std::size_t number, const CalibrationInputs& inputs) {
    KnownLight light{fmt::format("light {}", number), inputs.light, std::nullopt};
    if (!inputs.light) return light;
    light.name = is_light_name(asked) ? one_line(asked, 60) : inputs.light->text;
    return light;
}

struct CalibratedPicture {
    Frame frame;
    std::shared_ptr<const Calibration> calibration;
    std::optional<FoundCard> card;
    KnownLight light;

    FramedPicture framed() const { return {&frame, calibration.get(), card}; }
};

CalibratedPicture calibrate_picture(const SecondLightOptions& options, std::size_t index) {
    const CalibrationOptions asked = calibration_options(options, index);
    CalibratedPicture picture;
    picture.frame = read_frame(options.pictures[index], asked);
    const Card card = read_card(locate_card(asked.card));
    CalibrationInputs inputs = read_inputs(asked, card);
    if (!asked.calibration.empty())
        inputs.kept = std::make_shared<const KeptCalibration>(read_calibration(asked.calibration));
    picture.card = find_card(picture.frame);
    if (!asked.card_at.empty()) {
        const Quad corners = parse_quad(asked.card_at, fmt::format("--card-at-{}", index + 1));
        picture.calibration =
            std::make_shared<const Calibration>(calibrate_on_card(picture.frame, card, corners, inputs));
    } else if (picture.card) {
        picture.calibration = std::make_shared<const Calibration>(
            calibrate_on_card(picture.frame, card, *picture.card, inputs));
    } else {
        throw InputError(fmt::format(
            "{}: no whole card frame found: are all four markers in the picture, sharp and at least 30 "
            "pixels wide? Or give the card's corners with --card-at-{} 'x1,y1 x2,y2 x3,y3 x4,y4'",
            picture.frame.name, index + 1));
    }
    picture.light = known_light(asked.light, index + 1, inputs);
    picture.light.seen_kelvin = temperature_of_white(picture.frame, *picture.calibration);
    return picture;
}

PlacedRegion place_region(const std::string& given, const std::string& option, const CalibratedPicture& first,
                          const CalibratedPicture& here, const Region& of_first) {
    if (!given.empty()) return {parse_region(given, option), RegionOrigin::given};
    return carry_region(first.framed(), here.framed(), of_first, option);
}

}  // namespace

std::vector<LightPicture> read_light_pictures(const SecondLightOptions& options) {
    require_different(options);
    const Region original = parse_region(options.of[0].original, "--original"),
                 repair = parse_region(options.of[0].repair, "--repair");
    std::vector<CalibratedPicture> pictures;
    for (std::size_t i = 0; i < options.pictures.size(); ++i)
        pictures.push_back(calibrate_picture(options, i));
    std::vector<LightPicture> measured;
    for (std::size_t i = 0; i < pictures.size(); ++i) {
        const auto place = [&](const std::string& given, const char* what, const Region& of_first) {
            return place_region(given, fmt::format("--{}-{}", what, i + 1), pictures.front(), pictures[i],
                                of_first);
        };
        const PlacedRegion o = place(options.of[i].original, "original", original),
                           r = place(options.of[i].repair, "repair", repair);
        Comparison comparison = compare_regions(pictures[i].frame, *pictures[i].calibration, o.region,
                                                r.region, options.tolerance);
        measured.push_back(
            {{}, {pictures[i].light, pictures[i].calibration, std::move(comparison), o.origin, r.origin}});
    }
    for (std::size_t i = 0; i < pictures.size(); ++i) measured[i].frame = std::move(pictures[i].frame);
    return measured;
}

}  // namespace tonemend
