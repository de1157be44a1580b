// Where readings go: store, job, piece and area.
#include <fmt/format.h>

#include "live/bench.h"
#include "picture/input_error.h"

namespace tonemend {

AreaChoice Bench::area_choice() const {
    if (feed_ && feed_->practice()) return {practice_store(), settings_.practice_area, "Practice"};
    return {parse_store_location(settings_.store), settings_.area, "Bench"};
}

std::string& Bench::chosen_area() {
    return feed_ && feed_->practice() ? settings_.practice_area : settings_.area;
}

// As --job names it; a name that is not there becomes a job.
void Bench::choose_job(const std::string& name) {
    JobStore store(parse_store_location(settings_.store), StoreUse::keeping);
    const auto found = store.look_up_job(name);
    settings_.area = found ? store.find_area(found->uid, "").uid : store.standing_area(name, true);
}

void Bench::open_area() {
    opened_ = area_choice();
    store_ = std::make_shared<AreaReadings>(opened_);
    coats_.clear();
    try {
        coats_ = list_coats(*store_);
    } catch (const InputError& error) {
        say(error.what());
    }
    name_place();
    before_.reset();
    kept_pictures_->forget();
    ask_for_before();
    save();
}

void Bench::name_place() {
    place_ = {};
    try {
        const auto store = store_->store();
        const auto area = store ? store->area(store_->area()) : std::nullopt;
        if (!area) return;
        const Job job = store->job_of_area(area->uid);
        place_ = {job.name, "", area->name};
        for (const Piece& piece : store->pieces(job.uid))
            if (piece.uid == area->piece) place_.piece = piece.name;
    } catch (const InputError& error) {
        say(error.what());
    }
}

std::string Bench::place_words() const {
    if (place_.job.empty()) return opened_.standing_job;
    return fmt::format("{}: {}, {}", place_.job, place_.piece, place_.area);
}

// Practice readings stay apart from those of the shop.
void Bench::follow_source() {
    if (store_ && opened_ == area_choice()) return;
    std::erase(done_, Done::reading);  // of the job that is left
    std::erase(done_, Done::piece);
    pieces_.clear();
    open_area();
}

void Bench::start_piece() {
    if (drying_) end_drying();
    try {
        const std::string left = chosen_area();
        chosen_area() = store_->begin_piece();
        pieces_.push_back(left);
        done_.push_back(Done::piece);
        open_area();
        say(fmt::format("Readings go to {}. Z goes back.", place_words()));
    } catch (const InputError& error) {
        say(error.what());
    }
}

// Back to the piece before; the new one goes again, unless something was kept in it.
void Bench::leave_piece() {
    try {
        const auto store = store_->store();
        if (store && coats_.empty()) store->drop_empty_area(store_->area());
    } catch (const InputError& error) {
        say(error.what());
    }
    chosen_area() = pieces_.back();
    pieces_.pop_back();
    open_area();
    say(fmt::format("Readings go to {} again.", place_words()));
}

}  // namespace tonemend
