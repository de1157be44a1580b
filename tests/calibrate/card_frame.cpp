#include "calibrate/card/card_frame.h"

#include <cmath>
#include <iterator>
#include <regex>
#include <set>

#include "calibrate/card/detect_markers.h"
#include "card_file.h"
#include "picture/input_error.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

std::string read_file(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

std::filesystem::path shipped(const CardFrame& frame, const std::string& extension) {
    return std::filesystem::path(TONEMEND_SOURCE_DIR) / "calibration" /
           ("card-frame-" + frame.name + extension);
}

/// Width and height of a PDF's page in millimetres, as Poppler's pdfinfo (package poppler-utils) reads them.
std::pair<double, double> page_size(const std::filesystem::path& path) {
    FILE* pipe = popen(("pdfinfo '" + path.string() + "'").c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string text;
    for (int c = fgetc(pipe); c != EOF; c = fgetc(pipe)) text += static_cast<char>(c);
    REQUIRE(pclose(pipe) == 0);
    std::smatch size;
    const std::regex pattern(R"(Page size: +([0-9.]+) x ([0-9.]+) pts)");
    REQUIRE(std::regex_search(text, size, pattern));
    return {std::stod(size[1]) * 25.4 / 72, std::stod(size[2]) * 25.4 / 72};
}

}  // namespace

TEST_CASE("the card frames that ship are those that the program writes") {
    const ScratchFolder folder;
    for (const CardFrame& frame : card_frames()) {
        INFO(frame.name);
        const auto path = folder.path() / "frame.svg";
        write_card_frame_svg(frame, path);
        CHECK(read_file(path) == read_file(shipped(frame, ".svg")));
    }
}

TEST_CASE("a sheet's page is true to size, in the PDF and in the SVG") {
    const ScratchFolder folder;
    for (const CardFrame& frame : card_frames()) {
        INFO(frame.name);
        const auto path = folder.path() / "frame.pdf";
        write_card_frame_pdf(frame, path);
        for (const auto& [width, height] : {page_size(path), page_size(shipped(frame, ".pdf"))}) {
            CHECK(std::abs(width - frame.sheet_width) < 0.002);  // pdfinfo prints a hundredth of a point
            CHECK(std::abs(height - frame.sheet_height) < 0.002);
        }
        const std::string svg = read_file(shipped(frame, ".svg"));
        CHECK(svg.find(fmt::format("width=\"{0:g}mm\" height=\"{1:g}mm\" viewBox=\"0 0 {0:g} {1:g}\"",
                                   frame.sheet_width, frame.sheet_height)) != std::string::npos);
    }
}

TEST_CASE("every sheet prints on A4 and on Letter paper with a margin of 5 mm") {
    // ISO 216: A4 is 297 × 210 mm. ANSI/ASME Y14.1: Letter is 279.4 × 215.9 mm.
    for (const CardFrame& frame : card_frames()) {
        CHECK(frame.sheet_width <= 279.4 - 10);
        CHECK(frame.sheet_height <= 210 - 10);
    }
}

TEST_CASE("markers lie outside the window, a cell of white around them, and none serves two sheets") {
    std::set<int> ids;
    for (const CardFrame& frame : card_frames()) {
        const Quad window = window_quad(frame);
        const double quiet = frame.marker_side / marker_cells_across;
        for (int index = 0; index < 4; ++index) {
            CHECK(ids.insert(frame.first_id + index).second);
            const Point corner = marker_corner(frame, index);
            CHECK(corner.x >= quiet);
            CHECK(corner.y >= quiet);
            CHECK(corner.x + frame.marker_side + quiet <= frame.sheet_width);
            CHECK(corner.y + frame.marker_side + quiet <= frame.sheet_height);
            const double gap_x = index == 0 || index == 3 ? window[0].x - corner.x - frame.marker_side
                                                          : corner.x - window[1].x;
            const double gap_y =
                index < 2 ? window[0].y - corner.y - frame.marker_side : corner.y - window[3].y;
            CHECK(gap_x == Approx(frame.marker_gap));
            CHECK(gap_y == Approx(frame.marker_gap));
            CHECK(frame.marker_gap >= quiet);
        }
    }
}

TEST_CASE("any two markers of the card frames differ in at least eleven cells at every rotation") {
    // The family's name states it: 36 cells, Hamming distance 11 (Olson 2011, "AprilTag", section III).
    std::vector<std::vector<bool>> patterns;
    for (const CardFrame& frame : card_frames())
        for (int index = 0; index < 4; ++index) patterns.push_back(marker_pattern(frame.first_id + index));
    constexpr int n = marker_cells_across;
    const auto turn = [](const std::vector<bool>& pattern) {
        std::vector<bool> turned(pattern.size());
        for (int row = 0; row < n; ++row)
            for (int column = 0; column < n; ++column)
                turned[static_cast<std::size_t>(column * n + n - 1 - row)] =
                    pattern[static_cast<std::size_t>(row * n + column)];
        return turned;
    };
    int least = n * n;
    for (std::size_t a = 0; a < patterns.size(); ++a)
        for (std::size_t b = 0; b < patterns.size(); ++b) {
            std::vector<bool> other = patterns[b];
            for (int quarter = 0; quarter < 4; ++quarter, other = turn(other)) {
                if (a == b && quarter == 0) continue;
                int differing = 0;
                for (std::size_t cell = 0; cell < other.size(); ++cell)
                    differing += patterns[a][cell] != other[cell];
                least = std::min(least, differing);
            }
        }
    CAPTURE(least);
    CHECK(least >= 11);
}

TEST_CASE("a card frame that cannot be written says so") {
    const ScratchFolder folder;
    const auto path = folder.path() / "absent" / "frame";
    CHECK_THROWS_AS(write_card_frame_svg(card_frames()[0], path), InputError);
    CHECK_THROWS_AS(write_card_frame_pdf(card_frames()[0], path), InputError);
}
