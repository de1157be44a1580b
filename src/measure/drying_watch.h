#pragma once

#include <optional>
#include <string>
#include <vector>

#include "calibrate/warning.h"
#include "measure/drying_kind.h"
#include "measure/settling.h"

namespace tonemend {

/// What may be said of a drying surface.
enum class DryingState {
    watching,  ///< too little was seen to say how long it takes
    settling,  ///< still settling; the fit says for about how long
    settled,   ///< within settled_within of its last colour, of which the fit is 98.5 % sure
};
const char* name(DryingState state);

/// What a watch was told and what it makes of it.
struct DryingReport {
    DryingState state = DryingState::watching;
    int readings = 0;         ///< of the present curve
    int restarts = 0;         ///< how often another curve began
    double seen_minutes = 0;  ///< from the curve's first reading to the last
    double when = 0;          ///< that this is said of, seconds on the readings' clock
    double wait_minutes = 0;  ///< the usual wait, or the label's
    bool wait_is_labels = false;
    SettlingFit fit;  ///< of no meaning before the first reading

    /// ΔE2000 from the wet colour to that of now.
    double changed() const;
};

/// Follows the colour of one drying region. Times may have gaps; a reading that lies alone far off the curve
/// is left out, two in a row that agree with each other (another coat, a hand, a moved card) begin the curve
/// anew. For one thread.
class DryingWatch {
  public:
    /// `label_minutes`: the label's own time until it is dry; it goes before the kind's usual wait.
    explicit DryingWatch(DryingKind kind, std::optional<double> label_minutes = std::nullopt);

    /// What became of a reading.
    enum class Taken {
        added,
        held,       ///< far off the curve: the next reading will tell
        restarted,  ///< this and the one before begin a new curve
        too_old,    ///< not later than the one before, and left out
    };
    Taken add(const TimedLab& reading);

    bool empty() const { return readings_.empty(); }
    /// Time of the last reading that counts. Not when empty.
    double last() const { return readings_.back().seconds; }
    /// Time of the present curve's first. Not when empty.
    double begin() const { return readings_.front().seconds; }
    /// What is said as of the last reading. With no reading: watching.
    DryingReport report() const;
    /// What all readings together say of another moment, at or after begin(): earlier, later, or between.
    DryingReport report_at(double when) const;

  private:
    const SettlingCurves& curves() const;
    bool lies_off(const TimedLab& reading) const;

    SettlingPrior prior_;
    double wait_minutes_ = 0;
    bool wait_is_labels_ = false;
    std::vector<TimedLab> readings_;
    std::optional<TimedLab> held_;
    int restarts_ = 0;
    mutable std::optional<SettlingCurves> curves_;
};

/// "still settling, about 14 minutes to within 0.5", "settled", or what is lacking.
std::string say_state(const DryingReport& report);

/// `still-settling`, for a reading that was made at the moment that the report is of; nothing once settled.
/// Unfit when more than 1 ΔE2000 is to go, or when nobody knows.
std::optional<Warning> warn_of_settling(const DryingReport& report);

}  // namespace tonemend
