// Jobs, pieces and areas: found and listed.
#include <fmt/format.h>

#include <algorithm>

#include "record/store/job_store.h"
#include "record/store/store_rows.h"
#include "record/store/store_text.h"

namespace tonemend {
namespace {

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

Area JobStore::find_area(const std::string& job, const std::string& name, const std::string& on_piece) {
    const std::lock_guard lock(mutex_);
    std::vector<Area> found;
    std::string known, pieces_found;
    const auto meant = [](const std::string& wanted, const std::string& other) {
        return wanted.empty() || folded(kept_words(wanted)) == folded(other);
    };
    for (const Piece& piece : pieces(job))
        for (Area& area : areas(piece.uid)) {
            known += fmt::format("{}{} on {}", known.empty() ? "" : ", ", quoted_name(area.name),
                                 quoted_name(piece.name));
            if (!meant(name, area.name) || !meant(on_piece, piece.name)) continue;
            pieces_found += (pieces_found.empty() ? "" : ", ") + quoted_name(piece.name);
            found.push_back(std::move(area));
        }
    if (found.size() > 1 && !name.empty())
        throw InputError(fmt::format("several pieces have an area {}: {}; say which with --piece",
                                     quoted_name(name), pieces_found));
    if (!found.empty())
        return *std::max_element(found.begin(), found.end(),
                                 [](const Area& one, const Area& other) { return one.uid < other.uid; });
    if (known.empty()) throw InputError("the job has no area yet; add one: tonemend job add-area JOB NAME");
    throw InputError(fmt::format("the job has no area {}{}; there are: {}", quoted_name(name),
                                 on_piece.empty() ? "" : " on a piece " + quoted_name(on_piece), known));
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
