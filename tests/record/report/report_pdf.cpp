#include "record/report/report_pdf.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <regex>

#include "tests/catch.h"
#include "tests/record/report/report_page.h"

// Read back with poppler's programs, which share no code with Cairo's PDF.

using namespace tonemend;
using namespace tonemend::testing;

namespace {

struct WordBox {
    double left = 0, top = 0, right = 0, bottom = 0;
    std::string word;
};

// The words of each page with their boxes, in points (pdftotext -bbox).
std::vector<std::vector<WordBox>> words_of(const PdfFile& file) {
    static const std::regex word(
        R"rx(<word xMin="([^"]*)" yMin="([^"]*)" xMax="([^"]*)" yMax="([^"]*)">([^<]*)</word>)rx");
    const std::string text = run_program("pdftotext -bbox '" + file.path().string() + "' -").said;
    std::vector<std::vector<WordBox>> pages;
    for (std::size_t at = text.find("<page "); at != std::string::npos;) {
        const std::size_t next = text.find("<page ", at + 1);
        const std::string page = text.substr(at, next - at);
        auto& words = pages.emplace_back();
        for (std::sregex_iterator found(page.begin(), page.end(), word), end; found != end; ++found)
            words.push_back({std::stod((*found)[1]), std::stod((*found)[2]), std::stod((*found)[3]),
                             std::stod((*found)[4]), (*found)[5]});
        at = next;
    }
    return pages;
}

// How far two boxes lie over each other, in points, the lesser way.
double shared_reach(const WordBox& p, const WordBox& q) {
    return std::min(std::min(p.right, q.right) - std::max(p.left, q.left),
                    std::min(p.bottom, q.bottom) - std::max(p.top, q.top));
}

int times_in(const std::string& text, const std::string& what) {
    int times = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size()))
        ++times;
    return times;
}

// The largest difference between a pixel's channels, of all pages, by pdftoppm.
int most_colour(const PdfFile& file) {
    const ScratchFolder scratch;
    run_program("pdftoppm -r 30 '" + file.path().string() + "' '" + (scratch / "page").string() + "'");
    int most = 0;
    for (const auto& entry : std::filesystem::directory_iterator(scratch.path())) {
        const std::string ppm = content_of(entry.path());
        std::size_t body = 0;
        for (int lines = 0; lines < 3; ++body) lines += ppm.at(body) == '\n' ? 1 : 0;
        for (std::size_t i = body; i + 2 < ppm.size(); i += 3) {
            const auto [low, high] =
                std::minmax({static_cast<unsigned char>(ppm[i]), static_cast<unsigned char>(ppm[i + 1]),
                             static_cast<unsigned char>(ppm[i + 2])});
            most = std::max(most, high - low);
        }
    }
    return most;
}

}  // namespace

TEST_CASE("A report's PDF is on the paper that was chosen") {
    ReportOptions options;
    // ISO 216 in millimetres, and inches, at 72 points an inch.
    for (const auto& [paper, wide, high] : {std::tuple{PaperSize::a4, 210 / 25.4, 297 / 25.4},
                                            {PaperSize::a5, 148 / 25.4, 210 / 25.4},
                                            {PaperSize::letter, 8.5, 11.0},
                                            {PaperSize::legal, 8.5, 14.0}}) {
        options.paper = paper;
        const std::string info = PdfFile({empty_job(true), {}}, options).info();
        std::smatch size;
        INFO(info);
        REQUIRE(std::regex_search(info, size, std::regex(R"(Page size:\s+([0-9.]+) x ([0-9.]+) pts)")));
        CHECK(std::stod(size[1]) == Approx(72 * wide).margin(0.02));
        CHECK(std::stod(size[2]) == Approx(72 * high).margin(0.02));
    }
}

TEST_CASE("Numbers stay text in a report's PDF, and its title and time stand in it") {
    const ReportDossier job = practised_job();
    const PdfFile file(job, {});
    const std::string text = file.text();
    for (const auto& reading : job.dossier.pieces[0].areas[0].readings)
        CHECK_THAT(text, contains(fmt::format("{:.1f} ± ", reading.record.de2000)));
    CHECK_THAT(text, contains("ΔE2000"));
    CHECK_THAT(text, contains("MATCH"));
    CHECK_THAT(text, contains("75.0 ml"));
    CHECK_THAT(text, contains(job.dossier.pieces[0].areas[0].readings[0].record.annotated));
    CHECK_THAT(text, contains("closed metal can"));
    const std::string info = file.info();
    CHECK_THAT(info, contains("Hall chair, seat"));
    CHECK_THAT(info, contains("2026"));
    // Every font is embedded: pdffonts' column "emb".
    const std::string fonts = run_program("pdffonts '" + file.path().string() + "'").said;
    CHECK(times_in(fonts, "DejaVu") >= 2);
    CHECK(times_in(fonts, " yes yes ") >= times_in(fonts, "DejaVu"));
}

TEST_CASE("Sixty readings and forty steps run over pages with each head repeated and each number once") {
    const PdfFile file(long_job(60, 40), {});
    const int pages = file.pages();
    CHECK(pages >= 6);
    const std::string text = file.text();
    for (int i = 1; i <= 60; ++i) CHECK_THAT(text, contains(fmt::format(" {:.1f} ± 0.2", 10 + 0.1 * i)));
    for (int i = 1; i <= 40; ++i) CHECK_THAT(text, contains(fmt::format("toner number {}", i)));
    int with_readings = 0, with_steps = 0;
    for (int page = 1; page <= pages; ++page) {
        const std::string one = file.text(fmt::format("-f {0} -l {0}", page));
        CHECK_THAT(one, contains(fmt::format("{} / {}", page, pages)));
        const int readings = times_in(one, "during"), steps = times_in(one, "Three light passes");
        with_readings += readings > 0, with_steps += steps > 0;
        if (readings > 0) CHECK_THAT(one, contains("Verdict"));
        if (steps > 0) CHECK_THAT(one, contains("Wait"));
    }
    CHECK(with_readings >= 2);
    CHECK(with_steps >= 2);
}

TEST_CASE("No word of a report's PDF is cut off by the page or lies over another") {
    for (const PaperSize paper : {PaperSize::a4, PaperSize::a5, PaperSize::letter}) {
        ReportOptions options;
        options.paper = paper;
        const PaperSides sides = sides_of(paper);
        for (const ReportDossier& job : {practised_job(), long_job(12, 9), awkward_job()}) {
            const PdfFile file(job, options);
            const auto pages = words_of(file);
            CHECK(static_cast<int>(pages.size()) == file.pages());
            double worst = 0;
            std::string which;
            for (const auto& words : pages) {
                CHECK(words.size() > 5);
                for (std::size_t i = 0; i < words.size(); ++i) {
                    const WordBox& box = words[i];
                    INFO(box.word);
                    if (box.left < 20 || box.top < 20 || box.right > sides.width - 20 ||
                        box.bottom > sides.height - 20)
                        FAIL("beyond the margin");
                    for (std::size_t k = 0; k < i; ++k)
                        if (const double reach = shared_reach(box, words[k]); reach > worst)
                            worst = reach, which = box.word + " over " + words[k].word;
                }
            }
            INFO(which);
            // Boxes reach over the letters by the font's room for accents.
            CHECK(worst < 1.5);
        }
    }
}

TEST_CASE("In a report's PDF a number and its unit stand on one line") {
    for (const PaperSize paper : {PaperSize::a4, PaperSize::a5}) {
        ReportOptions options;
        options.paper = paper, options.units = Units::us;
        int units = 0;
        for (const auto& words : words_of(PdfFile(practised_job(), options)))
            for (std::size_t i = 0; i < words.size(); ++i) {
                const std::string& word = words[i].word;
                if (word != "±" && word != "oz" && !word.starts_with("ml")) continue;
                if (word == "±" && words.at(i + 1).word == "is") continue;  // a sentence on it
                INFO(words[i - 1].word << " " << word);
                ++units;
                CHECK(std::abs(words[i].top - words[i - 1].top) < 1);
                CHECK(words[i].left > words[i - 1].left);
            }
        CHECK(units > 30);
    }
}

TEST_CASE("On a small sheet a report's plots stand one below the other, in type that can be read") {
    for (const PaperSize paper : {PaperSize::a4, PaperSize::a5}) {
        ReportOptions options;
        options.paper = paper;
        std::vector<WordBox> axes;  // of b*, of a*, of L*, as they are drawn
        for (const auto& words : words_of(PdfFile(practised_job(), options)))
            for (const WordBox& box : words)
                if (box.word == "(CIELAB") axes.push_back(box);
        REQUIRE(axes.size() == 3);
        // DejaVu's lines are 1.164 of the type's size high; 7.5 points: common practice, no source.
        for (const WordBox& box : axes) CHECK(box.bottom - box.top > 1.164 * 7.5);
        const bool beside =
            std::abs(axes[2].top - axes[0].top) < 1 || std::abs(axes[1].top - axes[0].top) < 1;
        CHECK(beside == (paper == PaperSize::a4));
    }
}

TEST_CASE("Long words and notes are whole in a report's PDF") {
    const PdfFile file(awkward_job(), {});
    std::string text = run_program("pdftotext -raw '" + file.path().string() + "' -").said;
    for (int line = 0; line < 400; ++line)
        CHECK_THAT(text, contains(fmt::format("Line {} of a long note.", line)));
    // In the step, its note, and twice in the recipe.
    CHECK(std::count(text.begin(), text.end(), 'M') >= 4 * 150);
    CHECK_THAT(text, contains("<script>alert('x')</script>"));
}

TEST_CASE("A grey report's PDF has no colour on any page") {
    ReportOptions options;
    CHECK(most_colour(PdfFile(practised_job(), options)) > 40);
    options.grey = true;
    // JPEG's rounding of its colour channels.
    CHECK(most_colour(PdfFile(practised_job(), options)) <= 3);
}

TEST_CASE("The client is not in a report's PDF when that is wanted") {
    ReportOptions options;
    CHECK_THAT(PdfFile(practised_job(), options).text(), contains("Client-Name"));
    options.with_client = false;
    const PdfFile file(practised_job(), options);
    CHECK(file.text().find("Client-Name") == std::string::npos);
    CHECK(file.info().find("Client-Name") == std::string::npos);
}

TEST_CASE("A report of nothing is one page that says so, and pictures are in the PDF as they are kept") {
    const PdfFile empty({empty_job(true), {}}, {});
    CHECK(empty.pages() == 1);
    CHECK_THAT(empty.text(), contains("No reading was kept."));
    CHECK(PdfFile({empty_job(false), {}}, {}).pages() == 1);
    const std::string images =
        run_program("pdfimages -list '" + PdfFile(practised_job(), {}).path().string() + "'").said;
    CHECK(times_in(images, " jpeg ") == 2);
}

TEST_CASE("The same job at the same time gives the same PDF, byte for byte") {
    const ReportDossier job = practised_job();
    const ReportContent content = report_content(job.dossier, {}, report_time);
    const bool same = report_pdf(content, job.pictures(), {}) == report_pdf(content, job.pictures(), {});
    CHECK(same);
}

TEST_CASE("A damaged picture is as one that is not kept") {
    ReportDossier job = practised_job();
    for (auto& [hash, bytes] : job.files) bytes.resize(bytes.size() / 2);
    CHECK(times_in(PdfFile(job, {}).text(), "picture not kept") == 2);
    CHECK(times_in(html_of(job), "picture not kept") == 2);
    CHECK_FALSE(report_picture(nullptr, std::string(64, '0'), false));
}
