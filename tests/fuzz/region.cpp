// The text of regions and of a card's corners, as typed on a command line.
#include "picture/region.h"

#include "picture/input_error.h"
#include "picture/polygon.h"
#include "target.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

void check_message(const InputError& error, const char* role) {
    const std::string text = error.what();
    require_promise(text.starts_with(role), "a refusal names its option");
    require_promise(text.find('\n') == text.npos, "a refusal is one line");
}

void try_region(const std::string& text) {
    try {
        const Region region = parse_region(text, "--original");
        require_promise(region.corners.size() >= 3, "a region has three corners or more");
        require_promise(area(region) > 0, "a region has an area");
        const int width = 640, height = 480;
        if (!lies_inside(region, width, height)) return;
        for (const Span& span : spans(region))
            require_promise(span.row >= 0 && span.row < height && span.first >= 0 && span.first < span.last &&
                                span.last <= width,
                            "the spans of a region inside the picture lie inside it");
    } catch (const InputError& error) {
        check_message(error, "--original");
    }
}

void try_quad(const std::string& text) {
    try {
        require_promise(is_convex(parse_quad(text, "--card-at")), "a quadrilateral is convex");
    } catch (const InputError& error) {
        check_message(error, "--card-at");
    }
}

}  // namespace

std::vector<std::string> tonemend::testing::fuzz_seeds() {
    return {"10,20,300,200",
            "10,10 200,10 200,150 10,150",
            "10.5,10 200,10.25 100,1e2",
            "0,0 639,0 639,479 320,200 0,479",
            "5,5 60,20 120,5 100,80 120,150 60,130 5,150 20,80",
            "-5,0,nan,inf",
            "1e300,0 0,-1e300 1e-300,5"};
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(reinterpret_cast<const char*>(data), size);
    try_region(text);
    try_quad(text);
    return 0;
}
