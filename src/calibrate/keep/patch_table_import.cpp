#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <sstream>

#include "calibrate/keep/patch_table.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

[[noreturn]] void refuse_table(const CgatsTable& table, const std::string& what) {
    throw InputError(fmt::format("{}: {}", table.source, what));
}

std::string keyword(const CgatsTable& table, const std::string& name) {
    for (const auto& [key, value] : table.keywords)
        if (key == name) return value;
    return {};
}

Matrix3 matrix_of(const CgatsTable& table) {
    std::istringstream text(keyword(table, "RGB_TO_XYZ"));
    Matrix3 matrix;
    for (auto& row : matrix.m)
        for (double& value : row)
            if (!(text >> value))
                refuse_table(table, "RGB_TO_XYZ is not nine numbers; export the table anew");
    if (!(std::abs(determinant(matrix)) > 1e-6))
        refuse_table(table, "RGB_TO_XYZ has its columns in line; export the table anew");
    return matrix;
}

Frame frame_of(const CgatsTable& table, const ColourEncoding& encoding, bool linear) {
    Frame frame;
    frame.name = one_line(table.source, 400);
    frame.width = frame.height = 1000;  // no patch's place is known, so none can be wrong
    frame.type = SampleType::uint16;
    frame.encoding = encoding;
    if (!linear) return frame;
    frame.encoding.to_xyz_d50 = matrix_of(table);
    frame.encoding.description = one_line(keyword(table, "RGB_ENCODING"), 200);
    frame.encoding.assumed = false;
    frame.facts.camera = one_line(keyword(table, "CAMERA"), 200);
    frame.facts.raw = keyword(table, "CAMERA_RAW") == "yes";
    return frame;
}

std::optional<Vector3> three(const CgatsTable& table, std::size_t row, const std::string& prefix) {
    if (!table.find_column(prefix + "R")) return std::nullopt;
    Vector3 values{};
    std::size_t c = 0;
    for (const char* channel : {"R", "G", "B"}) {
        values[c] = table.number(row, table.column(prefix + channel)) / 255;
        if (!(std::abs(values[c]) <= 100))
            refuse_table(table, fmt::format("{} has a value out of range in {}{}; RGB goes from 0 to 255",
                                            table.row_name(row), prefix, channel));
        ++c;
    }
    return values;
}

std::size_t count(const CgatsTable& table, std::size_t row, const char* name, std::size_t otherwise) {
    const auto column = table.find_column(name);
    if (!column) return otherwise;
    const double value = table.number(row, *column);
    if (!(value >= 0 && value <= 1e9))
        refuse_table(table,
                     fmt::format("{} has {:g} for {}; it counts pixels", table.row_name(row), value, name));
    return static_cast<std::size_t>(value);
}

Vector3 decode(const Frame& frame, const Vector3& codes) {
    std::array<float, 3> rgb{static_cast<float>(codes[0]), static_cast<float>(codes[1]),
                             static_cast<float>(codes[2])};
    frame.encoding.decoding->decode(rgb.data(), rgb.data(), 1);
    return {rgb[0], rgb[1], rgb[2]};
}

// Codes and their standard deviations turned into light.
void decode_reading(const Frame& frame, PatchReading& reading) {
    const Vector3 codes = reading.mean;
    for (const double code : codes)
        if (code < 0 || code > 1)
            throw InputError(
                fmt::format("{}: patch '{}' has codes beyond 0 to 255; RGB without RGB_LIGHT "
                            "\"linear\" are codes",
                            frame.name, reading.patch.name));
    const auto moved = [&](double by) {
        return decode(frame, {std::clamp(codes[0] + by, 0.0, 1.0), std::clamp(codes[1] + by, 0.0, 1.0),
                              std::clamp(codes[2] + by, 0.0, 1.0)});
    };
    reading.mean = decode(frame, codes);
    constexpr double half = 0.5 / 255;
    const Vector3 above = moved(half), below = moved(-half);
    for (std::size_t c = 0; c < 3; ++c) {
        const double light_a_code = std::abs(above[c] - below[c]);
        reading.mean_u[c] = light_a_code / std::sqrt(12.0);
        reading.spread[c] *= light_a_code * 255;
    }
}

PatchReading reading_of(const CgatsTable& table, std::size_t row, const Patch& patch, const Frame& frame,
                        bool linear) {
    PatchReading reading;
    reading.patch = patch;
    const auto mean = three(table, row, "RGB_");
    if (!mean) (void)table.column("RGB_R");  // refuses
    reading.mean = *mean;
    reading.spread = three(table, row, "STDEV_").value_or(Vector3{});
    reading.pixels = count(table, row, "PIXELS", 1000);
    reading.outliers = count(table, row, "OUTLIERS", 0);
    reading.clipped = count(table, row, "CLIPPED", 0);
    if (!linear) {
        decode_reading(frame, reading);
        return reading;
    }
    constexpr double rounded = 1.0 / 255 / 3.4641;
    if (const auto light = three(table, row, "LIGHT_"))
        for (std::size_t c = 0; c < 3; ++c) {
            reading.light[c] = 255 * (*light)[c];
            constexpr double least = 0.01;
            if (!(reading.light[c] >= least && reading.light[c] <= 1 / least))
                refuse_table(table,
                             fmt::format("{} has a LIGHT_… out of range; it is relative, 1 at the card's "
                                         "middle",
                                         table.row_name(row)));
        }
    reading.mean_u = three(table, row, "U_").value_or(Vector3{rounded, rounded, rounded});
    return reading;
}

std::vector<std::size_t> match_rows(const CgatsTable& table, const Card& card) {
    const std::size_t names = table.column("SAMPLE_NAME");
    std::vector<std::size_t> patch_of_row;
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        const auto patch = std::find_if(card.patches.begin(), card.patches.end(), [&](const Patch& known) {
            return known.name == table.rows[row][names];
        });
        if (patch == card.patches.end())
            refuse_table(table, fmt::format("{} is no patch of the card '{}'; choose the right --card",
                                            table.row_name(row), card.name));
        const auto index = static_cast<std::size_t>(patch - card.patches.begin());
        if (std::find(patch_of_row.begin(), patch_of_row.end(), index) != patch_of_row.end())
            refuse_table(table, fmt::format("{} is there twice; keep one row", table.row_name(row)));
        patch_of_row.push_back(index);
    }
    for (std::size_t i = 0; i < card.patches.size(); ++i)
        if (card.patches[i].neutral() &&
            std::find(patch_of_row.begin(), patch_of_row.end(), i) == patch_of_row.end())
            refuse_table(table,
                         fmt::format("the card's grey step '{}' has no row; add it, or choose the right "
                                     "--card",
                                     one_line(card.patches[i].name, 40)));
    return patch_of_row;
}

}  // namespace

TabledReadings tabled_readings(const CgatsTable& table, const Card& card, const ColourEncoding& encoding) {
    const bool linear = keyword(table, "RGB_LIGHT") == "linear";
    const auto patch_of_row = match_rows(table, card);
    TabledReadings result{frame_of(table, encoding, linear), {}};
    for (std::size_t row = 0; row < table.rows.size(); ++row)
        result.patches.push_back(
            reading_of(table, row, card.patches[patch_of_row[row]], result.frame, linear));
    return result;
}

}  // namespace tonemend
