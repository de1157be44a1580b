#include "cli/job/job_choice.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "picture/text_line.h"

namespace tonemend {

void add_store_option(CLI::App& command, JobChoice& choice) {
    command.add_option(
        "--store", choice.store,
        "Store of jobs: a file, or postgresql://user@host/database for several benches; else what "
        "TONEMEND_STORE names, else your own");
}

void add_job_choice(CLI::App& command, JobChoice& choice) {
    command.add_option("job", choice.job, "The job's number or name")->required();
    add_store_option(command, choice);
}

void add_area_choice(CLI::App& command, JobChoice& choice) {
    command.add_option("--area", choice.area, "The area's name; else the newest of the job");
    command.add_option("--piece", choice.piece,
                       "The piece that it is on, when two have an area of that name");
}

std::unique_ptr<JobStore> open_chosen(const JobChoice& choice, StoreUse use) {
    return std::make_unique<JobStore>(parse_store_location(choice.store), use);
}

namespace {

void refuse_folder(const JobChoice& choice) {
    std::error_code failure;
    if (choice.job.find('/') != std::string::npos && std::filesystem::is_directory(choice.job, failure))
        throw InputError(fmt::format(
            "{0}: is a folder; readings of an earlier version are brought into the store with 'tonemend job "
            "import {0}', and --job takes a job's number or name",
            one_line(choice.job, 300)));
}

// The job; nothing when it is to be started.
std::optional<Job> find_open_job(JobStore& store, const JobChoice& choice, MissingJob missing) {
    const bool number = choice.job.find_first_not_of("0123456789") == std::string::npos;
    auto job =
        missing == MissingJob::refuse || number ? store.find_job(choice.job) : store.look_up_job(choice.job);
    if (job && !job->closed.empty())
        throw InputError(fmt::format("job {0} is closed; 'tonemend job open {0}' opens it", job->number));
    return job;
}

}  // namespace

ChosenArea choose_area(const JobChoice& choice, MissingJob missing) {
    refuse_folder(choice);
    ChosenArea chosen;
    chosen.store = open_chosen(choice);
    if (auto job = find_open_job(*chosen.store, choice, missing)) {
        chosen.job = *job;
        chosen.area = chosen.store->find_area(job->uid, choice.area, choice.piece);
        return chosen;
    }
    chosen.started = true;
    // Another program may start it at this very moment.
    const std::string area = chosen.store->standing_area(choice.job, true, choice.area);
    chosen.job = chosen.store->job_of_area(area);
    chosen.area = chosen.store->find_area(chosen.job.uid, choice.area);
    return chosen;
}

void require_area(const JobChoice& choice, MissingJob missing) {
    refuse_folder(choice);
    std::unique_ptr<JobStore> store;
    try {
        store = open_chosen(choice, StoreUse::reading);
    } catch (const InputError&) {
        return;
    }
    if (const auto job = find_open_job(*store, choice, missing))
        (void)store->find_area(job->uid, choice.area, choice.piece);
}

}  // namespace tonemend
