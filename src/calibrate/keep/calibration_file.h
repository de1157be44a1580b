#pragma once

#include <filesystem>
#include <functional>
#include <span>
#include <string>

#include "calibrate/keep/kept_calibration.h"

namespace tonemend {

/// The calibration as a file's text: indented JSON (see calibration_json).
std::string calibration_text(const KeptCalibration& kept);

/// The calibration in a file's text; `name` is for messages. Throws InputError: not a calibration, written by
/// a newer program, or damaged.
KeptCalibration parse_calibration(std::span<const std::byte> text, const std::string& name);

/// The calibration in a file of at most 64 MiB. Throws InputError likewise, or when it cannot be read.
KeptCalibration read_calibration(const std::filesystem::path& path);

/// Reads the file, lets `change` change it, and writes it whole. Programs that change files of one folder at
/// the same time do so one after the other, so that nothing is lost. Throws InputError as read_calibration
/// and write_whole_file do; the file is as it was then, also when `change` throws.
void change_calibration(const std::filesystem::path& path,
                        const std::function<void(KeptCalibration&)>& change);

}  // namespace tonemend
