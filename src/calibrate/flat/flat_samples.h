#pragma once

#include <string>
#include <vector>

#include "calibrate/card/find_card.h"
#include "calibrate/flat/flat_field.h"
#include "calibrate/tone/patch_reading.h"
#include "picture/frame.h"

namespace tonemend {

/// One place of one surface, as a picture shows it in the frame's own linear light.
struct FlatSample {
    Point at;
    Vector3 seen{}, seen_u{};
    int material = 0;  ///< which surface: samples of one material differ by the light alone
    int picture = 0;   ///< which picture, from 0
};

/// What pictures for evening out show, before it is known how the camera bends its tones.
struct FlatSamples {
    FlatSource source = FlatSource::grey_sheet;
    std::string name;  ///< of the pictures, for messages
    int width = 0, height = 0;
    int columns = 0, rows = 0;  ///< of the sheet's cells, which stand by rows in `samples`; 0: the card
    int pictures = 0;
    std::vector<FlatSample> samples;
    CaptureFacts facts;  ///< of the first picture
    ColourEncoding encoding;
};

/// Cells of an even sheet that fills the picture, about forty across; each the mean of a cell's middle, dust
/// and scratches left out. Throws InputError: clipped in more than one cell of a hundred, or darker than 1 %
/// of white.
FlatSamples sample_sheet(const Frame& frame);

/// Adds the card's patches and the frame's bare paper at one more place. Throws InputError: another size of
/// picture than those before, and as read_patches.
void add_card_place(FlatSamples& samples, const Frame& frame, const Card& card, const FoundCard& found);
/// The same of readings: `paper` may be empty.
void add_card_place(FlatSamples& samples, const std::vector<PatchReading>& patches,
                    const std::vector<PatchReading>& paper);

/// From pictures as they come: one of a grey sheet, or any number of the card in its frame, told apart by
/// whether a card frame is found. Throws InputError: both kinds, several sheets, and as above.
FlatSamples sample_flat_pictures(const std::vector<Frame>& frames, const Card& card);
/// The same of files, read one after another.
FlatSamples read_flat_pictures(const std::vector<std::string>& files, const Card& card);

}  // namespace tonemend
