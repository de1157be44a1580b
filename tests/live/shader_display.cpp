// The shader's display table against its double-precision twin; with tests/live/display_profiles.cpp, which
// holds the twin against Little CMS, the screen is within half a code of 255 of Little CMS.
#include <cmath>
#include <limits>

#include "live/display_profile.h"
#include "live/gl_picture.h"
#include "tests/catch.h"
#include "tests/live/display_samples.h"
#include "tests/live/shader_context.h"
#include "tests/live/shader_probe.h"
#include "tests/support/check_tight.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

double worst_of_shader(const DisplayTable& table, const char* what) {
    std::vector<Texel> colours;
    for (const XYZ& c : display_samples())
        colours.push_back({static_cast<float>(c.X), static_cast<float>(c.Y), static_cast<float>(c.Z), 0});
    // Far outside what a display shows, too: over-exposed, and light that is no light.
    for (const float x : {-2.0F, -1e-3F, 0.0F, 1e-6F, 0.5F, 1.0F, 7.0F})
        for (const float y : {-1.0F, 0.0F, 1e-5F, 0.3F, 1.0F, 30.0F})
            for (const float z : {-0.1F, 0.0F, 0.6F, 0.8249F, 5.0F}) colours.push_back({x, y, z, 0});
    GlTexture shaper, nodes;
    upload_table(shaper, table.shaper);
    nodes.upload_cube(static_cast<int>(table.side), table.nodes.data());
    const auto drawn = probe(
        {"numbers.glsl", "lab.glsl", "display_table.glsl"}, "result = vec4(encode_for_display(x.rgb), 1.0);",
        colours, {},
        [&](const GlProgram& program) {
            set_display_address(program, table);
            program.set("display_shaper", 2);
            program.set("display_nodes", 3);
            shaper.bind(2);
            nodes.bind(3);
        },
        display_definitions(table));
    double worst = 0;
    std::size_t at = 0;
    for (std::size_t i = 0; i < colours.size(); ++i) {
        const auto truth =
            table.encode({static_cast<double>(colours[i][0]), static_cast<double>(colours[i][1]),
                          static_cast<double>(colours[i][2])});
        for (std::size_t c = 0; c < 3; ++c) {
            const double error = 255 * std::abs(static_cast<double>(drawn[i][c]) - truth[c]);
            if (!(error <= worst)) worst = error, at = i;
        }
    }
    std::printf("  %s: worst at XYZ %g %g %g\n", what, static_cast<double>(colours[at][0]),
                static_cast<double>(colours[at][1]), static_cast<double>(colours[at][2]));
    return worst;
}

}  // namespace

TEST_CASE("The shader encodes for the display as the double-precision table does, whatever the display") {
    const ShaderContext context;
    check_tight("sRGB, codes of 255", worst_of_shader(make_srgb_display_table(), "sRGB"), 5e-4);
    check_tight(
        "wide gamut, codes of 255",
        worst_of_shader(make_display_table(bytes_of("/usr/share/color/icc/colord/WideGamutRGB.icc"), "wide"),
                        "wide"),
        5e-4);
    check_tight("display of tables, codes of 255",
                worst_of_shader(make_display_table(make_table_profile(), "tables"), "tables"), 5e-4);
}
