#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "picture/geometry.h"

namespace tonemend {

/// The card frame: a printed sheet with four fiducial markers at the corners of a cut-out window that holds
/// the shop's own grey or step card. All lengths in millimetres, origin at the sheet's top-left corner.
struct CardFrame {
    std::string name;  ///< "small", "medium", "large": also in the names of the shipped files
    double sheet_width = 0, sheet_height = 0;
    double window_width = 0, window_height = 0;
    double window_x = 0, window_y = 0;  ///< top-left corner of the window
    double marker_side = 0;             ///< outer side of a marker, black border included
    double marker_gap = 0;              ///< from a marker to the window, along x and along y
    int first_id = 0;  ///< markers first_id … first_id+3: top-left, top-right, bottom-right, bottom-left
};

/// A black square cell of a marker, in sheet millimetres.
struct FrameCell {
    double x, y, side;
};

/// The sizes that exist, small to large; the marker numbers tell them apart in a picture.
const std::vector<CardFrame>& card_frames();
/// The top-left corner of marker `index` (0..3) on the sheet.
Point marker_corner(const CardFrame& frame, int index);
/// The black cells of marker `index`, border included, for printing and for the practice bench.
std::vector<FrameCell> marker_cells(const CardFrame& frame, int index);
/// Where the window's corners are on the sheet.
Quad window_quad(const CardFrame& frame);

/// The sheet as one page, true to size, text included. Throw InputError when `path` cannot be written.
void write_card_frame_svg(const CardFrame& frame, const std::filesystem::path& path);
void write_card_frame_pdf(const CardFrame& frame, const std::filesystem::path& path);

}  // namespace tonemend
