#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace tonemend {

/// What a report wants of a kept reading's text beyond its record. What the text does not hold, or holds
/// damaged, is absent or empty; nothing throws.
struct ReadingFacts {
    bool whole = false;                                             ///< the text could be read
    std::optional<std::array<double, 3>> original_u95, repair_u95;  ///< half widths of L*, a*, b*
    struct Said {
        std::string text;
        bool unfit = false;
    };
    std::vector<Said> warnings;
    std::string card, tone_curve, characterisation, flat_field, stated_light, colourants, picture_encoding;
    std::vector<std::string> further_lights;  ///< pictures' names
};
ReadingFacts reading_facts(const std::string& text);

/// One light of a pair under several.
struct LightFacts {
    std::string name;  ///< with what was stated of it: "old bulb (CIE-A)"
    std::optional<double> de2000, de2000_u95;
    std::string verdict;  ///< of the reading in this light; "unfit" where a warning says so
    // From light one to this one; absent for light one.
    std::optional<double> index, index_u95, parting, parting_u95;
    std::string change_verdict, words;
};

/// A pair under two lights or more, from its "tonemend.second-light/1". Empty when the text is none.
struct PairFacts {
    std::string verdict;
    std::vector<LightFacts> lights;
};
PairFacts pair_facts(const std::string& text);

/// Readings before and after, from "tonemend.before-after/1". All 0 when the text is none.
struct PairChange {
    int before = 0, after = 0;  ///< their numbers
    double gain = 0;            ///< ΔE2000 before minus after
};
PairChange pair_change(const std::string& text);

}  // namespace tonemend
