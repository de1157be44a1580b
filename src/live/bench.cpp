#include "live/bench.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "calibrate/card/card.h"
#include "live/display_profile.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

constexpr std::chrono::seconds notice_lasts{9};

// A file or folder by its whole path, so that it is found from anywhere at the next start; else as it is.
std::string lasting(const std::string& text) {
    std::error_code failure;
    return std::filesystem::exists(text, failure) ? std::filesystem::absolute(text).string() : text;
}

// As the settings keep it: empty for what the desktop says.
std::string chosen_display(const std::string& option) {
    if (option == "desktop") return "";
    (void)read_display_profile(option);
    return std::filesystem::absolute(option).string();
}

// The measuring thread reads it; that it is not there is said before there is a window.
void require_there(const std::string& picture) {
    std::error_code error;
    if (std::filesystem::is_regular_file(picture, error)) return;
    throw InputError(
        fmt::format("--flat {}: no such picture; give the file that shows the grey sheet or the card",
                    one_line(picture, 400)));
}

}  // namespace

Bench::Bench(const BenchOptions& options, std::function<void()> wake)
    : wake_(std::move(wake)), settings_path_(settings_path()) {
    LoadedSettings loaded = load_settings(settings_path_);
    settings_ = loaded.settings;
    if (!options.card.empty()) settings_.card = lasting(options.card);
    if (!options.store.empty())
        settings_.store = options.store.find("://") == std::string::npos
                              ? std::filesystem::absolute(options.store).string()
                              : options.store;
    if (!options.store.empty()) settings_.area.clear();
    if (!options.job.empty()) choose_job(options.job);
    if (options.tolerance > 0) settings_.tolerance = options.tolerance;
    if (!options.display.empty()) settings_.display = chosen_display(options.display);
    flat_ = options.flat;
    for (const std::string& picture : flat_) require_there(picture);
    try {
        (void)read_card(locate_card(settings_.card));
    } catch (const InputError& error) {
        if (!options.card.empty()) throw;
        settings_.card = Settings{}.card;
        loaded.notice = fmt::format("{}. The {} serves for now.", error.what(), settings_.card);
    }
    const bool asked = !options.calibration.empty();
    try {
        take_calibration(asked ? lasting(options.calibration) : settings_.calibration);
    } catch (const InputError& error) {
        if (asked) throw;
        settings_.calibration.clear();
        loaded.notice = fmt::format("{}. The card in the picture serves alone for now.", error.what());
    }
    if (options.colourants) settings_.colourants = *options.colourants;
    try {
        const std::string& light = options.light.empty() ? settings_.light : options.light;
        state_light(light == "none" ? "" : light);
    } catch (const InputError& error) {
        if (!options.light.empty()) throw;
        settings_.light.clear();
        loaded.notice = fmt::format("{}. The lamp's kind is not stated for now.", error.what());
    }
    if (const std::string trouble = go_on_with_drying(); !trouble.empty()) loaded.notice = trouble;
    editor_.restore(settings_.regions);
    if (settings_.picture_width > 0 && settings_.picture_height > 0)
        editor_.set_picture(settings_.picture_width, settings_.picture_height);
    state_ = std::make_shared<BenchState>();
    writer_ = std::make_unique<SettingsWriter>(settings_path_);
    keeper_ = std::make_unique<ReadingKeeper>(wake_);
    kept_pictures_ = std::make_unique<KeptPictureLoader>(wake_);
    feed_ = std::make_unique<Feed>([this] {
        if (measure_) measure_->wake();
        wake_();
    });
    measure_ = std::make_unique<MeasureLoop>([this] { return feed_->latest(); }, wake_);
    ask();
    try {
        feed_->open(options.source.empty() ? settings_.source : lasting(options.source));
    } catch (const InputError& error) {
        if (!options.source.empty()) {
            end_threads();
            throw;
        }
        // It may be plugged in again by the next start: the settings keep it.
        loaded.notice = error.what();
        feed_->open("");
    }
    if (!options.source.empty() || settings_.source.empty()) remember_source();
    follow_source();
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

void Bench::save() {
    settings_.regions = editor_.regions();
    if (newest_.frame) {
        settings_.picture_width = newest_.frame->width;
        settings_.picture_height = newest_.frame->height;
    }
    writer_->write(settings_);
}

void Bench::ask() {
    inputs_.colourants = settings_.colourants;
    measure_->ask({editor_.regions(), settings_.card, settings_.tolerance, settings_.average, flat_, inputs_,
                   held_, lamp_, drying_});
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
        const BenchRegions before = editor_.regions();
        editor_.set_picture(newest_.frame->width, newest_.frame->height);
        const BenchRegions& now = editor_.regions();
        if ((before.original && !now.original) || (before.repair && !now.repair) ||
            (before.card && !now.card)) {
            say("What was marked outside this size of picture is gone: mark it again with O, R or M.");
            changed_ = true;
        }
        count_changes();
    }
    if (std::exchange(changed_, false)) ask();
    report_lock();
    announce_settled();
    if (const std::string trouble = writer_->take_trouble(); !trouble.empty()) say(trouble);
    for (const KeepingOutcome& outcome : keeper_->finished()) note_kept(outcome);
}

// The job may have been left meanwhile: what became of the reading is said all the same.
void Bench::note_kept(const KeepingOutcome& outcome) {
    const auto coat = std::find_if(coats_.begin(), coats_.end(),
                                   [&](const Coat& each) { return each.ticket == outcome.ticket; });
    if (coat != coats_.end()) {
        coat->kept = Kept::failed;
        if (outcome.reading) *coat = to_coat(*outcome.reading);
    } else if (outcome.reading && outcome.area == store_->area()) {
        coats_ = list_coats(*store_);
    }
    if (outcome.reading && place_.job.empty()) name_place();
    const bool sound = outcome.reading && !outcome.reading->unfit;
    if (settings_.tick) ticker_.tick(sound ? Tick::kept : Tick::doubtful);
    say(!outcome.reading ? fmt::format("The reading is not kept yet, and tried again: {}", outcome.trouble)
        : sound          ? fmt::format("Kept in {}", outcome.reading->place)
                : fmt::format("Kept in {}, though a warning speaks against it", outcome.reading->place));
    if (settings_.tick && !ticker_.trouble().empty()) say(ticker_.trouble());
    ask_for_before();
}

Bench::Guidance Bench::guidance() const {
    if (state_->comparison) return {};
    const bool first_walk = !settings_.walked;
    const int steps = first_walk ? 4 : 3, after_lamp = first_walk ? 3 : 2;
    if (!state_->frame)
        return {1, steps, "card", fmt::format("Waiting for a picture from the {}.", feed_->name())};
    const BenchRegions& regions = editor_.regions();
    if (!state_->calibration)
        return {
            1, steps, "card",
            regions.card && !state_->obstacle.empty()
                ? state_->obstacle
                : "Lay the card frame beside the work, flat and whole in the picture. A bare card: press M."};
    if (first_walk && !lamp_seen_ && !regions.original && !regions.repair)
        return {
            2, steps, "lamp",
            "One lamp, from the side, none of it shining in the finish. L holds the camera still, Enter goes "
            "on."};
    if (!regions.original)
        return {after_lamp, steps, "original", "Press O and drag over the original finish."};
    if (!regions.repair) return {after_lamp + 1, steps, "repair", "Press R and drag over the repair."};
    return {after_lamp + 1, steps, "repair", state_->obstacle.empty() ? "Measuring." : state_->obstacle};
}

void Bench::take_reading(std::optional<ReadingRole> role) {
    if (!state_->comparison) {
        say(fmt::format("No reading to keep yet. {}", guidance().words));
        return;
    }
    const CapturedFrame newest = feed_->latest();
    if (state_->stale || newest.stale || state_->source != newest.source) {
        say(fmt::format("The picture is stale; nothing is kept. {}", newest.trouble));
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
    coat.unfit = comparison.unfit();
    coat.light = light_of(*state_->measured, *state_->calibration);
    auto kept = std::make_shared<BenchState>(*state_);
    for (Warning& warning : light_warnings(newest_kept()))
        kept->comparison->warnings.push_back(std::move(warning));
    coat.ticket = keeper_->keep(store_, std::move(kept), state_->card_name, coat.taken, role);
    coats_.push_back(coat);
    done_.push_back(Done::reading);
    settings_.walked = true;
}

void Bench::undo() {
    if (done_.empty() && !coats_.empty()) done_.push_back(Done::reading);  // of an earlier day
    if (done_.empty()) {
        say("Nothing to undo.");
        return;
    }
    if (done_.back() == Done::piece) {
        done_.pop_back();
        leave_piece();
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
    if (coats_.empty()) {
        done_.pop_back();
        say("Nothing to undo.");
        return;
    }
    const Coat coat = coats_.back();
    try {
        if (coat.kept == Kept::saved) store_->undo(coat.number);
        if (coat.kept == Kept::failed) keeper_->drop(coat.ticket);
    } catch (const InputError& error) {
        say(error.what());
        return;
    }
    done_.pop_back();
    coats_.pop_back();
    say(coat.kept == Kept::saved
            ? fmt::format("Reading {} is undone; the store keeps it, off the list.", coat.number)
            : "The reading that could not be kept is off the row.");
    ask_for_before();
}

void Bench::set_window_size(int width, int height) {
    settings_.width = width;
    settings_.height = height;
}

}  // namespace tonemend
