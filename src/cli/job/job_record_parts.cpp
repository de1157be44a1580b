// Beginning, closing and taking back.
#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/job/add_part.h"
#include "cli/job/job_choice.h"
#include "cli/job/job_parts.h"
#include "cli/job/job_text.h"
#include "cli/output.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

struct RecordOptions {
    JobChoice choice;
    Job job;
    Piece piece;
    Area area;
};

void start(RecordOptions& options) {
    const auto store = open_chosen(options.choice);
    const auto [job, piece, area] = store->start_job(options.job, options.piece, options.area);
    print_out(
        fmt::format("  job {} '{}' is started: {}, area {}\n", job.number, job.name, piece.name, area.name));
}

void add_piece(RecordOptions& options) {
    const auto store = open_chosen(options.choice);
    const Job job = store->find_job(options.choice.job);
    options.piece.job = job.uid;
    const Piece piece = store->add_piece(options.piece);
    if (options.area.name.empty()) options.area.name = "Repair";
    options.area.piece = piece.uid;
    const Area area = store->add_area(options.area);
    print_out(fmt::format("  job {}: piece {}, area {}\n", job.number, piece.name, area.name));
}

// To the piece that is named, else to the newest.
void add_area(RecordOptions& options) {
    const auto store = open_chosen(options.choice);
    const Job job = store->find_job(options.choice.job);
    const std::vector<Piece> pieces = store->pieces(job.uid);
    if (pieces.empty())
        throw InputError("the job has no piece yet; add one: tonemend job add-piece JOB NAME");
    const Piece* chosen = options.piece.name.empty() ? &pieces.back() : nullptr;
    for (const Piece& piece : pieces)
        if (chosen == nullptr && piece.name == options.piece.name) chosen = &piece;
    if (chosen == nullptr)
        throw InputError(fmt::format("job {} has no piece '{}'; 'tonemend job show {}' names them",
                                     job.number, options.piece.name, job.number));
    options.area.piece = chosen->uid;
    const Area area = store->add_area(options.area);
    print_out(fmt::format("  job {}: {}, area {}\n", job.number, chosen->name, area.name));
}

void close(RecordOptions& options) {
    const auto store = open_chosen(options.choice);
    const Job job = store->find_job(options.choice.job);
    if (!job.closed.empty())
        throw InputError(
            fmt::format("job {0} is closed already; 'tonemend job open {0}' opens it", job.number));
    store->close_job(job.uid, utc_now());
    print_out(
        fmt::format("  job {} is closed; nothing in it is lost, and 'tonemend job open {}' opens it again\n",
                    job.number, job.number));
}

void open_again(RecordOptions& options) {
    const auto store = open_chosen(options.choice);
    const Job job = store->find_job(options.choice.job);
    if (job.closed.empty()) throw InputError(fmt::format("job {} is open", job.number));
    store->reopen_job(job.uid);
    print_out(fmt::format("  job {} is open\n", job.number));
}

void undo(RecordOptions& options) {
    const auto store = open_chosen(options.choice);
    const Job job = store->find_job(options.choice.job);
    const std::string words = store->undo(job.uid);
    print_out(fmt::format(
        "  {}{} is taken back\n",
        words == fmt::format("job {}", job.number) ? "" : fmt::format("job {}: ", job.number), words));
}

}  // namespace

void add_job_record_parts(CLI::App& job, ExitStatus& status) {
    const auto options = std::make_shared<RecordOptions>();
    CLI::App* begin =
        add_part(job, status, "start", "Start a job, with its first piece and area", options, start);
    begin->add_option("name", options->job.name, "What you call it")->required();
    begin->add_option("--piece", options->piece.name, "The piece, as 'hall chair'");
    begin->add_option("--wood", options->piece.wood, "Its wood");
    begin->add_option("--area", options->area.name, "The place that is repaired, as 'seat, front left'");
    begin->add_option("--client", options->job.client,
                      "For whom; stays in the store, and out of a report if you wish");
    begin->add_option("--note", options->job.note, "Anything else");
    add_store_option(*begin, options->choice);

    CLI::App* piece = add_part(job, status, "add-piece", "Add a piece to a job", options, add_piece);
    add_job_choice(*piece, options->choice);
    piece->add_option("name", options->piece.name, "What you call it")->required();
    piece->add_option("--wood", options->piece.wood, "Its wood");
    piece->add_option("--area", options->area.name, "Its first area");
    piece->add_option("--note", options->piece.note, "Anything else");

    CLI::App* area = add_part(job, status, "add-area", "Add a place that is repaired", options, add_area);
    add_job_choice(*area, options->choice);
    area->add_option("name", options->area.name, "What you call it")->required();
    area->add_option("--piece", options->piece.name, "On which piece; else the newest");
    area->add_option("--note", options->area.note, "Anything else");

    add_job_choice(*add_part(job, status, "close", "A job is done", options, close), options->choice);
    add_job_choice(*add_part(job, status, "open", "Open a closed job again", options, open_again),
                   options->choice);
    add_job_choice(*add_part(job, status, "undo", "Take back the newest thing that was recorded in a job",
                             options, undo),
                   options->choice);
}

}  // namespace tonemend
