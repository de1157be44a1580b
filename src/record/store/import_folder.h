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
    std::vector<std::string> losses;  ///< readings and pictures that could not be taken, a line each
};

/// Brings the readings that versions up to 0.1 kept as plain files (NNNN-NAME.json, the annotated
/// NNNN-NAME.png, the measured picture beside) into a new job of the store, called as the folder is, by
/// number; the job numbers them anew from 1. Undone ones (.json.undone) come too, and are undone again. A
/// picture that is missing or damaged is a loss, its reading comes all the same. The folder stays as it is.
/// Throws InputError when there is no reading in it.
FolderImport import_folder(JobStore& store, const std::filesystem::path& folder);

}  // namespace tonemend
