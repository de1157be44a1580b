#pragma once

#include <string>
#include <vector>

#include "picture/geometry.h"

namespace tonemend {

/// A region of a picture: a simple polygon of at least three corners, in picture pixels. A rectangle is one
/// too.
struct Region {
    std::vector<Point> corners;
};

/// Columns first … last−1 of one row.
struct Span {
    int row = 0;
    int first = 0;
    int last = 0;
};

/// "x,y,w,h" (whole pixels, w and h at least 1) or "x1,y1 x2,y2 x3,y3 …" (a polygon); there may be blanks
/// beside a comma. Throws InputError with `role` ("--original") in its text: not numbers, zero area, fewer
/// than three corners, a polygon that crosses itself.
Region parse_region(const std::string& text, const std::string& role);
/// "x1,y1 x2,y2 x3,y3 x4,y4"; throws InputError unless it is four corners of a convex quadrilateral.
Quad parse_quad(const std::string& text, const std::string& role);
/// A rectangle as a region.
Region rectangle(const PixelRect& rect);
/// The smallest whole-pixel rectangle that holds the region.
PixelRect bounds(const Region& region);
/// Area in square pixels.
double area(const Region& region);
/// True when every corner lies within a width × height picture.
bool lies_inside(const Region& region, int width, int height);
/// Throws InputError unless every corner lies within a width × height picture.
void require_inside(const Region& region, int width, int height, const std::string& role);
/// How many of the first region's pixels are the second one's too, as a share, 0..1.
double shared_part(const Region& first, const Region& second);
/// The pixels whose centres are inside the region, as spans ordered by row then column.
std::vector<Span> spans(const Region& region);

}  // namespace tonemend
