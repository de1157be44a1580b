#pragma once

#include <array>
#include <string>

#include "live/desk/desk_key.h"
#include "live/desk/text_field.h"
#include "record/store/job_types.h"

namespace tonemend {

/// The page on which a coat is recorded: fields from top to bottom, one of them typed into. Knows nothing of
/// drawing or stores.
class CoatForm {
  public:
    static constexpr std::size_t fields = 8;  ///< kind, colourant, carrier, thinned, coats, grit, wait, note

    /// Begins with what the last step of the area was, as the next is often like it.
    void open(const std::vector<FinishingStep>& steps);
    void type(char32_t point);
    /// ↑ ↓ go from field to field, ← → change the kind.
    void press(DeskKey key);
    void select(std::size_t field);
    /// What is filled in, for `area`, done at `when`. Throws InputError for a number that is none.
    FinishingStep step(const std::string& area, const std::string& when) const;

    struct Line {
        std::string_view label;
        std::string text;
        std::string_view help;
    };
    std::array<Line, fields> lines() const;
    std::size_t selected() const { return selected_; }

  private:
    std::size_t selected_ = 0;
    StepKind kind_ = StepKind::dye;
    std::array<TextField, fields> texts_;
};

}  // namespace tonemend
