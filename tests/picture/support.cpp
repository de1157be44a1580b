#include "support.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iterator>
#include <opencv2/imgproc.hpp>
#include <random>

#include "picture/standard_encodings.h"

namespace tonemend::testing {
namespace {

/// Writes a big-endian TIFF structure.
class ExifWriter {
  public:
    void u16(unsigned value) {
        bytes.push_back(static_cast<std::uint8_t>(value >> 8));
        bytes.push_back(static_cast<std::uint8_t>(value));
    }
    void u32(unsigned value) {
        u16(value >> 16);
        u16(value & 0xffff);
    }
    void short_tag(unsigned tag, unsigned value) { u16(tag), u16(3), u32(1), u16(value), u16(0); }
    void long_tag(unsigned tag, unsigned type, unsigned count, unsigned value) {
        u16(tag), u16(type), u32(count), u32(value);
    }
    std::vector<std::uint8_t> bytes;
};

void store(Frame& frame, std::size_t index, double value) {
    value = std::min(std::max(value, 0.0), 1.0);
    if (frame.type == SampleType::uint8) {
        frame.samples[index] = static_cast<std::byte>(std::lround(value * 255));
    } else if (frame.type == SampleType::uint16) {
        const auto code = static_cast<std::uint16_t>(std::lround(value * 65535));
        std::memcpy(&frame.samples[2 * index], &code, 2);
    } else {
        const auto number = static_cast<float>(value);
        std::memcpy(&frame.samples[4 * index], &number, 4);
    }
}

}  // namespace

Frame make_frame(int width, int height, SampleType type, unsigned seed) {
    Frame frame;
    frame.name = "test picture";
    frame.width = width;
    frame.height = height;
    frame.type = type;
    frame.encoding = srgb_encoding(Provenance::assumed);
    frame.samples.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3 *
                         frame.bytes_per_sample());
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> noise(-0.03, 0.03);
    std::size_t index = 0;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            for (int c = 0; c < 3; ++c) {
                const double slope = (c == 0 ? x : c == 1 ? y : x + y) / static_cast<double>(width + height);
                const double edge = (x / 7 + y / 5 + c) % 4 == 0 ? 0.3 : 0;
                store(frame, index++, 1.3 * slope + edge - 0.1 + noise(random));
            }
    return frame;
}

cv::Mat as_opencv(const Frame& frame) {
    const int depth = frame.type == SampleType::uint8    ? CV_8U
                      : frame.type == SampleType::uint16 ? CV_16U
                                                         : CV_32F;
    const cv::Mat rgb(frame.height, frame.width, CV_MAKETYPE(depth, 3),
                      const_cast<std::byte*>(frame.samples.data()));
    cv::Mat bgr;
    cv::cvtColor(rgb, bgr, cv::COLOR_RGB2BGR);
    return bgr;
}

double largest_difference(const Frame& frame, const cv::Mat& bgr) {
    const cv::Mat mine = as_opencv(frame);
    if (mine.size() != bgr.size() || mine.type() != bgr.type()) return -1;
    return cv::norm(mine, bgr, cv::NORM_INF);
}

std::vector<std::byte> file_content(const std::filesystem::path& path) {
    const auto bytes = bytes_of(path);
    const auto* const first = reinterpret_cast<const std::byte*>(bytes.data());
    return {first, first + bytes.size()};
}

std::vector<std::uint8_t> bytes_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) throw std::runtime_error("missing test input " + path.string());
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    return {text.begin(), text.end()};
}

void put_file(const std::filesystem::path& path, const std::vector<std::byte>& bytes) {
    std::ofstream(path, std::ios::binary)
        .write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
}

void put_text(const std::filesystem::path& path, const std::string& text) {
    std::ofstream(path, std::ios::binary) << text;
}

std::vector<std::uint8_t> exif_structure(int orientation) {
    ExifWriter w;
    w.bytes = {'M', 'M'};
    w.u16(42), w.u32(8);
    // IFD0 at 8: three entries, to 8 + 2 + 36 + 4 = 50; the maker's name at 50 (8 bytes), EXIF at 58.
    w.u16(3);
    w.long_tag(0x010f, 2, 8, 50);
    w.short_tag(0x0112, static_cast<unsigned>(orientation));
    w.long_tag(0x8769, 4, 1, 58);
    w.u32(0);
    for (const char c : std::string("Lumenia")) w.bytes.push_back(static_cast<std::uint8_t>(c));
    w.bytes.push_back(0);
    // EXIF at 58: seven entries, to 58 + 2 + 84 + 4 = 148; the two rationals there.
    w.u16(7);
    w.long_tag(0x829a, 5, 1, 148);
    w.long_tag(0x829d, 5, 1, 156);
    w.short_tag(0x8827, 200);
    w.short_tag(0x9209, 1);
    w.short_tag(0xa001, 1);
    w.short_tag(0xa402, 1);
    w.short_tag(0xa403, 1);
    w.u32(0);
    w.u32(1), w.u32(50), w.u32(8), w.u32(1);
    return w.bytes;
}

std::vector<std::byte> with_exif(const std::vector<std::byte>& jpeg, int orientation) {
    return with_exif_structure(jpeg, exif_structure(orientation));
}

std::vector<std::byte> with_exif_structure(const std::vector<std::byte>& jpeg,
                                           const std::vector<std::uint8_t>& structure) {
    const std::size_t length = 2 + 6 + structure.size();
    std::vector<std::byte> result(jpeg.begin(), jpeg.begin() + 2);
    for (const unsigned value : {0xffU, 0xe1U, static_cast<unsigned>(length >> 8),
                                 static_cast<unsigned>(length & 0xff), 0x45U, 0x78U, 0x69U, 0x66U, 0U, 0U})
        result.push_back(static_cast<std::byte>(value));
    for (const std::uint8_t value : structure) result.push_back(static_cast<std::byte>(value));
    result.insert(result.end(), jpeg.begin() + 2, jpeg.end());
    return result;
}

}  // namespace tonemend::testing
