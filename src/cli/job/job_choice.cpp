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
}

std::unique_ptr<JobStore> open_chosen(const JobChoice& choice, StoreUse use) {
    return std::make_unique<JobStore>(parse_store_location(choice.store), use);
}

ChosenArea choose_or_start(const JobChoice& choice) {
    std::error_code failure;
    if (choice.job.find('/') != std::string::npos && std::filesystem::is_directory(choice.job, failure))
        throw InputError(fmt::format(
            "{0}: is a folder; readings of an earlier version are brought into the store with 'tonemend job "
            "import {0}', and --job takes a job's number or name",
            one_line(choice.job, 300)));
    ChosenArea chosen;
    chosen.store = open_chosen(choice);
    if (auto job = chosen.store->look_up_job(choice.job)) {
        chosen.job = *job;
        chosen.area = chosen.store->find_area(job->uid, choice.area);
        return chosen;
    }
    chosen.started = true;
    // Another program may start it at this very moment.
    const std::string area = chosen.store->standing_area(choice.job, true, choice.area);
    chosen.job = chosen.store->job_of_area(area);
    chosen.area = chosen.store->find_area(chosen.job.uid, choice.area);
    return chosen;
}

}  // namespace tonemend
