// Jobs, pieces and areas: made, found, closed, taken back.
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

std::string quoted_name(const std::string& name) {
    return fmt::format("'{}'", one_line(name, 60));
}

// In the order in which they were started.
std::vector<Job> jobs_called(Database& database, const std::string& name) {
    const std::string wanted = kept_words(name);
    std::vector<Job> found =
        read_all(database, "jobs", "folded LIKE ? ESCAPE '\\' AND undone = '' ORDER BY number",
                 {pattern_for(wanted)}, to_job);
    std::erase_if(found, [&](const Job& job) { return folded(job.name) != folded(wanted); });
    return found;
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
    Piece piece = put_piece(action, wanted);
    action.commit("piece " + quoted_name(piece.name));
    return piece;
}

Area JobStore::add_area(const Area& wanted) {
    const std::lock_guard lock(mutex_);
    const auto piece = store_.database->row("SELECT job FROM pieces WHERE uid = ?", {wanted.piece});
    if (!piece) throw InputError("the area's piece is not in the store");
    StoreAction action(*store_.database, text_in(piece->at(0)));
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
    std::string words = take_back(*store_.database, job);
    // It was kept with the reading after, unasked.
    if (words == comparison_words) words = take_back(*store_.database, job) + " with its comparison";
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

Job JobStore::find_job(const std::string& number_or_name) {
    if (auto job = look_up_job(number_or_name)) return *job;
    throw InputError(fmt::format("{}: holds no job {}; 'tonemend job list' shows them", place(),
                                 quoted_name(number_or_name)));
}

std::optional<Job> JobStore::look_up_job(const std::string& number_or_name) {
    const std::lock_guard lock(mutex_);
    const std::string wanted = kept_words(number_or_name);
    const bool number =
        !wanted.empty() && wanted.size() < 10 && wanted.find_first_not_of("0123456789") == std::string::npos;
    if (number) {
        const auto row = store_.database->row(select_from("jobs", "number = ? AND undone = ''"),
                                              {static_cast<std::int64_t>(std::stoll(wanted))});
        if (row) return to_job(*row);
    }
    const std::vector<Job> found = jobs_called(*store_.database, wanted);
    if (found.size() > 1)
        throw InputError(fmt::format("{} jobs are called {}, the newest is number {}; give the number",
                                     found.size(), quoted_name(wanted), found.back().number));
    if (found.empty()) return std::nullopt;
    return found.front();
}

Area JobStore::find_area(const std::string& job, const std::string& name) {
    const std::lock_guard lock(mutex_);
    std::optional<Area> newest;
    std::string known;
    for (const Piece& piece : pieces(job))
        for (Area& area : areas(piece.uid)) {
            known += (known.empty() ? "" : ", ") + quoted_name(area.name);
            if (!name.empty() && folded(kept_words(name)) != folded(area.name)) continue;
            if (!newest || newest->uid < area.uid) newest = std::move(area);
        }
    if (newest) return *newest;
    if (known.empty()) throw InputError("the job has no area yet; add one: tonemend job add-area JOB NAME");
    throw InputError(fmt::format("the job has no area {}; there are: {}", quoted_name(name), known));
}

std::string JobStore::newest_area_of(const std::string& job_name) {
    const std::vector<Job> found = jobs_called(*store_.database, job_name);
    if (found.empty()) return "";
    const std::vector<Piece> kept = pieces(found.front().uid);
    for (std::size_t i = kept.size(); i > 0; --i)
        if (const std::vector<Area> places = areas(kept[i - 1].uid); !places.empty())
            return places.back().uid;
    return "";
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

std::vector<Piece> JobStore::pieces(const std::string& job) {
    const std::lock_guard lock(mutex_);
    return read_all(*store_.database, "pieces", "job = ? AND undone = '' ORDER BY uid", {job}, to_piece);
}

std::vector<Area> JobStore::areas(const std::string& piece) {
    const std::lock_guard lock(mutex_);
    return read_all(*store_.database, "areas", "piece = ? AND undone = '' ORDER BY uid", {piece}, to_area);
}

std::optional<Area> JobStore::area(const std::string& uid) {
    const std::lock_guard lock(mutex_);
    const auto row = store_.database->row(select_from("areas", "uid = ? AND undone = ''"), {uid});
    if (!row) return std::nullopt;
    return to_area(*row);
}

Job JobStore::job_of_area(const std::string& area) {
    const std::lock_guard lock(mutex_);
    const auto row = store_.database->row(
        select_from("jobs",
                    "uid = (SELECT job FROM pieces WHERE uid = (SELECT piece FROM areas WHERE uid = ?))"),
        {area});
    if (!row) throw InputError("the area is not in the store any more");
    return to_job(*row);
}

JobDossier JobStore::dossier(const std::string& job) {
    const std::lock_guard lock(mutex_);
    JobDossier dossier;
    const auto row = store_.database->row(select_from("jobs", "uid = ?"), {job});
    if (!row) throw InputError("the job is not in the store any more");
    dossier.job = to_job(*row);
    for (Piece& piece : pieces(job)) {
        JobDossier::PieceDossier& kept = dossier.pieces.emplace_back();
        for (Area& area : areas(piece.uid)) {
            JobDossier::AreaDossier& place = kept.areas.emplace_back();
            place.steps = steps(area.uid);
            for (ReadingRecord& reading : readings(area.uid)) {
                std::string text = reading_text(reading.uid);
                place.readings.push_back({std::move(reading), std::move(text)});
            }
            place.comparisons = comparisons(area.uid);
            place.area = std::move(area);
        }
        kept.piece = std::move(piece);
    }
    return dossier;
}

}  // namespace tonemend
