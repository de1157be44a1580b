#pragma once

#include <memory>
#include <string>

#include "record/store/job_store.h"

namespace CLI {
class App;
}

namespace tonemend {

/// Which store, job and area a command works on.
struct JobChoice {
    std::string store;  ///< as parse_store_location takes it; empty: the standing one
    std::string job;    ///< number or name
    std::string area;   ///< name; empty: the newest
    std::string piece;  ///< name of the piece that it is on; empty: any
};

void add_store_option(CLI::App& command, JobChoice& choice);
/// The job as the command's first word, and --store.
void add_job_choice(CLI::App& command, JobChoice& choice);
/// --area and --piece besides.
void add_area_choice(CLI::App& command, JobChoice& choice);

/// Opens the store; `use` as JobStore takes it. Throws InputError.
std::unique_ptr<JobStore> open_chosen(const JobChoice& choice, StoreUse use = StoreUse::keeping);

/// An area to keep a reading in, its store open.
struct ChosenArea {
    std::unique_ptr<JobStore> store;
    Job job;
    Area area;
    bool started = false;  ///< the job was not there and was started
};

/// What becomes of a job that is not there.
enum class MissingJob { refuse, start };

/// The chosen area of an open job. A job that is not there may be started under that name, with a piece and
/// an area. Throws InputError, also for the folder of readings that earlier versions kept.
ChosenArea choose_area(const JobChoice& choice, MissingJob missing = MissingJob::refuse);
/// Throws InputError when choose_area would, as far as that can be told without changing anything; a store
/// that cannot be opened is left for later.
void require_area(const JobChoice& choice, MissingJob missing);

}  // namespace tonemend
