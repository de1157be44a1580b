// ICC profiles of calibrated cameras: what other programs read through them is what is measured here.
#include "calibrate/keep/input_profile.h"

#include <fmt/format.h>
#include <glib.h>
#include <lcms2.h>

#include <algorithm>
#include <cstring>

#include "calibrate/calibrated_light.h"
#include "colour/difference.h"
#include "kept_sample.h"
#include "picture/icc_decoding.h"
#include "picture/input_error.h"
#include "practice/wood.h"
#include "tests/catch.h"
#include "tests/support/icc_reader.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

using Codes = std::array<std::uint16_t, 3>;

/// Pixels of wood: their codes, and their colours as this program reads them.
struct WoodColours {
    std::vector<Codes> codes;
    std::vector<Lab> labs;

    void add(const Frame& frame, const Calibration& calibration, const PixelRect& rect) {
        const LinearPicture light = calibrated_light(frame, calibration, rect);
        constexpr int apart = 36;
        for (int y = 0; y < rect.height; y += apart)
            for (int x = 0; x < rect.width; x += apart) {
                Codes code{};
                std::memcpy(code.data(),
                            frame.row(rect.y + y) + static_cast<std::ptrdiff_t>(6) * (rect.x + x), 6);
                const float* rgb = light.at(x, y);
                codes.push_back(code);
                labs.push_back(to_lab(calibration.to_xyz({rgb[0], rgb[1], rgb[2]}), d50_icc));
            }
    }
};

struct Errors {
    std::vector<double> all;
    double median() {
        std::nth_element(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2), all.end());
        return all[all.size() / 2];
    }
    double worst() const { return *std::max_element(all.begin(), all.end()); }
};

/// What Little CMS shows to a program that asks for Lab with its ordinary settings.
void add_errors_of_lcms(const std::vector<std::uint8_t>& bytes, const WoodColours& wood, Errors& errors) {
    cmsHPROFILE profile = cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size()));
    REQUIRE(profile != nullptr);
    cmsHPROFILE lab = cmsCreateLab4Profile(nullptr);
    cmsHTRANSFORM transform =
        cmsCreateTransform(profile, TYPE_RGB_16, lab, TYPE_Lab_DBL, INTENT_RELATIVE_COLORIMETRIC, 0);
    REQUIRE(transform != nullptr);
    std::vector<cmsCIELab> read(wood.codes.size());
    cmsDoTransform(transform, wood.codes.data(), read.data(), static_cast<cmsUInt32Number>(read.size()));
    for (std::size_t i = 0; i < read.size(); ++i)
        errors.all.push_back(ciede2000(wood.labs[i], {read[i].L, read[i].a, read[i].b}).value);
    cmsDeleteTransform(transform);
    cmsCloseProfile(lab);
    cmsCloseProfile(profile);
}

void add_errors_of_second_reader(const std::vector<std::uint8_t>& bytes, const WoodColours& wood,
                                 Errors& errors) {
    const IccReader reader(bytes);
    for (std::size_t i = 0; i < wood.codes.size(); ++i) {
        const auto& [r, g, b] = wood.codes[i];
        const Lab read = to_lab(reader.colour({r / 65535.0, g / 65535.0, b / 65535.0}), d50_icc);
        errors.all.push_back(ciede2000(wood.labs[i], read).value);
    }
}

std::vector<PracticeOptions> every_wood() {
    std::vector<PracticeOptions> list;
    std::uint64_t seed = 40;
    for (const WoodKind& wood : wood_kinds())
        for (int i = 0; i < 2; ++i) {
            PracticeOptions options = sample_options(seed++);
            options.wood = wood.name, options.pair = PairKind::earth, options.tone = CameraTone::mild_s_curve;
            list.push_back(options);
        }
    return list;
}

/// Which kind of profile comes out.
enum class Kind { matrix, root_polynomial, table_encoding };

struct Case {
    Kind kind;
    const char* name;
    double worst;  ///< ΔE2000 allowed
};

void change_to(CalibratedScene& scene, Kind kind) {
    if (kind == Kind::matrix) return;
    scene.calibration.characterisation.model = bent(scene.calibration.characterisation.model);
    if (kind == Kind::root_polynomial) return;
    // The profile itself as what the picture embeds: the same codes mean a lookup table now.
    scene.frame.encoding =
        icc_encoding(input_profile(scene.frame, scene.calibration, "once"), StoredChannels::three, "once");
    scene.calibration = calibrate_on_card(scene.frame, scene.scene.card->card, scene.scene.card->corners);
}

}  // namespace

TEST_CASE("Wood read through the saved profile is what this program reads, to a tenth of ΔE2000", "[.slow]") {
    // 0.1 is a tenth of what a careful eye sees side by side (common practice, no source); formulas keep
    // more.
    for (const auto& [kind, name, worst] : {Case{Kind::matrix, "matrix and curves", 0.02},
                                            {Kind::root_polynomial, "root polynomial as a table", 0.1},
                                            {Kind::table_encoding, "table on a table", 0.1}}) {
        Errors lcms, second;
        for (const PracticeOptions& options : every_wood()) {
            CalibratedScene scene(options);
            change_to(scene, kind);
            WoodColours wood;
            wood.add(scene.frame, scene.calibration, scene.scene.original.region);
            wood.add(scene.frame, scene.calibration, scene.scene.repair.region);
            const auto bytes = input_profile(scene.frame, scene.calibration, "Bench camera");
            add_errors_of_lcms(bytes, wood, lcms);
            add_errors_of_second_reader(bytes, wood, second);
        }
        fmt::print(
            "{}: {} colours; Little CMS median {:.4f} worst {:.4f}; second reader median {:.4f} worst "
            "{:.4f}\n",
            name, lcms.all.size(), lcms.median(), lcms.worst(), second.median(), second.worst());
        INFO(name);
        CHECK(lcms.all.size() >= 1000);
        CHECK(lcms.worst() < worst);
        CHECK(second.worst() < worst);
    }
}

TEST_CASE("A saved profile has the structure that the standard wants") {
    // ICC.1:2022, 7.2 (header), 7.3 (tag table), 8.3 (required tags of input profiles), 9.2.
    for (const bool table : {false, true}) {
        CalibratedScene scene;
        if (table) scene.calibration.characterisation.model = bent(scene.calibration.characterisation.model);
        const auto bytes = input_profile(scene.frame, scene.calibration, "Bench camera");
        CHECK(bytes == input_profile(scene.frame, scene.calibration, "Bench camera"));
        const IccReader reader(bytes);
        CHECK(reader.word(0) == bytes.size());
        CHECK(bytes.size() % 4 == 0);
        CHECK(bytes[8] == 4);     // version 4
        CHECK(bytes[9] == 0x40);  // .4.0
        CHECK(reader.letters(12) == "scnr");
        CHECK(reader.letters(16) == "RGB ");
        CHECK(reader.letters(20) == "XYZ ");
        CHECK(reader.letters(36) == "acsp");
        CHECK(reader.word(64) == 1);           // media-relative colorimetric
        CHECK(reader.word(68) == 0x0000F6D6);  // D50 (7.2.16)
        CHECK(reader.word(72) == 0x00010000);
        CHECK(reader.word(76) == 0x0000D32D);
        for (const auto& [name, place] : reader.tags()) {
            INFO(name);
            CHECK(place.offset % 4 == 0);
            CHECK(place.offset >= 128 + 4 + 12 * reader.tags().size());
            CHECK(place.offset + place.size <= bytes.size());
        }
        std::vector<std::string> required{"desc", "cprt", "wtpt", "chad"};
        const std::vector<std::string> colours =
            table ? std::vector<std::string>{"A2B0"}
                  : std::vector<std::string>{"rXYZ", "gXYZ", "bXYZ", "rTRC", "gTRC", "bTRC"};
        required.insert(required.end(), colours.begin(), colours.end());
        for (const std::string& tag : required) {
            INFO(tag);
            CHECK(reader.tags().count(tag) == 1);
        }
        CHECK(reader.tags().size() == required.size());
        const auto white = reader.xyz("wtpt");
        CHECK(white[0] == Approx(0.9642).margin(1e-5));
        CHECK(white[2] == Approx(0.8249).margin(1e-5));
        // 7.2.18: MD5 (RFC 1321, by GLib) of the whole with flags, intent and identifier as zeros.
        auto blank = bytes;
        for (const auto& [first, count] : {std::pair{44, 4}, {64, 4}, {84, 16}})
            std::fill_n(blank.begin() + first, count, std::uint8_t{0});
        GChecksum* sum = g_checksum_new(G_CHECKSUM_MD5);
        g_checksum_update(sum, blank.data(), static_cast<gssize>(blank.size()));
        std::array<guint8, 16> id{};
        gsize length = id.size();
        g_checksum_get_digest(sum, id.data(), &length);
        g_checksum_free(sum);
        CHECK(std::equal(id.begin(), id.end(), bytes.begin() + 84));
    }
}

TEST_CASE("A picture so dark that white is beyond a profile's reach is refused") {
    CalibratedScene scene;
    scene.calibration.curves.fill(ToneCurve({{0.2, 0.9, 0.001}}));
    CHECK_THROWS_WITH(input_profile(scene.frame, scene.calibration, "dark"), contains("4.5 times white"));
}
