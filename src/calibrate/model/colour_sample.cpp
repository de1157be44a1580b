#include "calibrate/model/colour_sample.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

[[noreturn]] void refuse_sample(const std::string& text) {
    throw InputError(fmt::format(
        "--sample {}: give a region and the L*, a*, b* that an instrument read there, as "
        "120,80,60,60=52.1,14.3,27.0 (L* 0 to 100, a* and b* within ±150); original: or repair: in front "
        "says whose material it is",
        one_line(text, 60)));
}

Lab parse_lab(const std::string& text, std::string_view numbers) {
    std::array<double, 3> values{};
    for (std::size_t i = 0; i < 3; ++i) {
        const auto [end, error] = std::from_chars(numbers.data(), numbers.data() + numbers.size(), values[i]);
        if (error != std::errc{} || !std::isfinite(values[i])) refuse_sample(text);
        numbers.remove_prefix(static_cast<std::size_t>(end - numbers.data()));
        if (i < 2) {
            if (numbers.empty() || numbers.front() != ',') refuse_sample(text);
            numbers.remove_prefix(1);
            while (!numbers.empty() && numbers.front() == ' ') numbers.remove_prefix(1);
        }
    }
    const Lab lab{values[0], values[1], values[2]};
    if (!numbers.empty() || lab.L < 0 || lab.L > 100 || std::abs(lab.a) > 150 || std::abs(lab.b) > 150)
        refuse_sample(text);
    return lab;
}

}  // namespace

ColourSample parse_sample(const std::string& text) {
    std::string_view rest = text;
    ColourSample sample;
    sample.text = text;
    if (rest.starts_with("original:")) sample.side = SampleSide::original;
    if (rest.starts_with("repair:")) sample.side = SampleSide::repair;
    if (sample.side != SampleSide::either) rest.remove_prefix(rest.find(':') + 1);
    const std::size_t equals = rest.find('=');
    if (equals == std::string_view::npos) refuse_sample(text);
    sample.region = parse_region(std::string(rest.substr(0, equals)), "--sample");
    sample.lab = parse_lab(text, rest.substr(equals + 1));
    return sample;
}

}  // namespace tonemend
