#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "colour/lab.h"
#include "measure/verdict.h"

namespace tonemend {

// The store's records as programs hold them. `uid` is the record's name in every store that it is copied to
// (UUID version 7, RFC 9562); times are UTC, "2026-11-25T10:09:00Z"; text is UTF-8; an empty text says
// nothing.

/// One commission: what was taken on and will be handed back.
struct Job {
    std::string uid = {};
    int number = 0;  ///< from 1, what people call it by; never used twice in one store
    std::string name = {};
    std::string client = {};  ///< as the person likes, or nothing
    std::string note = {};
    std::string started = {};
    std::string closed = {};  ///< empty: it is open
};

/// A piece of furniture in a job.
struct Piece {
    std::string uid = {}, job = {};  ///< `job`: uid
    std::string name = {}, wood = {}, note = {};
};

/// One place of a piece that is repaired.
struct Area {
    std::string uid = {}, piece = {};  ///< `piece`: uid
    std::string name = {}, note = {};
};

enum class StepKind { sand, bleach, dye, seal, pigment, glaze, toner, clear, other };

/// What was put on an area, or is to be.
struct FinishingStep {
    std::string uid, area;  ///< `area`: uid
    int place = 0;          ///< from 1 in the area, the order in which they are done
    StepKind kind = StepKind::other;
    std::string colourant;    ///< or product, as the person calls it
    std::string carrier;      ///< "alcohol", "water", "oil", …
    std::string dilution;     ///< "2:1": parts of thinner to parts of colourant
    int coats = 1;            ///< 1 to 20
    int grit = 0;             ///< that the wood was sanded to; 0: not said
    double wait_minutes = 0;  ///< till it was dry; 0: not said
    std::string note;
    std::string done;  ///< when; empty: it is planned
};

/// For what a reading was taken.
enum class ReadingRole { before, during, after };

/// A kept reading without its text.
struct ReadingRecord {
    std::string uid, area;  ///< `area`: uid
    int number = 0;         ///< from 1 in the job; never used twice
    ReadingRole role = ReadingRole::during;
    std::string taken, picture;  ///< `picture`: its file name, for people
    Lab original, repair;        ///< CIELAB (D50, 2°)
    double de2000 = 0, u95 = 0, tolerance = 1;
    Verdict verdict = Verdict::undecided;
    bool unfit = false;       ///< a warning spoke against it
    std::string light;        ///< as it was stated; empty: not stated
    std::string software;     ///< name and version of the program that took it
    std::string annotated;    ///< SHA-256 of the annotated picture (PNG); empty: none
    std::string source;       ///< SHA-256 of the picture that was measured; empty: it was not kept
    std::string calibration;  ///< SHA-256 of the saved calibration that was read with; empty: none
};

/// What two readings of one area say together.
enum class ComparisonKind { before_after, second_light };

/// Two readings held against each other.
struct ComparisonRecord {
    std::string uid, area;
    ComparisonKind kind = ComparisonKind::before_after;
    std::string first, second;  ///< readings, by uid; of a second light they may be empty: all is in `text`
    std::string made;
    std::string text;  ///< JSON: "tonemend.before-after/1" or "tonemend.second-light/1"
};

/// "sand", "bleach", "dye", "seal", "pigment", "glaze", "toner", "clear", "other".
std::string_view name(StepKind kind);
/// The kind of that name. Throws InputError that lists them.
StepKind parse_step_kind(const std::string& text);
/// "before", "during", "after".
std::string_view name(ReadingRole role);
/// Throws InputError when there is none of that name.
ReadingRole parse_reading_role(const std::string& text);
/// "before-after", "second-light".
std::string_view name(ComparisonKind kind);
/// Throws InputError when there is none of that name.
ComparisonKind parse_comparison_kind(const std::string& text);

/// All that is kept of a job, in the order in which it came to be.
struct JobDossier {
    struct ReadingDossier {
        ReadingRecord record;
        std::string text;  ///< JSON, "tonemend.comparison/1" with what made it: see DEVELOPERS.md
    };
    struct AreaDossier {
        Area area;
        std::vector<FinishingStep> steps;
        std::vector<ReadingDossier> readings;
        std::vector<ComparisonRecord> comparisons;
    };
    struct PieceDossier {
        Piece piece;
        std::vector<AreaDossier> areas;
    };
    Job job;
    std::vector<PieceDossier> pieces;
};

}  // namespace tonemend
