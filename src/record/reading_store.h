#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "calibrate/card/find_card.h"
#include "calibrate/preflight/light_comparison.h"
#include "measure/comparison.h"
#include "measure/second_light.h"
#include "picture/frame.h"
#include "picture/region.h"
#include "record/annotated_picture.h"
#include "record/store/job_types.h"

namespace tonemend {

/// The picture that a reading was taken in, and what in it was measured: enough to measure it again.
struct ReadingPicture {
    std::shared_ptr<const Frame> frame;
    Region original, repair;                       ///< in the frame's pixels
    std::optional<FoundCard> card;                 ///< where the card frame was
    std::string card_name;                         ///< as locate_card takes it; empty when unknown
    std::optional<Quad> bare_card = std::nullopt;  ///< the corners of a card that lay in no frame
    std::shared_ptr<const FlatField> flat_field =
        nullptr;  ///< by which the light was evened out; may be null
    std::shared_ptr<const KeptCalibration> kept = nullptr;  ///< that was read with; may be null
    StatedFacts stated = {};                                ///< what was known beside the picture
    /// The picture's own file, byte for byte, and its ending ("jpg"), where there is one and the frame is
    /// what read_picture makes of it; empty: the frame's samples are kept.
    std::vector<std::byte> file = {};
    std::string file_kind = {};
};

/// A reading as it was taken.
struct ReadingToKeep {
    std::string picture;  ///< the picture's file name, or what stands for it; names the reading for people
    std::string taken;    ///< "2026-11-25T10:09:00Z"
    AnnotatedPicture annotated;
    Calibration calibration;
    Comparison comparison;
    std::optional<ReadingPicture> source;  ///< absent: the picture stays where it is, and only there
    std::optional<PictureLight> light = std::nullopt;  ///< of the picture, for later readings
    std::optional<ReadingRole> role = std::nullopt;    ///< absent: before when it is the first, else during
    /// The pair under other lights too, this reading the last of them; absent: it was read under one.
    std::optional<PairUnderLights> lights = std::nullopt;
};

/// A kept reading as a list shows it.
struct KeptReading {
    int number = 0;  ///< from 1, in the order in which they were kept; never used twice
    std::string taken, picture;
    Lab original, repair;  ///< CIELAB (D50, 2°)
    double de2000 = 0, u95 = 0, tolerance = default_tolerance;
    Verdict verdict = Verdict::undecided;
    bool unfit = false;                                ///< a warning spoke against it
    bool has_source = false;                           ///< reopen gives the picture back
    std::string place;                                 ///< where a person finds it
    std::optional<PictureLight> light = std::nullopt;  ///< absent when an older program kept it
};

/// A kept reading with the picture it was taken in.
struct ReopenedReading {
    KeptReading reading;
    ReadingPicture source;
};

/// Where the readings of one job are kept. A reading is listed only when all of it is kept; one that could
/// not be kept leaves the others as they were. May be used from several threads at once.
class ReadingStore {
  public:
    ReadingStore() = default;
    virtual ~ReadingStore() = default;
    ReadingStore(const ReadingStore&) = delete;
    ReadingStore& operator=(const ReadingStore&) = delete;

    /// Keeps one more reading. Throws InputError when there is no room or no permission.
    virtual KeptReading keep(const ReadingToKeep& reading) = 0;
    /// The readings by number, without those undone; what is damaged is passed over.
    virtual std::vector<KeptReading> list() const = 0;
    /// Takes a reading off the list and deletes nothing. Throws InputError when it is not on the list or
    /// cannot be marked.
    virtual void undo(int number) = 0;
    /// The frame comes back with the same samples, meaning the same light, so that measuring again gives the
    /// same Lab to 0.002. Throws InputError when the reading is not on the list, was kept without its
    /// picture, or is damaged.
    virtual ReopenedReading reopen(int number) const = 0;
};

}  // namespace tonemend
