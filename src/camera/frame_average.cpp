#include "camera/frame_average.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "colour/srgb_curve.h"
#include "picture/sample_storage.h"
#include "picture/standard_encodings.h"

namespace tonemend {

namespace {

constexpr std::uint32_t clip_count = 1U << 24U;
constexpr std::uint32_t light_mask = clip_count - 1;

const std::vector<std::uint16_t>& encoded_of_linear() {
    static const std::vector<std::uint16_t> table = [] {
        std::vector<std::uint16_t> codes;
        for (int i = 0; i < 65536; ++i)
            codes.push_back(static_cast<std::uint16_t>(std::lround(65535 * encode_srgb(i / 65535.0))));
        return codes;
    }();
    return table;
}

bool is_averaged(const Frame& frame) {
    return frame.type == SampleType::uint8 && frame.encoding.decoding && frame.encoding.decoding->separable();
}

const std::uint8_t* codes_of(const Frame& frame) {
    return reinterpret_cast<const std::uint8_t*>(frame.samples.data());
}

// Calls work(sum, channel's table, sample's index) for each sample.
template <typename Tables, typename Work>
void for_each_sample(std::vector<std::uint32_t>& sums, const Tables& tables, Work work) {
    for (std::size_t i = 0; i + 2 < sums.size(); i += 3) {
        work(sums[i], tables[0], i);
        work(sums[i + 1], tables[1], i + 1);
        work(sums[i + 2], tables[2], i + 2);
    }
}

std::uint16_t mean_code(std::uint32_t sum, float share, const std::vector<std::uint16_t>& codes) {
    const auto light = static_cast<std::int32_t>(static_cast<float>(sum & light_mask) * share + 0.5F);
    if (sum >= clip_count) return light > 32767 ? 65535 : 0;
    return std::clamp<std::uint16_t>(codes[static_cast<std::size_t>(std::min(light, 65535))], 1, 65534);
}

}  // namespace

FrameAverage::FrameAverage(int most) : most_(static_cast<std::size_t>(std::clamp(most, 1, 255))) {}

void FrameAverage::clear() {
    frames_.clear();
    mean_.reset();
    reason_ = Restart::first_frame;
}

void FrameAverage::read_encoding(const Frame& frame) {
    const auto& decoding = frame.encoding.decoding;
    if (decoding == decoding_) return;
    std::array<float, 3 * 256> linear{};
    for (std::size_t i = 0; i < linear.size(); ++i) linear[i] = static_cast<float>(i / 3) / 255;
    decoding->decode(linear.data(), linear.data(), 256);
    for (std::size_t i = 0; i < linear.size(); ++i) {
        const auto light = static_cast<std::uint32_t>(std::lround(65535 * std::clamp(linear[i], 0.0F, 1.0F)));
        const bool clipped = i / 3 == 0 || i / 3 == 255;
        tables_[i % 3][i / 3] = light + (clipped ? clip_count : 0);
    }
    decoding_ = decoding;
}

Restart FrameAverage::judge(const Frame& frame) {
    const Tables before = tables_;
    if (is_averaged(frame)) read_encoding(frame);
    if (frames_.empty()) return Restart::first_frame;
    const Frame& oldest = *frames_.front();
    if (!is_averaged(frame) || !is_averaged(oldest) || oldest.width != frame.width ||
        oldest.height != frame.height || tables_ != before ||
        oldest.encoding.to_xyz_d50.m != frame.encoding.to_xyz_d50.m)
        return Restart::other_kind;
    switch (find_motion(oldest, frame)) {
        case Motion::none:
            return Restart::none;
        case Motion::part:
            return Restart::part_moved;
        case Motion::whole:
            return Restart::whole_moved;
    }
    return Restart::none;
}

Restart FrameAverage::add(std::shared_ptr<const Frame> frame) {
    const Restart restart = judge(*frame);
    const std::uint8_t* codes = codes_of(*frame);
    mean_.reset();
    if (restart != Restart::none) {
        frames_.clear();
        reason_ = restart;
        frames_.push_back(std::move(frame));
        return restart;
    }
    if (frames_.size() == 1) {
        const std::uint8_t* first = codes_of(*frames_.front());
        sums_.resize(frame->samples.size());
        for_each_sample(sums_, tables_, [&](std::uint32_t& sum, const Table& table, std::size_t i) {
            sum = table[first[i]] + table[codes[i]];
        });
    } else if (frames_.size() < most_) {
        for_each_sample(sums_, tables_, [&](std::uint32_t& sum, const Table& table, std::size_t i) {
            sum += table[codes[i]];
        });
    } else {
        const std::uint8_t* oldest = codes_of(*frames_.front());
        for_each_sample(sums_, tables_, [&](std::uint32_t& sum, const Table& table, std::size_t i) {
            sum += table[codes[i]] - table[oldest[i]];
        });
    }
    if (frames_.size() == most_) frames_.pop_front();
    frames_.push_back(std::move(frame));
    return restart;
}

std::shared_ptr<const Frame> FrameAverage::result() {
    if (frames_.size() <= 1) return frames_.empty() ? nullptr : frames_.front();
    if (mean_) return mean_;
    const Frame& newest = *frames_.back();
    auto mean = std::make_shared<Frame>();
    mean->name = newest.name;
    mean->width = newest.width;
    mean->height = newest.height;
    mean->type = SampleType::uint16;
    mean->encoding = newest.encoding;
    mean->encoding.decoding = srgb_encoding(Provenance::stated).decoding;
    mean->encoding.description += fmt::format(", mean of {} frames", frames_.size());
    mean->facts = newest.facts;
    mean->samples = sample_storage(2 * sums_.size());
    auto* out = reinterpret_cast<std::uint16_t*>(mean->samples.data());
    const float share = 1 / static_cast<float>(frames_.size());
    const auto& codes = encoded_of_linear();
    for (std::size_t i = 0; i < sums_.size(); ++i) out[i] = mean_code(sums_[i], share, codes);
    mean_ = std::move(mean);
    return mean_;
}

}  // namespace tonemend
