// The pages of jobs and of a coat: what keys and clicks there do to the bench.
#include <fmt/format.h>

#include "live/bench.h"
#include "picture/input_error.h"

namespace tonemend {

bool Bench::typing() const {
    return page_ == Page::jobs || page_ == Page::coat;
}

void Bench::open_jobs() {
    if (page_ == Page::jobs) {
        page_ = Page::picture;
        return;
    }
    try {
        desk_.open(area_choice().store, store_->area());
        page_ = Page::jobs;
    } catch (const InputError& error) {
        say(error.what());
    }
}

void Bench::open_coat() {
    if (page_ == Page::coat) {
        page_ = Page::picture;
        return;
    }
    try {
        const auto store = store_->store();
        coat_form_.open(store ? store->steps(store_->area()) : std::vector<FinishingStep>{});
        page_ = Page::coat;
    } catch (const InputError& error) {
        say(error.what());
    }
}

void Bench::type(char32_t point) {
    try {
        if (page_ == Page::jobs) desk_.type(point);
        if (page_ == Page::coat) coat_form_.type(point);
    } catch (const InputError& error) {
        say(error.what());
    }
}

void Bench::select_on_desk(std::size_t line) {
    if (page_ == Page::jobs) desk_.select(line);
    if (page_ == Page::coat) coat_form_.select(line);
}

void Bench::press_desk(DeskKey key) {
    try {
        if (page_ == Page::coat) return press_coat(key);
        const JobDesk::Outcome outcome = desk_.press(key);
        if (!outcome.area.empty()) go_to_area(outcome.area);
        if (!outcome.words.empty()) say(outcome.words);
        if (outcome.area.empty() && !outcome.words.empty())
            coats_ = list_coats(*store_);  // something was taken back
        if (outcome.leave) page_ = Page::picture;
    } catch (const InputError& error) {
        say(error.what());
    }
}

void Bench::press_coat(DeskKey key) {
    if (key == DeskKey::leave) {
        page_ = Page::picture;
        return;
    }
    if (key != DeskKey::enter) return coat_form_.press(key);
    const FinishingStep step = store_->add_step(coat_form_.step("", utc_now()));
    name_place();
    page_ = Page::picture;
    say(fmt::format("Step {} is recorded: {}{}.", step.place, name(step.kind),
                    step.colourant.empty() ? "" : " '" + step.colourant + "'"));
}

void Bench::go_to_area(const std::string& area) {
    if (store_->area() == area) return;
    if (drying_) end_drying();
    chosen_area() = area;
    std::erase(done_, Done::reading);
    std::erase(done_, Done::piece);
    pieces_.clear();
    open_area();
}

}  // namespace tonemend
