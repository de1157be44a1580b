#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "picture/preview.h"

namespace tonemend {

/// Gives the file (PNG) of an annotated picture by its SHA-256; nothing when it is not kept.
using ReportPictures = std::function<std::optional<std::vector<std::byte>>(const std::string& sha256)>;

/// A copy for the report, never measured: at most report_picture_side on its longer side.
struct ReportPicture {
    int width = 0, height = 0;
    std::vector<std::byte> jpeg;
};
inline constexpr int report_picture_side = 1600, report_jpeg_quality = 85;

/// The copy of the picture with that hash, in greys if wanted. Nothing when there is no hash, `pictures` is
/// empty or has none, or what it has cannot be read.
std::optional<ReportPicture> report_picture(const ReportPictures& pictures, const std::string& sha256,
                                            bool grey);

}  // namespace tonemend
