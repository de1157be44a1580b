// Writes reports for people to look at: test_record "[.write]" with TONEMEND_REPORT_DIR naming a folder.
#include <cstdlib>
#include <filesystem>

#include "picture/write_picture.h"
#include "tests/catch.h"
#include "tests/record/report/report_page.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

void write_both(const std::filesystem::path& folder, const std::string& name, const ReportDossier& job,
                const ReportOptions& options) {
    const ReportContent content = report_content(job.dossier, options, report_time);
    put_content(folder / (name + ".html"), report_html(content, job.pictures(), options));
    write_whole_file(folder / (name + ".pdf"), report_pdf(content, job.pictures(), options));
}

}  // namespace

TEST_CASE("Sample reports are written", "[.write]") {
    const char* folder = std::getenv("TONEMEND_REPORT_DIR");
    REQUIRE(folder != nullptr);
    std::filesystem::create_directories(folder);
    const ReportDossier practised = practised_job(1280);
    ReportOptions options;
    options.shop = "The workshop at the mill";
    write_both(folder, "practised", practised, options);
    options.grey = true, options.paper = PaperSize::letter, options.units = Units::us;
    write_both(folder, "grey", practised, options);
    write_both(folder, "awkward", awkward_job(), {});
    write_both(folder, "long", long_job(60, 40), {});
    options = {};
    options.paper = PaperSize::a5;
    write_both(folder, "small", practised, options);
    write_both(folder, "empty", {empty_job(true), {}}, {});
    CHECK(std::filesystem::file_size(std::filesystem::path(folder) / "practised.pdf") > 0);
}
