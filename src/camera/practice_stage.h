#pragma once

#include <optional>
#include <vector>

#include "camera/practice_settings.h"
#include "practice/light_map.h"

namespace tonemend {

/// The scene that the settings describe. Throws InputError for a setting out of range.
PracticeScene make_live_scene(const PracticeSettings& settings);

/// Renders the light of scene after scene and keeps what the next one shares: the grain, most of all.
class PracticeStage {
  public:
    /// The light behind the lens, without the sensor's noise. A full high-definition picture takes a tenth of
    /// a second.
    RawPicture render(const PracticeScene& scene);

  private:
    struct GrainKey {
        GrainStyle style;
        int width = 0, height = 0;
        std::uint64_t seed = 0;
        bool operator==(const GrainKey&) const = default;
    };
    std::optional<GrainKey> key_;
    std::vector<float> darkness_;
};

}  // namespace tonemend
