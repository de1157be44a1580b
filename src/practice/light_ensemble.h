#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "calibrate/model/more_lights.h"
#include "practice/camera.h"
#include "practice/lamp.h"

namespace tonemend {

/// What `camera` shows of a reflectance under each lamp in turn, once a card has made white 1, 1, 1 under
/// each; and its colour under the first.
class ViewUnderLamps {
  public:
    ViewUnderLamps(const PracticeCamera& camera, const std::vector<Lamp>& lamps);
    KnownSurface of(const Bands& reflectance) const;

  private:
    std::vector<Lamp> lamps_;
    std::vector<CameraView> views_;
};

/// Stained and bare woods drawn by `seed`: every kind of wood, ground and figure, up to three colourants, two
/// of three of them earths, bare or under a clear coat.
std::vector<Bands> draw_stained_woods(std::uint64_t seed, int count);

/// What 120 cameras see of 240 stained woods under the lamps, one of lamps' names (see read_lamp) a light:
/// what learn_many_lights learns from. The cameras are none that make_scene draws.
std::vector<std::vector<KnownSurface>> camera_ensemble(const std::vector<std::string>& lamps);

}  // namespace tonemend
