#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "colour/lab.h"
#include "record/report/report_options.h"
#include "record/report/verdict_mark.h"
#include "record/store/job_types.h"

namespace tonemend {

/// A label and what stands beside it.
struct ReportFact {
    std::string label, text;
};

struct ReportCell {
    std::string text;
    ReportMark mark = ReportMark::none;  ///< a shape before the text
};

struct ReportTable {
    std::string title;
    std::vector<std::string> heads;
    std::vector<double> widths;  ///< share of each column, in any unit
    std::vector<std::vector<ReportCell>> rows;
    std::string below;  ///< small print; empty: none
};

/// Facts that belong together.
struct ReportFacts {
    std::string title;
    std::vector<ReportFact> facts;
};

/// A picture's place in the report.
struct ReportFigure {
    std::string title;   ///< "Before: reading 1"
    std::string sha256;  ///< empty: there is none
    Lab original, repair;
};

/// A reading as the plots show it.
struct ReportPoint {
    int number = 0;
    Lab original, repair;
    std::optional<std::array<double, 3>> original_u95;
    bool unfit = false;
};

/// One place of a piece.
struct ReportArea {
    std::string title;               ///< "Hall chair: Seat, front left"
    std::string note;                ///< of the piece and of the place; empty: none
    std::string verdict, statement;  ///< "MATCH", and the numbers in a sentence
    ReportMark mark = ReportMark::none;
    std::vector<ReportFigure> figures;
    std::vector<ReportPoint> points;  ///< every reading
    ReportTable change, readings, lights, steps;
    std::vector<std::string> light_words, warnings;
};

/// All that a report says, in words; what draws it adds nothing. Text is UTF-8 as its writers left it, not
/// escaped.
struct ReportContent {
    std::string shop, title;
    std::vector<ReportFact> facts;
    std::vector<ReportArea> areas;
    std::vector<std::string> cautions;
    std::vector<ReportFacts> made_with;  ///< what it takes to repeat the readings
    ReportTable files, hashes;
    std::vector<std::string> terms;  ///< what the numbers mean
    std::string made, made_at;       ///< "Made 2026-11-25 12:00 UTC with …", and the time alone, ISO 8601
};

/// The report of a job. After is an area's last reading taken as such, else its last fit one; before is the
/// last one taken as such up to there, else the first fit one. `made` is the time that it is made at, UTC,
/// ISO 8601. What records or texts do not hold, or hold damaged, is said to be not recorded; nothing throws.
ReportContent report_content(const JobDossier& dossier, const ReportOptions& options,
                             const std::string& made);

}  // namespace tonemend
