#include "cli/gloss_summary.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "record/number_text.h"

namespace tonemend {
namespace {

std::string region_line(const char* role, const GlossSplit& split, double shimmer_de2000) {
    std::vector<std::string> pictures;
    for (const double gloss : split.by_picture) pictures.push_back(fmt::format("{:.1f}", 100 * gloss));
    return fmt::format(
        "  {:<9} gloss {:.1f} {} % of white (in the pictures {})   shimmer {:.1f} {} % (ΔE2000 "
        "{:.1f})\n",
        role, 100 * split.gloss, interval_text(196 * split.gloss_u), fmt::join(pictures, ", "),
        100 * split.shimmer, interval_text(100 * split.shimmer_u95), shimmer_de2000);
}

}  // namespace

std::string summarise_gloss(const std::vector<LampPosition>& positions, const GlossResult& result,
                            Swatches swatches) {
    const LampPosition& first = positions.front();
    std::string text = summarise(*first.frame, first.calibration, result.without_gloss, swatches);
    const Difference& alone = result.with_gloss.difference;
    text += fmt::format(
        "\n  read without what the finish mirrors, from {} pictures; the first alone reads ΔE2000 {:.1f} "
        "{}\n",
        positions.size(), alone.de2000, interval_text(alone.de2000_u95));
    text += region_line("original", result.original, result.original_shimmer_de2000);
    text += region_line("repair", result.repair, result.repair_shimmer_de2000);
    text += fmt::format("  sheen: {}\n  figure: {}\n", say_sheen(result.sheen), say_figure(result.figure));
    return text;
}

// Common practice of copy stands, no source; the law of reflection and polarisation by a dichroic sheet are
// in any textbook of optics.
std::string advise_on_lamps() {
    return R"(
                        [camera]  o  lens, polariser turned ACROSS the lamps'
                            |     |
      lamp, sheet           |     |           lamp, sheet
          \                 |     |                /
            \  45°          |     |         45°  /
              \             |     |            /
                \           |     |          /
   ==================== original | repair ====================   all flat, card beside

  A shiny finish mirrors a lamp at the angle at which its light comes in. A lamp at 45° is mirrored to the
  other side at 45°, past a camera that looks straight down. Lower lamps graze and show every brush mark; lamps
  beside the camera are mirrored straight into it.

  1. One lamp at 45°, or two alike from both sides. Nothing bright behind the camera; dark clothes.
  2. Still a veil? Move the lamp a quarter round the work and take a second picture: 'tonemend gloss' takes off
     what moved with it.
  3. Or cross polarisers: a sheet before every lamp, all turned one way, and one on the lens, turned until the
     mirror image is darkest. What the finish mirrors keeps its polarisation and is stopped; the wood's own
     light loses it and passes. Leave everything so for card, original and repair.

  Polarising film takes away three quarters of the light or more: expose that much longer, on a stand. Film
  close to a hot bulb melts, fades and can burn: use cool lamps, keep the distance that the film's maker
  states, and never cover a lamp's vents. Film is seldom quite neutral: take the card's picture through it too.
  Crossed polarisers take off the sheen that a customer sees: compare sheen without them.
)";
}

}  // namespace tonemend
