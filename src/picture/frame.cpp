#include "picture/frame.h"

#include <cassert>

namespace tonemend {

std::size_t Frame::bytes_per_sample() const {
    switch (type) {
        case SampleType::uint8:
            return 1;
        case SampleType::uint16:
            return 2;
        case SampleType::float32:
            return 4;
    }
    return 0;
}

const std::byte* Frame::row(int y) const {
    assert(y >= 0 && y < height);
    return samples.data() +
           static_cast<std::size_t>(y) * static_cast<std::size_t>(width) * 3 * bytes_per_sample();
}

}  // namespace tonemend
