#pragma once

#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "record/store/job_types.h"
#include "record/store/store_access.h"

namespace tonemend {

/// What is looked for; empty texts look for nothing. All that is given must be met; letters in either case.
struct JobQuery {
    std::string words = {};  ///< in the job's name, client or note, or in a piece's name or note
    std::string wood = {}, colourant = {}, piece = {};
    std::string anywhere = {};  ///< words, each of which is in any of these or in an area's name
    bool open_only = false;
    int most = 200;
};

/// A job as a list shows it.
struct JobSummary {
    Job job;
    std::string pieces, woods;  ///< names, with commas
    int readings = 0;
    std::string newest;  ///< when its newest reading was taken
    double de2000 = 0;   ///< of that reading
};

/// A picture for the store: a file's bytes and what it is.
struct PictureToKeep {
    std::vector<std::byte> bytes;
    std::string kind;  ///< "png", "tif"
    int width = 0, height = 0;
};

/// A reading for the store. The saved calibration and the flat field in it are kept once, whoever was read
/// with them.
struct ReadingForStore {
    ReadingRecord
        record;        ///< `uid`, `number`, `annotated`, `source` and `calibration` are the store's to fill
    std::string text;  ///< JSON; see reading_json
    std::optional<PictureToKeep> annotated, source;
    double kelvin = 0;       ///< of record.light; 0: not known
    std::string light_name;  ///< what the person calls that light; may be empty
    /// The comparisons that go with it, made when it is numbered and listed; may be empty. Reading and
    /// comparisons are one action.
    std::function<std::vector<ComparisonRecord>(const ReadingRecord&)> compare;
};

/// What a job begins with.
struct StartedJob {
    Job job;
    Piece piece;
    Area area;
};

/// Jobs, and all that belongs to them. What a function has returned is on the disk. May be used from several
/// threads at once, and several programs may hold the same store. All throw InputError: no room, no
/// permission, no such record. Names and notes are cut and cleaned as store_text.h says.
class JobStore {
  public:
    JobStore(const StoreLocation& location, StoreUse use);
    explicit JobStore(OpenStore store) : store_(std::move(store)) {}

    std::string place() const;

    /// Takes name, client and note.
    Job start_job(const Job& job);
    /// A job with its first piece and area, named "Piece 1" and "Repair" unless they have names.
    StartedJob start_job(const Job& job, const Piece& piece, const Area& area);
    /// Takes job, name, wood and note.
    Piece add_piece(const Piece& piece);
    /// Takes piece, name and note.
    Area add_area(const Area& area);
    /// Takes all but uid and place. Throws for coats, grit, dilution or wait out of range.
    FinishingStep add_step(const FinishingStep& step);
    /// Several at once, as one action: the coats of one cup.
    std::vector<FinishingStep> add_steps(std::vector<FinishingStep> steps);
    /// A planned step is done.
    void finish_step(const std::string& step, const std::string& when);
    /// The steps of one area once more as planned steps of another. Throws when there are none.
    std::vector<FinishingStep> copy_recipe(const std::string& from_area, const std::string& to_area);
    ReadingRecord add_reading(const ReadingForStore& reading);
    /// Takes all but uid.
    ComparisonRecord add_comparison(const ComparisonRecord& comparison);
    void close_job(const std::string& job, const std::string& when);
    void reopen_job(const std::string& job);
    /// Takes the newest change of the job back; nothing is deleted. Returns what it was, in words. Throws
    /// when there is nothing to take back, and for the start of a job that held readings or steps.
    std::string undo(const std::string& job);
    /// Takes one reading off the list, by its number in the job.
    void undo_reading(const std::string& job, int number);

    /// Newest first.
    std::vector<JobSummary> search(const JobQuery& query);
    /// By number or by name. Throws when there is none, or several of that name.
    Job find_job(const std::string& number_or_name);
    /// The same; nothing when there is none.
    std::optional<Job> look_up_job(const std::string& number_or_name);
    /// The area of that name in the job, on the piece of that name if one is given; with an empty name the
    /// newest. Throws when there is none, or several pieces have one of that name.
    Area find_area(const std::string& job, const std::string& name, const std::string& piece = {});
    /// The area where readings of no particular job go: the newest of the oldest job of that name. When there
    /// is none it is made, or "" returned.
    std::string standing_area(const std::string& job_name, bool make, const std::string& area_name = {});
    /// Takes an area back in which nothing was kept, and its piece if nothing else is in it.
    void drop_empty_area(const std::string& area);
    std::vector<Piece> pieces(const std::string& job);
    std::vector<Area> areas(const std::string& piece);
    std::vector<FinishingStep> steps(const std::string& area);
    std::vector<ReadingRecord> readings(const std::string& area);
    std::vector<ComparisonRecord> comparisons(const std::string& area);
    /// Job and area that a record of that uid belongs to.
    Job job_of_area(const std::string& area);
    std::optional<Area> area(const std::string& uid);
    /// The whole text, its calibration and flat field put back in.
    std::string reading_text(const std::string& reading);
    JobDossier dossier(const std::string& job);
    /// A picture's bytes, by hash, checked against it. Throws when it is missing or damaged.
    std::vector<std::byte> picture(const std::string& hash);
    /// Its file ending, without the dot; empty when there is no such picture.
    std::string picture_kind(const std::string& hash);

    /// Keeps other threads out of the store until it goes.
    std::unique_lock<std::recursive_mutex> hold() { return std::unique_lock(mutex_); }
    /// Both parts, for what works on whole stores (store_copy.h, store_check.h). Not while other threads use
    /// this store.
    OpenStore& parts() { return store_; }

  private:
    std::string newest_area_of(const std::string& job_name);
    std::string keep_picture(const std::optional<PictureToKeep>& picture);

    std::recursive_mutex mutex_;
    OpenStore store_;
};

}  // namespace tonemend
