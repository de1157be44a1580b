// Lists and whole jobs.
#include <CLI/CLI.hpp>

#include "cli/job/add_part.h"
#include "cli/job/job_choice.h"
#include "cli/job/job_parts.h"
#include "cli/job/job_text.h"
#include "cli/output.h"

namespace tonemend {
namespace {

struct LookOptions {
    JobChoice choice;
    JobQuery query;
};

void list(LookOptions& options) {
    const StoreLocation location = parse_store_location(options.choice.store);
    // Before the first job there is no store, and nothing is wrong.
    if (options.choice.store.empty() && !location.is_there()) return print_out(list_jobs({}));
    const auto found = JobStore(location, StoreUse::reading).search(options.query);
    const JobQuery& query = options.query;
    const bool asked =
        !(query.anywhere + query.wood + query.colourant + query.piece).empty() || query.open_only;
    print_out(found.empty() && asked ? "  no job is like that; 'tonemend job list' shows all\n"
                                     : list_jobs(found));
}

void show(LookOptions& options) {
    const auto store = open_chosen(options.choice, StoreUse::reading);
    print_out(say_job(store->dossier(store->find_job(options.choice.job).uid)));
}

}  // namespace

void add_job_look_parts(CLI::App& job, ExitStatus& status) {
    const auto options = std::make_shared<LookOptions>();
    CLI::App* look =
        add_part(job, status, "list", "List jobs, newest first, or look for some", options, list);
    look->add_option("words", options->query.anywhere,
                     "Words that are in names, clients, notes, woods or colourants");
    look->add_option("--wood", options->query.wood, "With this wood");
    look->add_option("--colourant", options->query.colourant, "On which this colourant was put");
    look->add_option("--piece", options->query.piece, "With a piece of this name");
    look->add_flag("--open", options->query.open_only, "Only those that are not closed");
    look->add_option("--most", options->query.most, "At most so many")
        ->check(CLI::Range(1, 1000000))
        ->capture_default_str();
    add_store_option(*look, options->choice);
    add_job_choice(*add_part(job, status, "show", "All that is kept of a job", options, show),
                   options->choice);
}

}  // namespace tonemend
