#pragma once

#include <span>
#include <string>
#include <vector>

#include "record/report/report_html.h"
#include "record/report/report_pdf.h"
#include "tests/record/report/report_dossier.h"
#include "tests/record/report/run_program.h"

namespace tonemend::testing {

inline constexpr const char* report_time = "2026-11-10T08:00:00Z";

inline std::string html_of(const ReportDossier& job, const ReportOptions& options = {}) {
    return report_html(report_content(job.dossier, options, report_time), job.pictures(), options);
}

/// A report's PDF as a file, and what poppler's programs read in it.
class PdfFile {
  public:
    PdfFile(const ReportDossier& job, const ReportOptions& options)
        : PdfFile(report_pdf(report_content(job.dossier, options, report_time), job.pictures(), options)) {}
    explicit PdfFile(const std::vector<std::byte>& bytes)
        : path_(scratch_.write("report.pdf", {reinterpret_cast<const char*>(bytes.data()), bytes.size()})) {}

    /// `more`: further options of pdftotext, such as "-f 2 -l 2".
    std::string text(const std::string& more = {}) const {
        return run_program("pdftotext -layout " + more + " '" + path_.string() + "' -").said;
    }
    std::string info() const { return run_program("pdfinfo '" + path_.string() + "'").said; }
    int pages() const {
        const std::string said = info();
        const auto at = said.find("Pages:");
        return at == std::string::npos ? 0 : std::atoi(said.c_str() + at + 6);
    }
    const std::filesystem::path& path() const { return path_; }

  private:
    ScratchFolder scratch_;
    std::filesystem::path path_;
};

}  // namespace tonemend::testing
