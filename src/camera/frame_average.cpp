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

// put(sum, light) for each sample.
template <typename Tables, typename Put>
void for_each_light(const Frame& frame, const Tables& tables, std::vector<std::uint32_t>& sums, Put put) {
    const auto* codes = reinterpret_cast<const std::uint8_t*>(frame.samples.data());
    for (std::size_t i = 0; i + 2 < sums.size(); i += 3) {
        put(sums[i], tables[0][codes[i]]);
        put(sums[i + 1], tables[1][codes[i + 1]]);
        put(sums[i + 2], tables[2][codes[i + 2]]);
    }
}

// Turns sums of `count` frames into codes of their means.
class MeanCode {
  public:
    explicit MeanCode(int count)
        : share_(1 / static_cast<float>(count)),
          // The count of clips begins at bit 24.
          most_(static_cast<std::uint32_t>(count / 16 + 1) * clip_count) {}

    std::uint16_t operator()(std::uint32_t sum) const {
        const float rounded = 0.5F + static_cast<float>(sum & light_mask) * share_;
        const auto light = static_cast<std::int32_t>(rounded);
        if (sum >= most_) return light > 32767 ? 65535 : 0;
        return std::clamp<std::uint16_t>(codes_[static_cast<std::size_t>(std::min(light, 65535))], 1, 65534);
    }

  private:
    const float share_;
    const std::uint32_t most_;
    const std::uint16_t* codes_ = encoded_of_linear().data();
};

}  // namespace

FrameAverage::FrameAverage(int most) : block_(std::clamp(most, 2, 254) / 2) {}

void FrameAverage::clear() {
    older_.frames = newer_.frames = 0;
    last_.reset();
    mean_.reset();
    reason_ = Restart::first_frame;
}

// False when the tables changed.
bool FrameAverage::read_encoding(const Frame& frame) {
    const auto& decoding = frame.encoding.decoding;
    if (decoding == decoding_) return true;
    std::array<float, 768> linear{};
    for (std::size_t i = 0; i < linear.size(); ++i) linear[i] = static_cast<float>(i / 3) / 255;
    decoding->decode(linear.data(), linear.data(), 256);
    const auto before = tables_;
    for (std::size_t i = 0; i < linear.size(); ++i) {
        const auto light = static_cast<std::uint32_t>(std::lround(65535 * std::clamp(linear[i], 0.0F, 1.0F)));
        const bool clipped = i / 3 == 0 || i / 3 == 255;
        tables_[i % 3][i / 3] = light + (clipped ? clip_count : 0);
    }
    decoding_ = decoding;
    return tables_ == before;
}

Restart FrameAverage::judge(const Frame& frame, const MotionGrid& grid, bool same_tables) const {
    if (!last_) return Restart::first_frame;
    if (!same_tables || !is_averaged(frame) || !is_averaged(*last_) || last_->width != frame.width ||
        last_->height != frame.height || last_->encoding.to_xyz_d50.m != frame.encoding.to_xyz_d50.m)
        return Restart::other_kind;
    switch (find_motion(older_.frames > 0 ? older_.first : newer_.first, grid)) {
        case Motion::none:
            return Restart::none;
        case Motion::moved:
            return Restart::moved;
        case Motion::light_changed:
            return Restart::light_changed;
    }
    return Restart::none;
}

void FrameAverage::sum_up(const Frame& frame) {
    newer_.sums.resize(frame.samples.size());
    if (newer_.frames == 0)
        for_each_light(frame, tables_, newer_.sums,
                       [](std::uint32_t& sum, std::uint32_t light) { sum = light; });
    else
        for_each_light(frame, tables_, newer_.sums,
                       [](std::uint32_t& sum, std::uint32_t light) { sum += light; });
}

Restart FrameAverage::add(std::shared_ptr<const Frame> frame) {
    const bool averaged = is_averaged(*frame);
    const bool same_tables = !averaged || read_encoding(*frame);
    MotionGrid grid = averaged ? reduce_for_motion(*frame) : MotionGrid{};
    const Restart restart = judge(*frame, grid, same_tables);
    mean_.reset();
    if (restart != Restart::none) {
        older_.frames = newer_.frames = 0;
        reason_ = restart;
    } else if (newer_.frames == block_) {
        std::swap(older_, newer_);
        newer_.frames = 0;
    }
    if (averaged) sum_up(*frame);
    if (newer_.frames == 0) newer_.first = std::move(grid);
    ++newer_.frames;
    last_ = std::move(frame);
    return restart;
}

std::shared_ptr<const Frame> FrameAverage::result() {
    if (count() <= 1) return last_;
    if (mean_) return mean_;
    auto mean = std::make_shared<Frame>();
    mean->name = last_->name;
    mean->width = last_->width;
    mean->height = last_->height;
    mean->type = SampleType::uint16;
    mean->encoding = last_->encoding;
    mean->encoding.decoding = live_video_encoding().decoding;
    mean->encoding.description += fmt::format(", mean of {} frames", count());
    mean->facts = last_->facts;
    mean->facts.mean_of = count();
    const std::size_t samples = newer_.sums.size();
    mean->samples = sample_storage(2 * samples);
    auto* out = reinterpret_cast<std::uint16_t*>(mean->samples.data());
    const MeanCode mean_code(count());
    if (older_.frames == 0)
        for (std::size_t i = 0; i < samples; ++i) out[i] = mean_code(newer_.sums[i]);
    else
        for (std::size_t i = 0; i < samples; ++i) out[i] = mean_code(newer_.sums[i] + older_.sums[i]);
    mean_ = std::move(mean);
    return mean_;
}

}  // namespace tonemend
