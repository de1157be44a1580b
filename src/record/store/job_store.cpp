// Jobs, pieces and areas: made, closed, taken back.
#include "record/store/job_store.h"

#include <fmt/format.h>

#include <algorithm>

#include "picture/text_line.h"
#include "record/store/store_action.h"
#include "record/store/store_rows.h"
#include "record/store/store_text.h"
#include "record/store/uid.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

void require_name(const std::string& name, const char* what) {
    if (name.empty()) throw InputError(fmt::format("{} needs a name", what));
}

void refuse_same_name(const std::string& wanted, const std::string& other, const char* what) {
    if (folded(kept_words(wanted)) == folded(other))
        throw InputError(fmt::format("{} {} already; give another name", what, quoted_name(other)));
}

}  // namespace

JobStore::JobStore(const StoreLocation& location, StoreUse use) : store_(open_store(location, use)) {}

std::string JobStore::place() const {
    return store_.database->place();
}

namespace {

Job put_job(StoreAction& action, const std::string& uid, const Job& wanted) {
    Job job{uid,       0, kept_words(wanted.name), kept_words(wanted.client), kept_note(wanted.note),
            utc_now(), ""};
    require_name(job.name, "a job");
    if (job.name.find_first_not_of("0123456789") == std::string::npos)
        throw InputError(fmt::format("{} alone would be taken for a job's number; give the job a name",
                                     quoted_name(job.name)));
    job.number = static_cast<int>(
        whole_in(action.database().row("SELECT coalesce(max(number), 0) + 1 FROM jobs")->at(0)));
    action.add("jobs", {{"uid", job.uid},
                        {"number", static_cast<std::int64_t>(job.number)},
                        {"name", job.name},
                        {"client", job.client},
                        {"note", job.note},
                        {"started", job.started},
                        {"folded", folded(job.name + "\n" + job.client + "\n" + job.note)}});
    return job;
}

Piece put_piece(StoreAction& action, const Piece& wanted) {
    Piece piece{new_uid(), wanted.job, kept_words(wanted.name), kept_words(wanted.wood),
                kept_note(wanted.note)};
    require_name(piece.name, "a piece");
    action.add("pieces", {{"uid", piece.uid},
                          {"job", piece.job},
                          {"name", piece.name},
                          {"wood", piece.wood},
                          {"note", piece.note},
                          {"folded", folded(piece.name + "\n" + piece.note)},
                          {"folded_wood", folded(piece.wood)}});
    return piece;
}

Area put_area(StoreAction& action, const Area& wanted) {
    Area area{new_uid(), wanted.piece, kept_words(wanted.name), kept_note(wanted.note)};
    require_name(area.name, "an area");
    action.add("areas", {{"uid", area.uid}, {"piece", area.piece}, {"name", area.name}, {"note", area.note}});
    return area;
}

// The three that every job begins with.
StartedJob put_whole_job(StoreAction& action, const std::string& uid, const Job& job, Piece piece,
                         Area area) {
    StartedJob started;
    started.job = put_job(action, uid, job);
    piece.job = uid;
    if (piece.name.empty()) piece.name = "Piece 1";
    started.piece = put_piece(action, piece);
    area.piece = started.piece.uid;
    if (area.name.empty()) area.name = "Repair";
    started.area = put_area(action, area);
    return started;
}

}  // namespace

Job JobStore::start_job(const Job& wanted) {
    const std::lock_guard lock(mutex_);
    const std::string uid = new_uid();
    StoreAction action(*store_.database, uid);
    Job job = put_job(action, uid, wanted);
    action.commit(fmt::format("job {}", job.number));
    return job;
}

StartedJob JobStore::start_job(const Job& wanted, const Piece& piece, const Area& area) {
    const std::lock_guard lock(mutex_);
    const std::string uid = new_uid();
    StoreAction action(*store_.database, uid);
    StartedJob started = put_whole_job(action, uid, wanted, piece, area);
    action.commit(fmt::format("job {}", started.job.number));
    return started;
}

Piece JobStore::add_piece(const Piece& wanted) {
    const std::lock_guard lock(mutex_);
    StoreAction action(*store_.database, wanted.job);
    for (const Piece& other : pieces(wanted.job))
        refuse_same_name(wanted.name, other.name, "the job has a piece");
    Piece piece = put_piece(action, wanted);
    action.commit("piece " + quoted_name(piece.name));
    return piece;
}

Area JobStore::add_area(const Area& wanted) {
    const std::lock_guard lock(mutex_);
    const auto piece = store_.database->row("SELECT job FROM pieces WHERE uid = ?", {wanted.piece});
    if (!piece) throw InputError("the area's piece is not in the store");
    StoreAction action(*store_.database, text_in(piece->at(0)));
    for (const Area& other : areas(wanted.piece))
        refuse_same_name(wanted.name, other.name, "the piece has an area");
    Area area = put_area(action, wanted);
    action.commit("area " + quoted_name(area.name));
    return area;
}

void JobStore::close_job(const std::string& job, const std::string& when) {
    const std::lock_guard lock(mutex_);
    StoreAction action(*store_.database, job);
    action.set("jobs", job, "closed", when);
    action.commit("closing the job");
}

void JobStore::reopen_job(const std::string& job) {
    const std::lock_guard lock(mutex_);
    StoreAction action(*store_.database, job);
    action.set("jobs", job, "closed", "");
    action.commit("opening the job again");
}

std::string JobStore::undo(const std::string& job) {
    const std::lock_guard lock(mutex_);
    // A job that was begun by a slip goes; one in which there was something stays.
    const auto newest = store_.database->row(
        "SELECT record FROM changes WHERE job = ? AND undone = '' ORDER BY uid LIMIT 1", {job});
    const auto left = store_.database->row(
        "SELECT count(DISTINCT action) FROM changes WHERE job = ? AND undone = ''", {job});
    const auto ever = store_.database->row(
        "SELECT count(*) FROM changes WHERE job = ? AND changed_table IN ('readings', 'steps', "
        "'comparisons')",
        {job});
    if (newest && text_in(newest->at(0)) == job && whole_in(left->at(0)) == 1 && whole_in(ever->at(0)) > 0)
        throw InputError(
            "nothing is left to take back but the job itself, and that held readings or steps; close it "
            "instead");
    std::string words = take_back(*store_.database, job);
    if (words.empty()) throw InputError("nothing is left to take back in this job");
    return words;
}

void JobStore::undo_reading(const std::string& job, int number) {
    const std::lock_guard lock(mutex_);
    const auto reading =
        store_.database->row("SELECT uid FROM readings WHERE job = ? AND number = ? AND undone = ''",
                             {job, static_cast<std::int64_t>(number)});
    if (!reading) throw InputError(fmt::format("the job holds no reading {}; is it undone already?", number));
    const std::string& uid = text_in(reading->at(0));
    // One that came from elsewhere has no action to take back.
    if (!take_back(*store_.database, job, uid).empty()) return;
    StoreAction action(*store_.database, job);
    action.set("readings", uid, "undone", utc_now());
    action.commit(fmt::format("undoing reading {}", number));
}

std::string JobStore::standing_area(const std::string& job_name, bool make, const std::string& area_name) {
    const std::lock_guard lock(mutex_);
    if (std::string area = newest_area_of(job_name); !area.empty() || !make) return area;
    const std::string uid = new_uid();
    // From here on nobody else writes: whoever was quicker is seen.
    StoreAction action(*store_.database, uid);
    if (std::string area = newest_area_of(job_name); !area.empty()) return area;
    const StartedJob started = put_whole_job(action, uid, {.name = job_name}, {}, {.name = area_name});
    action.commit(fmt::format("job {}", started.job.number));
    return started.area.uid;
}

void JobStore::drop_empty_area(const std::string& uid) {
    const std::lock_guard lock(mutex_);
    const auto place = area(uid);
    if (!place || !readings(uid).empty() || !steps(uid).empty() || !comparisons(uid).empty()) return;
    const bool alone = areas(place->piece).size() == 1;
    StoreAction action(*store_.database, job_of_area(uid).uid);
    action.set("areas", uid, "undone", utc_now());
    if (alone) action.set("pieces", place->piece, "undone", utc_now());
    action.commit("dropping area " + quoted_name(place->name));
}

}  // namespace tonemend
