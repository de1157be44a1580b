#pragma once

#include <filesystem>
#include <string>

#include "live/bench_state.h"
#include "live/theme.h"
#include "measure/drying_kind.h"

namespace tonemend {

/// What comes back at the next start.
struct Settings {
    std::string source;  ///< as --source takes it; empty: the first camera, else the practice bench
    std::string card = "six-step-card";
    std::string calibration;  ///< a file that `tonemend calibrate` saved; empty: the picture's own card alone
    std::string store;        ///< of jobs, as parse_store_location takes it; empty: the person's own
    std::string area;         ///< uid of the area that readings go to; empty: that of the standing job
    std::string practice_area;  ///< the same on the practice bench, which has a store of its own
    std::string light;          ///< as parse_light takes it; empty: not stated
    RepairColourants colourants = RepairColourants::earth;
    double tolerance = default_tolerance;
    ThemeName theme = ThemeName::dark;
    std::string display;  ///< profile file of the display; empty: the desktop's
    bool average = true;  ///< of frames while nothing moves
    bool tick = false;    ///< a sound when a reading is kept
    std::string drying;   ///< log of the drying watch that runs; empty: none
    DryingKind drying_kind = DryingKind::unknown;
    double drying_every = 20;        ///< seconds from one of its readings to the next
    bool walked = false;             ///< the first walk through card, lamp and regions is behind
    double text_scale = 1;           ///< 0.75 to 3
    int width = 1280, height = 720;  ///< of the window, screen points
    BenchRegions regions;
    int picture_width = 0, picture_height = 0;  ///< that the regions belong to
};

inline constexpr double least_text_scale = 0.75, greatest_text_scale = 3;

/// Settings as found, and what to tell the person when they could not be.
struct LoadedSettings {
    Settings settings;
    std::string notice;  ///< one line; empty when all is well or nothing was kept yet
};

/// $XDG_CONFIG_HOME/tonemend/settings.json, or the same below ~/.config.
std::filesystem::path settings_path();
/// $XDG_DATA_HOME/tonemend/drying, or the same below ~/.local/share: where logs of the drying watch go.
std::filesystem::path drying_logs();

/// A missing file gives the defaults; a damaged one too, with a notice. Never throws for what the file holds.
LoadedSettings load_settings(const std::filesystem::path& path);
/// Writes to a temporary file and renames it, so that the file is always whole. Throws InputError.
void save_settings(const Settings& settings, const std::filesystem::path& path);

}  // namespace tonemend
