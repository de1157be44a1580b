#pragma once

#include <cairo.h>

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "picture/geometry.h"
#include "record/report/report_palette.h"

namespace tonemend {

struct PdfType {
    double size = 9.5;  ///< points
    ReportRgb colour{};
    bool bold = false;
    bool mono = false;
};

/// A text broken into lines that fit a width, which can be drawn a few lines at a time. Words that are wider
/// than that are broken too. Lines of right-to-left text stand at the right.
class PdfText {
  public:
    /// `width` in points; 0: one line, however long, but where the text itself breaks.
    PdfText(cairo_t* cairo, const std::string& text, const PdfType& type, double width);

    std::size_t lines() const { return lines_.size(); }
    double height() const { return lines_.empty() ? 0 : lines_.back().bottom; }
    /// Of its widest line.
    double width() const { return width_; }
    /// Of the first line, below the top.
    double baseline() const { return lines_.empty() ? 0 : lines_.front().baseline; }
    /// Height of a line.
    double line_height(std::size_t line) const { return lines_.at(line).bottom - lines_.at(line).top; }
    /// Draws lines from `line` on, as many as `room` is high enough for, and moves `line` behind them.
    /// Returns the height that they fill.
    double draw(cairo_t* cairo, const Point& top_left, std::size_t& line, double room) const;

  private:
    struct Line {
        double top = 0, bottom = 0, baseline = 0, indent = 0;
    };
    struct FreeLayout {
        void operator()(void* layout) const;
    };
    std::unique_ptr<void, FreeLayout> layout_;
    std::vector<Line> lines_;
    double width_ = 0;
    ReportRgb colour_{};
};

}  // namespace tonemend
