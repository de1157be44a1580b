#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "record/store/job_store.h"

namespace tonemend {

/// What became of a folder of readings.
struct FolderImport {
    Job job;
    int readings = 0;
    std::vector<std::string> losses;  ///< files that could not be taken, a line each
};

/// Brings the readings that versions up to 0.1 kept as plain files (NNNN-NAME.json, the annotated
/// NNNN-NAME.png, the measured picture beside) into a new job of the store, called as the folder is; undone
/// ones
/// (.json.undone) too, and undone again. The folder stays as it is. Throws InputError when there is no
/// reading in it.
FolderImport import_folder(JobStore& store, const std::filesystem::path& folder);

}  // namespace tonemend
