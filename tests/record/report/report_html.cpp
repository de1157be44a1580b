#include "record/report/report_html.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <regex>
#include <set>

#include "picture/read_picture.h"
#include "record/report/html_text.h"
#include "record/report/report_palette.h"
#include "tests/catch.h"
#include "tests/record/report/report_page.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

// Relative luminance and contrast ratio as WCAG 2.1 defines them (its glossary).
double wcag_luminance(const ReportRgb& colour) {
    const auto linear = [](int code) {
        const double c = code / 255.0;
        return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour[0]) + 0.7152 * linear(colour[1]) + 0.0722 * linear(colour[2]);
}

double wcag_contrast(const ReportRgb& p, const ReportRgb& q) {
    const double first = wcag_luminance(p), second = wcag_luminance(q);
    return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

std::set<std::string> all_matches(const std::string& text, const std::string& pattern) {
    const std::regex expression(pattern);
    std::set<std::string> found;
    for (std::sregex_iterator at(text.begin(), text.end(), expression), end; at != end; ++at)
        found.insert((*at)[1]);
    return found;
}

std::set<std::string> hex_set(const std::vector<ReportRgb>& colours) {
    std::set<std::string> all;
    for (const ReportRgb& colour : colours) all.insert(hex_of(colour));
    return all;
}

bool holds_all(const std::set<std::string>& outer, const std::set<std::string>& inner) {
    return std::includes(outer.begin(), outer.end(), inner.begin(), inner.end());
}

std::string without_pictures(const std::string& html) {
    std::string rest;
    for (std::size_t at = 0; at < html.size();) {
        const std::size_t picture = html.find("data:image/jpeg;base64,", at);
        rest += html.substr(at, picture - at);
        at = picture == std::string::npos ? picture : html.find('"', picture);
    }
    return rest;
}

// What W3C's rules for HTML 5 find fault with, by the program tidy; status 0: nothing.
ProgramOutcome judged_by_tidy(const std::string& html) {
    const ScratchFolder scratch;
    return run_program("tidy -e -q -utf8 '" + scratch.write("report.html", html).string() + "'");
}

}  // namespace

TEST_CASE("The test's contrast ratio is that of WCAG 2.1") {
    // Black on white is 21; #777 on white is 4.48, which just fails (WCAG's own working group's examples,
    // from memory).
    CHECK(wcag_contrast({0, 0, 0}, {255, 255, 255}) == Approx(21));
    CHECK(wcag_contrast({0x77, 0x77, 0x77}, {255, 255, 255}) == Approx(4.48).margin(0.005));
}

TEST_CASE("A report's HTML passes tidy without an error or a warning, whatever is in the job") {
    for (const bool grey : {false, true}) {
        ReportOptions options;
        options.grey = grey, options.shop = "The \"workshop\" & <sons>";
        for (const ReportDossier& job :
             {practised_job(), awkward_job(), long_job(60, 40), ReportDossier{empty_job(true), {}},
              ReportDossier{empty_job(false), {}}}) {
            const ProgramOutcome judged = judged_by_tidy(html_of(job, options));
            INFO(judged.said);
            CHECK(judged.status == 0);
            CHECK(judged.said.empty());
        }
    }
    // So that a tidy that finds nothing is noticed.
    CHECK(judged_by_tidy("<!DOCTYPE html><title>x</title><p><table></p>").status != 0);
}

TEST_CASE("Text in a report's HTML reads against its ground at 4.5 to 1 at least, and nothing else is used") {
    for (const bool grey : {false, true}) {
        const ReportPalette palette = report_palette(grey);
        for (const ReportRgb& text : palette.text_colours())
            for (const ReportRgb& ground : palette.grounds()) CHECK(wcag_contrast(text, ground) >= 4.5);
        CHECK(wcag_contrast(palette.paper, palette.accent) >= 4.5);  // numbers on discs
        for (const ReportRgb& text : palette.text_colours()) CHECK(wcag_contrast(text, palette.band) >= 4.5);
        ReportOptions options;
        options.grey = grey;
        const std::string html = without_pictures(html_of(practised_job(), options));
        const std::set<std::string> texts = hex_set(palette.text_colours()),
                                    grounds = hex_set(palette.grounds());
        const auto css_text = all_matches(html, "[{;]color:([^;}]*)"),
                   css_ground = all_matches(html, "background[a-z-]*:([^;}]*)");
        CHECK(css_text.size() >= 3);
        CHECK(css_ground.size() == 2);
        CHECK(holds_all(texts, css_text));
        CHECK(holds_all(grounds, css_ground));
        std::set<std::string> drawn = texts;
        drawn.insert(hex_of(palette.paper));
        CHECK(holds_all(drawn, all_matches(html, "<text[^>]*fill=\"([^\"]*)\"")));
    }
}

TEST_CASE("A report's HTML needs nothing beside it and runs nothing") {
    const std::string html = html_of(practised_job());
    CHECK(html.find("<script") == std::string::npos);
    CHECK(all_matches(html, " (?:src|href)=\"([a-z]*:[a-z/]*)") == std::set<std::string>{"data:image/jpeg"});
    const std::string rest = without_pictures(html);
    for (const char* outside : {"url(", "@import", "<link", "<iframe", "<object"})
        CHECK(rest.find(outside) == std::string::npos);
    CHECK(all_matches(rest, "(https?://[^\"' ]*)") == std::set<std::string>{"http://www.w3.org/2000/svg"});
    CHECK(all_matches(rest, "<[a-z]+[^>]* (on[a-z]+)=").empty());
    CHECK_THAT(html, contains("<html lang=\"en\">"));
    CHECK_THAT(html, contains("<meta charset=\"utf-8\">"));
    CHECK_THAT(html, contains("width=device-width"));
    CHECK_THAT(html, contains("<title>Hall chair, seat</title>"));
}

TEST_CASE("What a person wrote is text in a report's HTML, never markup") {
    const std::string html = html_of(awkward_job());
    CHECK(html.find("<script") == std::string::npos);
    CHECK_THAT(html,
               contains("&quot;Chair&quot; &lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; sons"));
    CHECK_THAT(html, contains("&lt;/td&gt;&lt;td&gt;lamp"));
    CHECK_THAT(html, contains("&lt;b&gt;glare&lt;/b&gt;"));
    CHECK_THAT(html, contains("\xEF\xBF\xBD broken bytes"));
    CHECK_THAT(html, contains("picture not kept"));
}

TEST_CASE("The numbers of a report stand in its HTML, and no line is broken between one and its unit") {
    ReportDossier job = practised_job();
    const std::string html = html_of(job);
    for (const auto& reading : job.area().readings)
        CHECK_THAT(html, contains(fmt::format("{:.1f}&nbsp;±&nbsp;", reading.record.de2000)));
    CHECK_THAT(html, contains("75.0&nbsp;ml"));
    ReportOptions options;
    options.units = Units::us;
    CHECK_THAT(html_of(job, options), contains("3.00&nbsp;fl&nbsp;oz (88.7&nbsp;ml)"));
}

TEST_CASE("A report's page is for the paper that was chosen") {
    ReportOptions options;
    for (const auto& [paper, style] : {std::pair{PaperSize::a4, "A4"},
                                       {PaperSize::a5, "A5"},
                                       {PaperSize::letter, "letter"},
                                       {PaperSize::legal, "legal"}}) {
        options.paper = paper;
        CHECK_THAT(html_of({empty_job(true), {}}, options),
                   contains(std::string("@page{size:") + style + ";"));
    }
}

TEST_CASE("A grey report's HTML has no colour") {
    const auto coloured = [](const std::string& html) {
        std::set<std::string> found;
        for (const std::string& hex : all_matches(html, "(#[0-9a-f]{6})"))
            if (hex.substr(1, 2) != hex.substr(3, 2) || hex.substr(3, 2) != hex.substr(5, 2))
                found.insert(hex);
        return found;
    };
    ReportDossier job = practised_job();
    job.files.clear();  // so that the two colours are drawn
    ReportOptions options;
    CHECK(coloured(html_of(job, options)).size() > 3);
    options.grey = true;
    CHECK(coloured(html_of(job, options)).empty());
}

TEST_CASE("A grey report's pictures are grey, and no larger than a report wants them") {
    const ReportDossier job = practised_job(2400);
    const std::string hash = job.dossier.pieces[0].areas[0].readings[0].record.annotated;
    ReportOptions options;
    for (const bool grey : {false, true}) {
        const auto picture = report_picture(job.pictures(), hash, grey);
        REQUIRE(picture);
        CHECK(std::max(picture->width, picture->height) == 1600);
        const Frame frame = read_picture(picture->jpeg, "the copy");
        CHECK(frame.width == picture->width);
        int most = 0;
        for (std::size_t i = 0; i + 2 < frame.samples.size(); i += 3)
            most = std::max(most, std::abs(std::to_integer<int>(frame.samples[i]) -
                                           std::to_integer<int>(frame.samples[i + 2])));
        // JPEG's rounding of its colour channels.
        CHECK((grey ? most <= 3 : most > 40));
        options.grey = grey;
        CHECK(html_of(job, options).find(data_uri("image/jpeg", picture->jpeg)) != std::string::npos);
    }
}

TEST_CASE("A grey is as light as the colour that it stands for") {
    for (const ReportRgb& colour :
         {ReportRgb{44, 82, 112}, {200, 30, 60}, {255, 255, 255}, {0, 0, 0}, {1, 250, 9}})
        CHECK(wcag_luminance(grey_of(colour)) == Approx(wcag_luminance(colour)).margin(0.005));
}

TEST_CASE("The client is not in a report's HTML when that is wanted") {
    ReportOptions options;
    CHECK_THAT(html_of(practised_job(), options), contains("Client-Name"));
    options.with_client = false;
    CHECK(html_of(practised_job(), options).find("Client-Name") == std::string::npos);
}

TEST_CASE("Bytes in a data URI are base64") {
    // RFC 4648, section 10.
    const auto uri_of = [](const std::string& text) {
        return data_uri("x/y", std::as_bytes(std::span(text)));
    };
    CHECK(uri_of("") == "data:x/y;base64,");
    CHECK(uri_of("f") == "data:x/y;base64,Zg==");
    CHECK(uri_of("fo") == "data:x/y;base64,Zm8=");
    CHECK(uri_of("foobar") == "data:x/y;base64,Zm9vYmFy");
}

TEST_CASE("What is no UTF-8 becomes a replacement character") {
    // RFC 3629: overlong forms, surrogates and what is beyond U+10FFFF are none.
    const std::string bad = "\xEF\xBF\xBD";
    CHECK(clean_utf8("a\xC3\xA9\xE2\x82\xAC\xF0\x9F\xAA\x91z") == "a\xC3\xA9\xE2\x82\xAC\xF0\x9F\xAA\x91z");
    CHECK(clean_utf8("\xC0\xAF") == bad + bad);
    CHECK(clean_utf8("\xED\xA0\x80") == bad + bad + bad);
    CHECK(clean_utf8("\xF4\x90\x80\x80") == bad + bad + bad + bad);
    CHECK(clean_utf8("\xE2\x82") == bad + bad);
    CHECK(clean_utf8("\r\n\r") == "\n\n");
    CHECK(clean_utf8(std::string("\0", 1)) == bad);
}
