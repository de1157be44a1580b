// The report: for a client, or for a conservation file.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <span>

#include "cli/job/add_part.h"
#include "cli/job/job_choice.h"
#include "cli/job/job_parts.h"
#include "cli/output.h"
#include "picture/text_line.h"
#include "record/export/whole_stream.h"
#include "record/report/report_content.h"
#include "record/report/report_html.h"
#include "record/report/report_pdf.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

struct ReportPartOptions {
    JobChoice choice;
    std::string html, pdf, paper = "a4", units = "metric";
    bool without_client = false;
    ReportOptions report;
};

void write_report(ReportPartOptions& options) {
    if (options.html.empty() && options.pdf.empty())
        throw InputError("say where the report goes: --html FILE, --pdf FILE, or both");
    options.report.paper = parse_paper_size(options.paper);
    options.report.units = options.units == "us" ? Units::us : Units::metric;
    options.report.with_client = !options.without_client;
    const auto store = open_chosen(options.choice, StoreUse::reading);
    const JobDossier dossier = store->dossier(store->find_job(options.choice.job).uid);
    const ReportContent content = report_content(dossier, options.report, utc_now());
    const ReportPictures pictures = [&](const std::string& hash) -> std::optional<std::vector<std::byte>> {
        try {
            return store->picture(hash);
        } catch (const InputError&) {
            return std::nullopt;  // the report says so in its place
        }
    };
    std::string said;
    if (!options.html.empty()) {
        const std::string page = report_html(content, pictures, options.report);
        write_owners_file(options.html, std::as_bytes(std::span(page)));
        said += fmt::format("  {} is written\n", one_line(options.html, 400));
    }
    if (!options.pdf.empty()) {
        const std::vector<std::byte> pages = report_pdf(content, pictures, options.report);
        write_owners_file(options.pdf, pages);
        said += fmt::format("  {} is written\n", one_line(options.pdf, 400));
    }
    print_out(said);
}

}  // namespace

void add_job_report_part(CLI::App& job, ExitStatus& status) {
    const auto options = std::make_shared<ReportPartOptions>();
    CLI::App* part = add_part(job, status, "report", "A report of a job, as one page of HTML or as PDF",
                              options, write_report);
    add_job_choice(*part, options->choice);
    part->add_option("--html", options->html, "Write it as HTML, pictures and all in one file");
    part->add_option("--pdf", options->pdf, "Write it as PDF");
    part->add_option("--paper", options->paper, "a4, a5, letter or legal")->capture_default_str();
    part->add_flag("--grey", options->report.grey, "Greys alone, pictures too");
    part->add_option("--units", options->units, "metric, or us: fluid ounces in recipes")
        ->check(CLI::IsMember({"metric", "us"}))
        ->capture_default_str();
    part->add_flag("--without-client", options->without_client, "Leave out the client and the job's note");
    part->add_option("--shop", options->report.shop, "A line at its head, as your workshop's name");
}

}  // namespace tonemend
