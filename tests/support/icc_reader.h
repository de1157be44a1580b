#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "colour/xyz.h"

namespace tonemend::testing {

/// A second reader of ICC profiles, written from ICC.1:2022 alone and for the tests alone, to judge what
/// Little CMS writes by something that is not Little CMS: header and tag table (7.2, 7.3), XYZType (10.31),
/// curveType and parametricCurveType (10.6, 10.18), lutAToBType (10.12).
class IccReader {
  public:
    explicit IccReader(std::vector<std::uint8_t> bytes) : bytes_(std::move(bytes)) {
        const std::size_t count = word(128);
        for (std::size_t i = 0; i < count; ++i)
            tags_[letters(132 + 12 * i)] = {word(136 + 12 * i), word(140 + 12 * i)};
    }

    struct Place {
        std::size_t offset = 0, size = 0;
    };
    const std::map<std::string, Place>& tags() const { return tags_; }
    std::size_t size() const { return bytes_.size(); }
    std::uint32_t word(std::size_t at) const {
        std::uint32_t value = 0;
        for (std::size_t i = 0; i < 4; ++i) value = value << 8 | bytes_.at(at + i);
        return value;
    }
    std::string letters(std::size_t at) const {
        std::string text;
        for (std::size_t i = 0; i < 4; ++i) text += static_cast<char>(bytes_.at(at + i));
        return text;
    }
    std::array<double, 3> xyz(const std::string& tag) const {
        const std::size_t at = tags_.at(tag).offset + 8;
        return {fixed(at), fixed(at + 4), fixed(at + 8)};
    }

    /// XYZ of encoded RGB, 0..1, by the AToB0 table if there is one, else by matrix and curves.
    XYZ colour(std::array<double, 3> rgb) const {
        if (tags_.count("A2B0") != 0) return by_table(rgb);
        const std::array<std::string, 3> curves{"rTRC", "gTRC", "bTRC"}, colorants{"rXYZ", "gXYZ", "bXYZ"};
        std::array<double, 3> sum{};
        for (std::size_t c = 0; c < 3; ++c) {
            const double light = curve(tags_.at(curves[c]).offset, rgb[c]).value;
            const auto colorant = xyz(colorants[c]);
            for (std::size_t k = 0; k < 3; ++k) sum[k] += light * colorant[k];
        }
        return {sum[0], sum[1], sum[2]};
    }

  private:
    struct Evaluated {
        double value;
        std::size_t bytes;  ///< that the curve takes, filled up to a multiple of 4
    };

    double fixed(std::size_t at) const { return static_cast<std::int32_t>(word(at)) / 65536.0; }
    double sixteen(std::size_t at) const { return (bytes_.at(at) << 8 | bytes_.at(at + 1)) / 65535.0; }

    Evaluated curve(std::size_t at, double x) const {
        if (letters(at) == "para") {
            const int kind = bytes_.at(at + 8) << 8 | bytes_.at(at + 9);
            if (kind != 0) throw std::runtime_error("a formula that this reader does not know");
            return {std::pow(x, fixed(at + 12)), 16};
        }
        if (letters(at) != "curv") throw std::runtime_error("no curve");
        const std::size_t count = word(at + 8), bytes = (12 + 2 * count + 3) / 4 * 4;
        if (count == 0) return {x, bytes};
        if (count == 1) return {std::pow(x, sixteen(at + 12) * 65535 / 256), bytes};
        const double place = std::clamp(x, 0.0, 1.0) * static_cast<double>(count - 1);
        const auto below = std::min(static_cast<std::size_t>(place), count - 2);
        const double part = place - static_cast<double>(below), low = sixteen(at + 12 + 2 * below),
                     high = sixteen(at + 14 + 2 * below);
        return {low + part * (high - low), bytes};
    }

    std::array<double, 3> through_curves(std::size_t at, std::array<double, 3> values) const {
        for (double& value : values) {
            const Evaluated evaluated = curve(at, value);
            value = evaluated.value;
            at += evaluated.bytes;
        }
        return values;
    }

    std::array<double, 3> through_lattice(std::size_t at, const std::array<double, 3>& values) const {
        std::array<std::size_t, 3> nodes{}, below{};
        std::array<double, 3> part{};
        for (std::size_t c = 0; c < 3; ++c) {
            nodes[c] = bytes_.at(at + c);
            const double place = std::clamp(values[c], 0.0, 1.0) * static_cast<double>(nodes[c] - 1);
            below[c] = std::min(static_cast<std::size_t>(place), nodes[c] - 2);
            part[c] = place - static_cast<double>(below[c]);
        }
        if (bytes_.at(at + 16) != 2) throw std::runtime_error("a lattice of other than 16 bits");
        std::array<double, 3> sum{};
        for (std::size_t corner = 0; corner < 8; ++corner) {
            double weight = 1;
            std::size_t index = 0;
            for (std::size_t c = 0; c < 3; ++c) {
                const std::size_t up = corner >> c & 1;
                weight *= up == 1 ? part[c] : 1 - part[c];
                index = index * nodes[c] + below[c] + up;
            }
            for (std::size_t k = 0; k < 3; ++k) sum[k] += weight * sixteen(at + 20 + 2 * (3 * index + k));
        }
        return sum;
    }

    XYZ by_table(std::array<double, 3> values) const {
        const std::size_t at = tags_.at("A2B0").offset;
        if (letters(at) != "mAB ") throw std::runtime_error("no lutAToBType");
        const std::size_t b = word(at + 12), matrix = word(at + 16), m = word(at + 20),
                          lattice = word(at + 24), a = word(at + 28);
        values = through_curves(at + a, values);
        values = through_lattice(at + lattice, values);
        values = through_curves(at + m, values);
        std::array<double, 3> moved{};
        for (std::size_t row = 0; row < 3; ++row) {
            for (std::size_t column = 0; column < 3; ++column)
                moved[row] += fixed(at + matrix + 4 * (3 * row + column)) * values[column];
            moved[row] += fixed(at + matrix + 36 + 4 * row);
        }
        values = through_curves(at + b, moved);
        constexpr double full = 1 + 32767.0 / 32768;  // 6.3.4.2
        return {full * values[0], full * values[1], full * values[2]};
    }

    std::vector<std::uint8_t> bytes_;
    std::map<std::string, Place> tags_;
};

}  // namespace tonemend::testing
