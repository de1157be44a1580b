#pragma once

#include <string>
#include <string_view>

#include "measure/gloss_split.h"

namespace tonemend {

enum class SheenVerdict { alike, repair_glossier, repair_duller, undecided };

/// Gloss of the repair against the original's, as shares of white.
struct SheenMatch {
    SheenVerdict verdict = SheenVerdict::undecided;
    double difference = 0;  ///< repair minus original
    double u95 = 0;
    double tolerance = 0;  ///< 0.004 or a quarter of the glossier one's gloss, whichever is more
};

/// alike: |difference| + u95 at or under the tolerance; repair_glossier, repair_duller: |difference| − u95 at
/// or over it; else undecided. A gloss of 0.4 % of white is about 0.5 of ΔE2000 on wood: common practice, no
/// source.
SheenMatch judge_sheen(const GlossSplit& original, const GlossSplit& repair);

/// "alike", "repair-glossier", "repair-duller", "undecided".
std::string_view name(SheenVerdict verdict);
/// One sentence with what to do.
std::string say_sheen(const SheenMatch& match);

/// Whether the repair shimmers as the original does when the lamp is moved.
enum class FigureVerdict { plain, kept, lost, gained, undecided };

/// plain: neither's shimmer reaches 1 %, with its interval. lost: the original's is 1 % or more by all its
/// interval and the repair's less than half of it by all of both intervals; gained: the other way round.
/// kept: one of them is 1 % or more and neither is less than half of the other. Else undecided.
FigureVerdict judge_figure(const GlossSplit& original, const GlossSplit& repair);

/// "plain", "kept", "lost", "gained", "undecided".
std::string_view name(FigureVerdict verdict);
std::string say_figure(FigureVerdict verdict);

}  // namespace tonemend
