// What goes out of a store for others to read, and comes back.
#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/job/add_part.h"
#include "cli/job/job_choice.h"
#include "cli/job/job_parts.h"
#include "cli/job/say_outcome.h"
#include "cli/output.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"
#include "record/export/job_pictures.h"
#include "record/export/readings_cgats.h"
#include "record/export/store_csv.h"
#include "record/export/store_json.h"
#include "record/store/import_folder.h"

namespace tonemend {
namespace {

struct TransferOptions {
    JobChoice choice;
    std::string file, as;
    bool without_pictures = false;
};

std::string kind_of(const TransferOptions& options) {
    if (!options.as.empty()) return options.as;
    const std::string ending = file_ending(options.file);
    if (ending == ".json") return "json";
    if (ending == ".txt" || ending == ".cgats") return "cgats";
    throw InputError(
        fmt::format("{}: does not say what to write; give a name that ends in .json or .txt (CGATS), or add "
                    "--as csv or --as "
                    "pictures and a folder's name",
                    one_line(options.file, 300)));
}

Job chosen_job(JobStore& store, const TransferOptions& options, const std::string& kind) {
    if (options.choice.job.empty())
        throw InputError(fmt::format("--as {} is of one job; say which with --job", kind));
    return store.find_job(options.choice.job);
}

void write_export(TransferOptions& options) {
    const std::string kind = kind_of(options);
    const auto store = open_chosen(options.choice, StoreUse::reading);
    CopyOutcome outcome;
    if (kind == "json")
        outcome.losses = write_store_json(store->parts(), options.file,
                                          options.without_pictures ? WithPictures::no : WithPictures::yes);
    else if (kind == "csv")
        write_store_csv(store->parts(), options.file);
    else if (kind == "cgats")
        write_readings_cgats(store->dossier(chosen_job(*store, options, kind).uid), options.file);
    else
        outcome.losses = write_job_pictures(*store, chosen_job(*store, options, kind), options.file);
    print_out(say_outcome(outcome, one_line(options.file, 400) + " is written"));
}

void read_import(TransferOptions& options) {
    std::error_code failure;
    const bool folder = std::filesystem::is_directory(options.file, failure);
    if (!folder && !std::filesystem::exists(options.file, failure))
        throw InputError(
            fmt::format("{}: there is no such file or folder; check the name", one_line(options.file, 400)));
    const auto store = open_chosen(options.choice);
    if (folder) {
        const FolderImport brought = import_folder(*store, options.file);
        CopyOutcome outcome;
        outcome.losses = brought.losses;
        return print_out(say_outcome(outcome, fmt::format("{} readings are in job {} '{}'", brought.readings,
                                                          brought.job.number, brought.job.name)));
    }
    const CopyOutcome outcome = read_store_json(options.file, store->parts());
    print_out(
        say_outcome(outcome, fmt::format("{} records came in, {} were there", outcome.added, outcome.there)));
}

}  // namespace

void add_job_transfer_parts(CLI::App& job, ExitStatus& status) {
    const auto options = std::make_shared<TransferOptions>();
    CLI::App* out =
        add_part(job, status, "export", "Write a store or a job for other programs", options, write_export);
    out->add_option("file", options->file,
                    "JSON of everything (.json), CGATS of a job's readings (.txt), or a folder")
        ->required();
    out->add_option("--as", options->as, "json, csv, cgats or pictures, where the name does not say it")
        ->check(CLI::IsMember({"json", "csv", "cgats", "pictures"}));
    out->add_option("--job", options->choice.job, "Of which job: number or name (CGATS and pictures)");
    out->add_flag("--without-pictures", options->without_pictures,
                  "JSON alone; else pictures go to FILE.pictures");
    add_store_option(*out, options->choice);
    CLI::App* in =
        add_part(job, status, "import", "Bring an export (.json), or a folder of readings of version 0.1, in",
                 options, read_import);
    in->add_option("file", options->file, "The file or the folder")->required();
    add_store_option(*in, options->choice);
}

}  // namespace tonemend
