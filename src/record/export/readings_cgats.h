#pragma once

#include <filesystem>

#include "calibrate/card/cgats.h"
#include "record/store/job_types.h"

namespace tonemend {

/// A job's readings as a CGATS table (ISO 28178): two rows a reading, of its original and of its repair, with
/// SAMPLE_ID, SAMPLE_NAME ("reading 7 repair"), LAB_L LAB_A LAB_B (D50, 2°) and LAB_DE_2000, the distance
/// from the original in that reading.
CgatsTable readings_table(const JobDossier& job);

/// Writes that table as a file that its owner alone can read. Throws InputError when it cannot be written.
void write_readings_cgats(const JobDossier& job, const std::filesystem::path& file);

}  // namespace tonemend
