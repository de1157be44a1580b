#include "bench.h"

#include <fmt/format.h>

#include <cstring>

#include "picture/write_picture.h"
#include "practice/render.h"
#include "tests/catch.h"

namespace tonemend::testing {

PracticeOptions small_picture(std::uint64_t seed) {
    PracticeOptions options;
    options.seed = seed;
    options.width = 900, options.height = 675;
    return options;
}

std::string text_of(const PixelRect& rect) {
    return fmt::format("{},{},{},{}", rect.x, rect.y, rect.width, rect.height);
}

std::string text_of(const Quad& quad) {
    std::string text;
    for (const Point& corner : quad)
        text += fmt::format("{}{},{}", text.empty() ? "" : " ", corner.x, corner.y);
    return text;
}

std::vector<std::string> compare_arguments(const PracticeScene& scene, const std::filesystem::path& picture) {
    return {"compare",    picture,
            "--original", text_of(scene.original.region),
            "--repair",   text_of(scene.repair.region),
            "--card",     "six-step-card"};
}

std::vector<std::string> with(std::vector<std::string> arguments, const std::vector<std::string>& more) {
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
}

nlohmann::json compare_json(const std::vector<std::string>& arguments, int status) {
    const CommandResult result = run_tonemend(with(arguments, {"--json"}));
    INFO(result.err);
    REQUIRE(result.status == status);
    CHECK(result.err.empty());
    return nlohmann::json::parse(result.out);  // throws on anything before or behind the object
}

void write_changed(const PracticeScene& scene, const std::filesystem::path& path,
                   const std::function<void(Frame&)>& change) {
    Frame frame = render(scene);
    change(frame);
    write_picture(frame, path);
}

void fill(Frame& frame, const PixelRect& rect, std::uint16_t value) {
    REQUIRE(frame.type == SampleType::uint16);
    const std::vector<std::uint16_t> row(static_cast<std::size_t>(rect.width) * 3, value);
    for (int y = rect.y; y < rect.y + rect.height; ++y) {
        std::memcpy(
            frame.samples.data() + (static_cast<std::size_t>(y) * static_cast<std::size_t>(frame.width) +
                                    static_cast<std::size_t>(rect.x)) *
                                       6,
            row.data(), row.size() * 2);
    }
}

}  // namespace tonemend::testing
