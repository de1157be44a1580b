// What is done with whole stores.
#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/job/add_part.h"
#include "cli/job/job_choice.h"
#include "cli/job/job_parts.h"
#include "cli/job/say_outcome.h"
#include "cli/output.h"
#include "picture/text_line.h"
#include "record/store/rescue.h"
#include "record/store/store_check.h"
#include "record/store/store_writer.h"

namespace tonemend {
namespace {

struct StoreOptions {
    JobChoice choice;
    std::string file, to;
};

void verify(StoreOptions& options) {
    const auto store = open_chosen(options.choice, StoreUse::reading);
    const StoreCheck check = check_store(store->parts());
    std::string text;
    for (const std::string& fault : check.faults) text += fmt::format("  {}\n", fault);
    text += fmt::format("  {} records and {} pictures looked at: {}\n", check.records, check.pictures,
                        check.faults.empty() ? "all whole" : fmt::format("{} faults", check.faults.size()));
    print_out(text);
    if (!check.faults.empty())
        throw InputError(
            fmt::format("{}: is not whole; bring a backup back ('tonemend job restore'), or save what can "
                        "be read ('tonemend job rescue')",
                        store->place()));
}

void remove_unfinished(const std::filesystem::path& file) {
    std::error_code ignored;
    for (const char* part : {"", "-wal", "-shm", "-journal"})
        std::filesystem::remove(std::filesystem::path(file).concat(part), ignored);
}

void backup(StoreOptions& options) {
    const auto store = open_chosen(options.choice, StoreUse::reading);
    const std::filesystem::path file = std::filesystem::absolute(options.file);
    OpenStore to = make_backup_file(file);
    try {
        const CopyOutcome outcome = copy_store(store->parts(), to);
        print_out(say_outcome(
            outcome, fmt::format("{} records are in {}", outcome.added, one_line(options.file, 400))));
    } catch (...) {
        remove_unfinished(file);
        throw;
    }
}

void restore(StoreOptions& options) {
    OpenStore from = open_backup_file(options.file);
    const auto store = open_chosen(options.choice);
    const CopyOutcome outcome = copy_store(from, store->parts());
    print_out(say_outcome(outcome,
                          fmt::format("{} records came back, {} were there", outcome.added, outcome.there)));
}

void copy(StoreOptions& options) {
    const auto from = open_chosen(options.choice, StoreUse::reading);
    JobStore to(parse_store_location(options.to), StoreUse::keeping);
    const CopyOutcome outcome = copy_store(from->parts(), to.parts());
    print_out(say_outcome(outcome, fmt::format("{} records went to {}, {} were there", outcome.added,
                                               to.place(), outcome.there)));
}

void rescue(StoreOptions& options) {
    const RescueOutcome outcome = rescue_store(options.file, std::filesystem::absolute(options.to));
    CopyOutcome losses;
    losses.losses = outcome.losses;
    print_out(say_outcome(losses, fmt::format("{} records and {} pictures are saved in {}", outcome.records,
                                              outcome.pictures, one_line(options.to, 400))));
}

}  // namespace

void add_job_store_parts(CLI::App& job, ExitStatus& status) {
    const auto options = std::make_shared<StoreOptions>();
    add_store_option(*add_part(job, status, "verify",
                               "Look at every record, reference and picture of the store", options, verify),
                     options->choice);
    CLI::App* save =
        add_part(job, status, "backup", "All of the store, pictures and all, into one file", options, backup);
    save->add_option("file", options->file, "New file, as jobs.backup")->required();
    add_store_option(*save, options->choice);
    CLI::App* back = add_part(job, status, "restore", "Bring a backup into the store; what is there stays",
                              options, restore);
    back->add_option("file", options->file, "A file that 'tonemend job backup' wrote")->required();
    add_store_option(*back, options->choice);
    CLI::App* carry =
        add_part(job, status, "copy", "Bring all of the store into another, of either kind", options, copy);
    carry->add_option("to", options->to, "The other store: a file, or postgresql://user@host/database")
        ->required();
    add_store_option(*carry, options->choice);
    CLI::App* mend = add_part(job, status, "rescue",
                              "Save what can be read of a damaged store into a new one", options, rescue);
    mend->add_option("damaged", options->file, "The damaged store's file")->required();
    mend->add_option("to", options->to, "New file; what is lost is listed beside it")->required();
}

}  // namespace tonemend
