#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "colour/matrix3.h"
#include "measure/drying_watch.h"

namespace tonemend {

/// What a drying log is about; its first line.
struct DryingLogHead {
    std::string region;  ///< as --region takes it, in the first reading's picture
    DryingKind kind = DryingKind::unknown;
    std::optional<double> label_minutes;
    std::string source;         ///< for people
    Matrix3 card_to_picture{};  ///< where the card lay in the first reading's picture
};

/// One of its other lines.
struct DryingLogEntry {
    TimedLab reading;
    std::string picture;  ///< file name of the still; empty for a live source
};

struct DryingLog {
    DryingLogHead head;
    std::vector<DryingLogEntry> entries;
    std::uintmax_t whole_bytes = 0;  ///< length of its whole lines; what is behind them is half a line

    /// A watch that has seen all of its readings.
    DryingWatch replay() const;
};

/// Reads a log: JSON lines, schema "tonemend.drying/1". Half a line at the end, as a program leaves it that
/// was killed or a disk that was full, is passed over. Throws InputError: no such file, not such a log,
/// damaged elsewhere (with the line's number).
DryingLog read_drying_log(const std::filesystem::path& path);

/// Appends to a log, which nobody else may do meanwhile.
class DryingLogWriter {
  public:
    /// Begins a log at `path`, or opens the one that is there, cutting half a line off its end. Throws
    /// InputError: see read_drying_log; cannot be written; another program appends to it.
    explicit DryingLogWriter(const std::filesystem::path& path);
    ~DryingLogWriter();
    DryingLogWriter(const DryingLogWriter&) = delete;
    DryingLogWriter& operator=(const DryingLogWriter&) = delete;

    /// What was there; nothing when the log is new.
    const std::optional<DryingLog>& found() const { return found_; }
    /// The first line of a new log.
    void begin(const DryingLogHead& head);
    /// One line, on the disk when this returns. `report`: what is said as of this reading, for people.
    void append(const DryingLogEntry& entry, const DryingReport& report);

  private:
    void write_line(const std::string& line);

    std::filesystem::path path_;
    int file_ = -1;
    std::optional<DryingLog> found_;
};

}  // namespace tonemend
