#pragma once

#include <filesystem>
#include <functional>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "picture/frame.h"
#include "practice/scene.h"
#include "practice/truth.h"
#include "run_command.h"

namespace tonemend::testing {

/// A small practice picture with a framed six-step card: quick to make and to measure, sanitizers or not.
PracticeOptions small_picture(std::uint64_t seed = 3);

/// "x,y,w,h"
std::string text_of(const PixelRect& rect);
/// "x1,y1 x2,y2 x3,y3 x4,y4"
std::string text_of(const Quad& quad);

/// compare PICTURE with the scene's own regions and card.
std::vector<std::string> compare_arguments(const PracticeScene& scene, const std::filesystem::path& picture);

/// `arguments` with `more` behind them.
std::vector<std::string> with(std::vector<std::string> arguments, const std::vector<std::string>& more);

/// Runs the comparison with --json and parses what it printed; the exit status must be `status`.
nlohmann::json compare_json(const std::vector<std::string>& arguments, int status = 0);

/// Writes the scene's rendering after `change`; format by extension.
void write_changed(const PracticeScene& scene, const std::filesystem::path& path,
                   const std::function<void(Frame&)>& change);

/// Fills a rectangle of a 16-bit frame with one value.
void fill(Frame& frame, const PixelRect& rect, std::uint16_t value);

}  // namespace tonemend::testing
