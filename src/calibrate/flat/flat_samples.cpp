#include "calibrate/flat/flat_samples.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "calibrate/flat/paper_spots.h"
#include "calibrate/tone/steps.h"
#include "picture/input_error.h"
#include "picture/read_picture.h"

namespace tonemend {
namespace {

constexpr int cells_across = 40;
constexpr double most_cell_side = 48;  // pixels read of a cell: enough for any mean
constexpr double clipped_cells_allowed = 0.01;
constexpr double least_sheet_light = 0.01;

// The middle of cell `index` of `count` along a side of `length` pixels.
double cell_middle(int index, int count, int length) {
    return (index + 0.5) * length / count;
}

PatchReading read_cell(const Frame& frame, const Point& middle, double side) {
    const double half = std::min(side, most_cell_side) / 2;
    return read_area(frame, Region{{{middle.x - half, middle.y - half},
                                    {middle.x + half, middle.y - half},
                                    {middle.x + half, middle.y + half},
                                    {middle.x - half, middle.y + half}}});
}

void require_exposed(const Frame& frame, std::size_t clipped, const FlatSamples& sheet) {
    const auto all = static_cast<double>(sheet.columns * sheet.rows);
    const double share = static_cast<double>(clipped) / all;
    if (share > clipped_cells_allowed) {
        throw InputError(fmt::format(
            "{}: {:.0f} % of the sheet is clipped (pure white or pure black); take the sheet's picture again "
            "with an exposure that shows it as a middle grey, with nothing shining on it",
            frame.name, std::max(1.0, 100 * share)));
    }
    double light = 0;
    for (const FlatSample& sample : sheet.samples) light += sample.seen[1] / all;
    if (light < least_sheet_light) {
        throw InputError(
            fmt::format("{}: the sheet is almost black ({:.1f} % of white); take its picture "
                        "again with an exposure that shows it as a middle grey",
                        frame.name, 100 * light));
    }
}

void require_same_size(const FlatSamples& samples, const Frame& frame) {
    if (samples.pictures == 0 || (samples.width == frame.width && samples.height == frame.height)) return;
    throw InputError(
        fmt::format("{}: is {} × {} pixels, but {} is {} × {}; take all --flat pictures with one "
                    "camera, at one size, held the same way",
                    frame.name, frame.width, frame.height, samples.name, samples.width, samples.height));
}

void note_picture(FlatSamples& samples, const Frame& frame) {
    if (samples.pictures == 0) {
        samples.name = frame.name;
        samples.width = frame.width, samples.height = frame.height;
        samples.facts = frame.facts, samples.encoding = frame.encoding;
    } else {
        samples.name += " and " + frame.name;
    }
}

// Takes the pictures one by one and keeps no more of them than their samples.
class FlatPictures {
  public:
    explicit FlatPictures(const Card& card) : card_(card) {}

    void add(const Frame& frame) {
        if (const auto found = find_card(frame)) {
            refuse_mixture(sheet_.name, frame.name, sheet_.pictures > 0);
            add_card_place(places_, frame, card_, *found);
            return;
        }
        if (sheet_.pictures > 0) {
            throw InputError(
                fmt::format("{} and {}: no card frame is found in either; give one --flat picture of an even "
                            "grey sheet, or pictures of the framed card at several places",
                            sheet_.name, frame.name));
        }
        refuse_mixture(frame.name, places_.name, places_.pictures > 0);
        sheet_ = sample_sheet(frame);
    }
    FlatSamples take() { return sheet_.pictures > 0 ? std::move(sheet_) : std::move(places_); }

  private:
    static void refuse_mixture(const std::string& sheet, const std::string& card, bool mixed) {
        if (!mixed) return;
        throw InputError(
            fmt::format("{}: shows no card frame, but {} does; give one --flat picture of an even "
                        "grey sheet, or only pictures with the whole framed card in them",
                        sheet, card));
    }

    const Card& card_;
    FlatSamples places_, sheet_;
};

}  // namespace

FlatSamples sample_sheet(const Frame& frame) {
    FlatSamples sheet;
    note_picture(sheet, frame);
    sheet.source = FlatSource::grey_sheet;
    sheet.pictures = 1;
    const double side =
        std::max(8.0, static_cast<double>(std::max(frame.width, frame.height)) / cells_across);
    sheet.columns = static_cast<int>(frame.width / side), sheet.rows = static_cast<int>(frame.height / side);
    if (sheet.columns < 8 || sheet.rows < 8) {
        throw InputError(
            fmt::format("{}: {} × {} pixels are too few to show how the light falls; use the "
                        "camera's own picture",
                        frame.name, frame.width, frame.height));
    }
    std::size_t clipped = 0;
    for (int row = 0; row < sheet.rows; ++row)
        for (int column = 0; column < sheet.columns; ++column) {
            const Point middle{cell_middle(column, sheet.columns, frame.width),
                               cell_middle(row, sheet.rows, frame.height)};
            const PatchReading reading = read_cell(frame, middle, side);
            if (reading.clipped_share() > clipped_share_allowed) ++clipped;
            sheet.samples.push_back({middle, reading.mean, reading.mean_u, 0, 0});
        }
    require_exposed(frame, clipped, sheet);
    return sheet;
}

void add_card_place(FlatSamples& samples, const std::vector<PatchReading>& patches,
                    const std::vector<PatchReading>& paper) {
    samples.source = FlatSource::card_places;
    for (std::size_t k = 0; k < patches.size(); ++k) {
        const PatchReading& patch = patches[k];
        if (patch.pixels == 0 || patch.clipped_share() > clipped_share_allowed) continue;
        samples.samples.push_back(
            {middle_of(patch.area), patch.mean, patch.mean_u, static_cast<int>(k) + 1, samples.pictures});
    }
    for (const PatchReading& spot : paper)
        samples.samples.push_back({middle_of(spot.area), spot.mean, spot.mean_u, 0, samples.pictures});
    ++samples.pictures;
}

void add_card_place(FlatSamples& samples, const Frame& frame, const Card& card, const FoundCard& found) {
    require_same_size(samples, frame);
    note_picture(samples, frame);
    add_card_place(samples, read_patches(frame, card, found.window), read_paper(frame, found));
}

FlatSamples sample_flat_pictures(const std::vector<Frame>& frames, const Card& card) {
    FlatPictures pictures(card);
    for (const Frame& frame : frames) pictures.add(frame);
    return pictures.take();
}

FlatSamples read_flat_pictures(const std::vector<std::string>& files, const Card& card) {
    FlatPictures pictures(card);
    for (const std::string& file : files) pictures.add(read_picture(file));
    return pictures.take();
}

}  // namespace tonemend
