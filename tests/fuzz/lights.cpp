// The file of kept lights: JSON.
#include "calibrate/keep/named_lights.h"

#include "calibrate/model/stated_light.h"
#include "picture/input_error.h"
#include "target.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

void check_lights(const std::vector<NamedLight>& lights) {
    for (const NamedLight& light : lights) {
        require_light_name(light.name);
        require_promise(parse_light(light.light).kelvin > 0, "a kept light has a temperature");
        require_promise(find_light(lights, light.name) == &light, "a name is one light's");
    }
    const std::string text = lights_text(lights);
    (void)parse_lights(std::as_bytes(std::span(text)), "again");  // what was read can be kept and read
}

}  // namespace

std::vector<std::string> tonemend::testing::fuzz_seeds() {
    return {lights_text({{"shop window", "daylight:6500", "", "north side", {}},
                         {"old bulb", "CIE-A", "clear glass", "", LightCheck{"2026-11-26T08:00:00Z", 2790}},
                         {"bench", "2700", "", "", {}}})};
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        check_lights(parse_lights({reinterpret_cast<const std::byte*>(data), size}, "input"));
    } catch (const InputError& error) {
        const std::string text = error.what();
        require_promise(text.starts_with("input: "), "a refusal names its file");
        require_promise(text.find('\n') == text.npos, "a refusal is one line");
    }
    return 0;
}
