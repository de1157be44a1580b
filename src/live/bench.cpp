#include "live/bench.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "calibrate/card.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "record/job_folder.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

constexpr std::chrono::seconds notice_lasts{9};
constexpr double text_step = 1.25;

}  // namespace

Bench::Bench(const BenchOptions& options, std::function<void()> wake)
    : wake_(std::move(wake)), settings_path_(settings_path()) {
    LoadedSettings loaded = load_settings(settings_path_);
    settings_ = loaded.settings;
    if (!options.card.empty()) settings_.card = options.card;
    if (!options.job.empty()) settings_.job = std::filesystem::absolute(options.job).string();
    if (options.tolerance > 0) settings_.tolerance = options.tolerance;
    (void)read_card(locate_card(settings_.card));
    editor_.restore(settings_.regions);
    if (settings_.picture_width > 0) editor_.set_picture(settings_.picture_width, settings_.picture_height);
    editor_.restore(settings_.regions);
    store_ = std::make_shared<JobFolder>(job());
    coats_ = list_coats(*store_);
    state_ = std::make_shared<BenchState>();
    keeper_ = std::make_unique<ReadingKeeper>(store_, wake_);
    feed_ = std::make_unique<Feed>([this] {
        if (measure_) measure_->wake();
        wake_();
    });
    measure_ = std::make_unique<MeasureLoop>([this] { return feed_->latest(); }, wake_);
    ask();
    try {
        feed_->open(options.source.empty() ? settings_.source : options.source);
    } catch (const InputError& error) {
        if (!options.source.empty()) {
            end_threads();
            throw;
        }
        loaded.notice = error.what();
        feed_->open("practice");
    }
    remember_source();
    if (!loaded.notice.empty()) say(loaded.notice);
}

Bench::~Bench() {
    save();
    end_threads();
}

void Bench::end_threads() {
    feed_->close();    // nobody wakes the measuring thread any more
    measure_.reset();  // which asks the feed until it ends
}

void Bench::say(const std::string& notice) {
    notice_ = one_line(notice, 400);
    noticed_ = std::chrono::steady_clock::now();
}

std::string Bench::notice() const {
    return std::chrono::steady_clock::now() - noticed_ < notice_lasts ? notice_ : "";
}

std::filesystem::path Bench::job() const {
    return settings_.job.empty() ? standing_job() : std::filesystem::path(settings_.job);
}

void Bench::save() {
    settings_.regions = editor_.regions();
    if (newest_.frame) {
        settings_.picture_width = newest_.frame->width;
        settings_.picture_height = newest_.frame->height;
    }
    try {
        save_settings(settings_, settings_path_);
    } catch (const std::exception& error) {
        say(error.what());
    }
}

void Bench::ask() {
    measure_->ask({editor_.regions(), settings_.card, settings_.tolerance});
}

void Bench::regions_changed() {
    changed_ = true;
    if (editor_.dragging()) return;
    count_changes();
    save();
}

void Bench::count_changes() {
    const auto known = static_cast<std::size_t>(std::count(done_.begin(), done_.end(), Done::region));
    if (editor_.changes() < known) std::erase(done_, Done::region);  // another picture: nothing to go back to
    if (editor_.changes() > known) done_.push_back(Done::region);
}

void Bench::catch_up() {
    newest_ = feed_->latest();
    state_ = measure_->state();
    if (newest_.frame) {
        const bool had = editor_.regions().original || editor_.regions().repair;
        editor_.set_picture(newest_.frame->width, newest_.frame->height);
        const bool has = editor_.regions().original || editor_.regions().repair;
        if (had && !has) {
            say("The regions belong to another size of picture: mark them again with O and R.");
            changed_ = true;
        }
        count_changes();
    }
    if (std::exchange(changed_, false)) ask();
    report_lock();
    for (const KeepingOutcome& outcome : keeper_->finished()) {
        const auto ticket = tickets_.find(outcome.ticket);
        for (Coat& coat : coats_) {
            if (ticket == tickets_.end() || coat.kept != Kept::saving || coat.taken != ticket->second)
                continue;
            coat.kept = outcome.reading ? Kept::saved : Kept::failed;
            if (outcome.reading) coat = to_coat(*outcome.reading);
            say(outcome.reading
                    ? fmt::format("Kept as {}",
                                  std::filesystem::path(outcome.reading->place).filename().string())
                    : fmt::format("The reading could not be kept: {}", outcome.trouble));
            break;
        }
        tickets_.erase(outcome.ticket);
    }
}

Bench::Guidance Bench::guidance() const {
    if (state_->comparison && !editor_.dragging()) return {};
    if (state_->comparison) return {};
    if (!state_->frame) return {1, fmt::format("Waiting for a picture from the {}.", feed_->name())};
    if (!state_->card) return {1, "Lay the card frame beside the work, flat and whole in the picture."};
    if (!editor_.regions().original) return {2, "Press O and drag over the original finish."};
    if (!editor_.regions().repair) return {3, "Press R and drag over the repair."};
    return {3, state_->obstacle.empty() ? "Measuring." : state_->obstacle};
}

void Bench::take_reading() {
    if (!state_->comparison) {
        say(fmt::format("No reading to keep yet. {}", guidance().words));
        return;
    }
    if (state_->stale) {
        say(fmt::format("The picture is stale; nothing is kept. {}", state_->trouble));
        return;
    }
    const Comparison& comparison = *state_->comparison;
    Coat coat;
    coat.taken = utc_now();
    coat.original = comparison.original.lab;
    coat.repair = comparison.repair.lab;
    coat.de2000 = comparison.difference.de2000;
    coat.u95 = comparison.difference.de2000_u95;
    coat.verdict = comparison.verdict;
    coat.kept = Kept::saving;
    coats_.push_back(coat);
    tickets_[keeper_->keep(state_, state_->frame, settings_.card, coat.taken)] = coat.taken;
    done_.push_back(Done::reading);
}

void Bench::undo() {
    if (done_.empty() && !coats_.empty()) done_.push_back(Done::reading);  // of an earlier day
    if (done_.empty()) {
        say("Nothing to undo.");
        return;
    }
    if (done_.back() == Done::region) {
        done_.pop_back();
        (void)editor_.undo();
        changed_ = true;
        save();
        say("The region is as it was before.");
        return;
    }
    if (!coats_.empty() && coats_.back().kept == Kept::saving) {
        say("The reading is still being kept; undo it in a moment.");
        return;
    }
    done_.pop_back();
    if (coats_.empty()) return;
    const Coat coat = coats_.back();
    try {
        if (coat.kept == Kept::saved) store_->undo(coat.number);
        coats_.pop_back();
        say(fmt::format("Reading {} is undone; its files stay in the job folder, marked.", coat.number));
    } catch (const InputError& error) {
        say(error.what());
    }
}

void Bench::step_back() {
    if (page_ != Page::picture) {
        page_ = Page::picture;
        return;
    }
    editor_.deselect();
    changed_ = true;
}

void Bench::next_source() {
    const std::vector<std::string> choices = feed_->choices();
    const auto now = std::find(choices.begin(), choices.end(), feed_->source());
    const std::string& next = now == choices.end() || now + 1 == choices.end() ? choices.front() : *(now + 1);
    if (next == feed_->source()) {
        say("No camera found. Plug one in (or start with --source and a folder, file or address) and press "
            "S.");
        return;
    }
    try {
        feed_->open(next);
        remember_source();
        say(fmt::format("Now looking at the {}.", feed_->name()));
    } catch (const InputError& error) {
        say(error.what());
    }
    save();
}

void Bench::turn_practice(Action action) {
    if (!feed_->practice()) {
        say("That is for the practice bench; press S for it.");
        return;
    }
    PracticeKnobs knobs = feed_->knobs();
    if (action == Action::next_lamp) knobs.lamp = (knobs.lamp + 1) % practice_lamps.size();
    if (action == Action::next_coat) knobs.coat = (knobs.coat + 1) % practice_coats.size();
    if (action == Action::next_tilt) knobs.tilt = (knobs.tilt + 1) % practice_tilts.size();
    if (action == Action::wet_or_dry) knobs.wet = !knobs.wet;
    if (action == Action::next_fault) knobs.camera = (knobs.camera + 1) % practice_cameras.size();
    feed_->turn(knobs);
}

void Bench::remember_source() {
    settings_.source =
        feed_->stands_in() ? "" : feed_->source();  // a camera plugged in later is found next time
}

void Bench::lock_camera() {
    feed_->request_lock();
    awaiting_lock_ = true;
    say("Asking the camera to hold still.");
}

void Bench::report_lock() {
    if (!awaiting_lock_) return;
    const std::vector<ControlOutcome> outcomes = feed_->control_outcomes();
    if (outcomes.empty()) return;
    awaiting_lock_ = false;
    std::string held, refused;
    for (const ControlOutcome& outcome : outcomes) {
        std::string& list = outcome.held ? held : refused;
        list += (list.empty() ? "" : ", ") + outcome.control;
    }
    say((held.empty() ? "" : "Held still: " + held + ". ") +
        (refused.empty() ? "" : "The camera refused: " + refused + "; set it on the camera itself."));
}

void Bench::scale_text(double factor) {
    settings_.text_scale = std::clamp(settings_.text_scale * factor, least_text_scale, greatest_text_scale);
    save();
}

void Bench::set_window_size(int width, int height) {
    settings_.width = width;
    settings_.height = height;
}

void Bench::accept_drop(const std::filesystem::path& path) {
    try {
        if (path.extension() == ".txt" || path.extension() == ".cgats") {
            const Card card = read_card(path);
            settings_.card = path.string();
            changed_ = true;
            say(fmt::format("The card is now {}.", card.name));
        } else {
            feed_->open(path.string());
            remember_source();
            say(fmt::format("Now looking at the {}.", feed_->name()));
        }
        save();
    } catch (const InputError& error) {
        say(error.what());
    }
}

void Bench::perform(Action action) {
    // The size of a step is a picture pixel in a hundred, so that a held key crosses the picture in seconds.
    const double step = newest_.frame ? std::max(1.0, newest_.frame->width / 200.0) : 1;
    const auto after = [this](bool done) {
        if (done) regions_changed();
    };
    const auto open_page = [this](Page page) { page_ = page_ == page ? Page::picture : page; };
    const auto mark = [&](Role role) {
        const bool there = role == Role::original ? editor_.regions().original.has_value()
                                                  : editor_.regions().repair.has_value();
        page_ = Page::picture;
        editor_.select(role);
        after(!there);
    };
    switch (action) {
        case Action::take_reading:
            return take_reading();
        case Action::undo:
            return undo();
        case Action::select_original:
            return mark(Role::original);
        case Action::select_repair:
            return mark(Role::repair);
        case Action::next_shape:
            return editor_.next_shape();
        case Action::link_regions:
            return editor_.toggle_linked();
        case Action::finish: {
            const bool drawing = !editor_.unfinished().empty();
            editor_.finish_polygon();
            return after(drawing);
        }
        case Action::step_back:
            return step_back();
        case Action::move_left:
            return after(editor_.nudge(-step, 0));
        case Action::move_right:
            return after(editor_.nudge(step, 0));
        case Action::move_up:
            return after(editor_.nudge(0, -step));
        case Action::move_down:
            return after(editor_.nudge(0, step));
        case Action::grow:
            return after(editor_.grow(1.1));
        case Action::shrink:
            return after(editor_.grow(1 / 1.1));
        case Action::lock_camera:
            return lock_camera();
        case Action::next_source:
            return next_source();
        case Action::next_lamp:
        case Action::next_coat:
        case Action::next_tilt:
        case Action::wet_or_dry:
        case Action::next_fault:
            return turn_practice(action);
        case Action::show_keys:
            return open_page(Page::keys);
        case Action::show_warnings:
            return open_page(Page::warnings);
        case Action::next_theme:
            settings_.theme = settings_.theme == ThemeName::light ? ThemeName::dark : ThemeName::light;
            return save();
        case Action::larger_text:
            return scale_text(text_step);
        case Action::smaller_text:
            return scale_text(1 / text_step);
        case Action::quit:
            quitting_ = true;
            return;
        case Action::zoom_in:
        case Action::zoom_out:
        case Action::fit_picture:
        case Action::actual_size:
            return;  // the picture's view does these
    }
}

}  // namespace tonemend
