#include "calibrate/keep/patch_table.h"

#include <fmt/format.h>

#include "colour/difference.h"

namespace tonemend {
namespace {

std::string exact(double value) {
    return fmt::format("{:.10g}", value);
}

std::string matrix_text(const Matrix3& matrix) {
    std::string text;
    for (const auto& row : matrix.m)
        for (const double value : row) text += fmt::format("{}{}", text.empty() ? "" : " ", value);
    return text;
}

std::vector<std::string> row_of(const PatchReading& reading, const Calibration& calibration) {
    const XYZ xyz = calibration.to_xyz(calibration.light_of(reading));
    const Lab lab = to_lab(xyz, d50_icc);
    std::vector<std::string> row{reading.patch.name};
    for (const Vector3& rgb : {reading.mean, reading.spread, reading.mean_u})
        for (const double value : rgb) row.push_back(exact(255 * value));
    for (const double value : reading.light) row.push_back(exact(value));
    for (const std::size_t count : {reading.pixels, reading.outliers, reading.clipped})
        row.push_back(std::to_string(count));
    for (const double value : {100 * xyz.X, 100 * xyz.Y, 100 * xyz.Z, lab.L, lab.a, lab.b})
        row.push_back(fmt::format("{:.4f}", value));
    row.push_back(fmt::format("{:.4f}", ciede2000(reading.patch.lab, lab).value));
    return row;
}

}  // namespace

CgatsTable patch_table(const Frame& frame, const Calibration& calibration) {
    CgatsTable table;
    table.identifier = "CGATS.17";
    table.keywords = {{"ORIGINATOR", "Tonemend"},
                      {"DESCRIPTOR", fmt::format("{} in {}", calibration.card_name, frame.name)},
                      {"RGB_LIGHT", "linear"},
                      {"RGB_TO_XYZ", matrix_text(frame.encoding.to_xyz_d50)},
                      {"RGB_ENCODING", frame.encoding.description},
                      {"CAMERA", frame.facts.camera},
                      {"CAMERA_RAW", frame.facts.raw ? "yes" : "no"}};
    table.columns = {"SAMPLE_NAME", "RGB_R",  "RGB_G",    "RGB_B",   "STDEV_R", "STDEV_G",
                     "STDEV_B",     "U_R",    "U_G",      "U_B",     "LIGHT_R", "LIGHT_G",
                     "LIGHT_B",     "PIXELS", "OUTLIERS", "CLIPPED", "XYZ_X",   "XYZ_Y",
                     "XYZ_Z",       "LAB_L",  "LAB_A",    "LAB_B",   "DE_2000"};
    for (const PatchReading& reading : calibration.patches)
        table.rows.push_back(row_of(reading, calibration));
    return table;
}

}  // namespace tonemend
