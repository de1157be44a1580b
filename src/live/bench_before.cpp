// The job's kept readings as the picture's modes and the row of coats need them.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "live/bench.h"
#include "record/earlier_light.h"

namespace tonemend {
namespace {

bool holds_against(PictureMode mode) {
    return mode == PictureMode::wipe || mode == PictureMode::before_now;
}

}  // namespace

std::optional<std::size_t> Bench::before_coat() const {
    if (!holds_against(mode_) || coats_.empty()) return std::nullopt;
    return std::min(before_.value_or(0), coats_.size() - 1);
}

std::shared_ptr<const KeptPicture> Bench::before() const {
    const auto coat = before_coat();
    const auto picture = kept_pictures_->picture();
    return coat && picture && picture->number == coats_[*coat].number ? picture : nullptr;
}

std::string Bench::before_words() const {
    const auto coat = before_coat();
    if (!coat) return "No reading is kept in this job yet: Space keeps one, with its picture.";
    std::string which =
        fmt::format("reading {}, {}", coats_[*coat].number, short_time(coats_[*coat].taken, utc_now()));
    if (before()) return which;
    if (coats_[*coat].kept == Kept::saving) return "This reading is still being kept.";
    if (coats_[*coat].kept == Kept::failed) return "This reading could not be kept.";
    std::string trouble = kept_pictures_->trouble();
    return trouble.empty() ? fmt::format("Bringing back {}.", which) : trouble;
}

std::optional<std::size_t> Bench::newest_kept() const {
    for (std::size_t i = coats_.size(); i > 0; --i)
        if (coats_[i - 1].kept == Kept::saved) return i - 1;
    return std::nullopt;
}

std::vector<Warning> Bench::light_warnings(std::optional<std::size_t> coat) const {
    if (!coat || !state_->measured || !state_->calibration) return {};
    return warn_of_other_light(coats_[*coat].number, coats_[*coat].light,
                               light_of(*state_->measured, *state_->calibration));
}

std::vector<Warning> Bench::warnings() const {
    if (!state_->comparison) return {};
    std::vector<Warning> warnings = state_->comparison->warnings;
    const auto held_against = before_coat();
    for (Warning& warning : light_warnings(held_against ? held_against : newest_kept()))
        warnings.push_back(std::move(warning));
    return warnings;
}

void Bench::ask_for_before() {
    const auto coat = before_coat();
    if (coat && coats_[*coat].kept == Kept::saved)
        kept_pictures_->ask(store_, coats_[*coat].number, settings_.card);
}

void Bench::show_before(std::size_t coat) {
    if (coat >= coats_.size()) return;
    before_ = coat;
    page_ = Page::picture;
    if (!holds_against(mode_)) mode_ = PictureMode::before_now;
    ask_for_before();
}

void Bench::choose_before(int later) {
    if (coats_.empty()) {
        say(before_words());
        return;
    }
    const auto now = static_cast<int>(before_.value_or(0));
    show_before(static_cast<std::size_t>(std::clamp(now + later, 0, static_cast<int>(coats_.size()) - 1)));
}

}  // namespace tonemend
