// The pages of jobs and of a coat: what keys and clicks there do to the bench.
#include <fmt/format.h>

#include "advise/model/read_look.h"
#include "live/bench.h"
#include "picture/input_error.h"

namespace tonemend {

bool Bench::typing() const {
    return page_ == Page::jobs || page_ == Page::coat || page_ == Page::plan || page_ == Page::board;
}

// Its key leads to a page, and from it back to the picture.
void Bench::open_desk(Page page, const std::function<void()>& open) {
    if (page_ == page) {
        page_ = Page::picture;
        return;
    }
    try {
        open();
        page_ = page;
    } catch (const InputError& error) {
        say(error.what());
    }
}

void Bench::open_jobs() {
    open_desk(Page::jobs, [this] { desk_.open(area_choice().store, store_->area()); });
}

void Bench::open_coat() {
    open_desk(Page::coat, [this] {
        const auto store = store_->store();
        coat_form_.open(store ? store->steps(store_->area()) : std::vector<FinishingStep>{});
    });
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
    if (page_ == Page::board) board_desk_.select(line);
}

void Bench::press_desk(DeskKey key) {
    try {
        if (page_ == Page::coat) return press_coat(key);
        if (page_ == Page::plan) return press_plan(key);
        if (page_ == Page::board) return press_board(key);
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

void Bench::open_plan() {
    open_desk(Page::plan, [this] {
        const auto store = store_->store();
        if (!store)
            throw InputError(
                "No reading was kept yet: take one of the bare, dry repair beside the original.");
        plan_desk_.open(store, store_->area());
    });
}

// The first coat is on: it is recorded, and the next plan is by the next reading.
void Bench::press_plan(DeskKey key) {
    if (key == DeskKey::leave) page_ = Page::picture;
    if (key != DeskKey::enter) return plan_desk_.press(key);
    std::vector<FinishingStep> coats = plan_desk_.first_coat();
    if (coats.empty()) return;
    for (FinishingStep& step : coats) step.done = utc_now();
    store_->add_steps(std::move(coats));
    page_ = Page::picture;
    say("Recorded. Let it dry as its label says, take a reading, then F5 plans again.");
}

void Bench::open_board() {
    open_desk(Page::board, [this] { board_desk_.open(area_choice().store); });
}

void Bench::press_board(DeskKey key) {
    if (key == DeskKey::leave) page_ = Page::picture;
    if (key != DeskKey::enter) return board_desk_.press(key);
    const std::string strip = board_desk_.strip_to_read();
    if (strip.empty()) {
        const std::string words = board_desk_.write_coat();
        if (!words.empty()) say(words);
        return;
    }
    if (!state_->comparison || state_->stale)
        throw InputError("Mark the strip as the repair first: R, and drag over it.");
    for (const Warning& warning : state_->comparison->warnings)
        if (warning.unfit) throw InputError(fmt::format("Not read: {}", warning.text));
    const Reading& reading = state_->comparison->repair;
    const auto& light = state_->calibration->stated.light;
    say(board_desk_.keep_reading(strip, look_of(reading, reading.lab_u95), light ? light->text : "",
                                 utc_now()));
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
