#pragma once

#include <string>

namespace tonemend {

enum class PaperSize { a4, a5, letter, legal };

/// "a4", "a5", "letter", "legal", in any case. Throws InputError that lists them.
PaperSize parse_paper_size(const std::string& text);

/// A sheet's sides, upright.
struct PaperSides {
    double width = 0, height = 0;  ///< points, 72 to the inch
    const char* style = "";        ///< what CSS calls it: "A4" (CSS Paged Media, `size`)
};
PaperSides sides_of(PaperSize paper);

/// Measures in recipes: millilitres, or US fluid ounces with millilitres beside them.
enum class Units { metric, us };

struct ReportOptions {
    PaperSize paper = PaperSize::a4;
    bool grey = false;  ///< no colour anywhere, pictures included
    Units units = Units::metric;
    bool with_client = true;  ///< false: neither the client nor the job's note, which may name them
    std::string shop;         ///< a line above the title; empty: none
};

}  // namespace tonemend
