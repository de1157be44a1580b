#pragma once

#include <filesystem>

#include "record/store/store_access.h"

namespace tonemend {

/// Writes a store as comma-separated values (RFC 4180, UTF-8, a line of column names first) into the folder,
/// which is made: one file a table, TABLE.csv, columns as in "tonemend.jobs/1", and overview.csv, a line for
/// each reading that stands, with its job, piece, wood and area by name. A text that a spreadsheet would take
/// for a formula gets an apostrophe ahead in overview.csv; the tables have every text as it is. For their
/// owner alone. Throws InputError.
void write_store_csv(OpenStore& from, const std::filesystem::path& folder);

}  // namespace tonemend
