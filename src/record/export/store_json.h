#pragma once

#include <filesystem>

#include "record/store/store_writer.h"

namespace tonemend {

/// Whether pictures go along, in the folder FILE.pictures beside the text.
enum class WithPictures { no, yes };

/// Writes all of a store as "tonemend.jobs/1" (jobs.schema.json), one record a line, records in the order of
/// their names, for its owner alone. The same store gives the same bytes. Nothing is at `file` unless all is.
/// Throws InputError. Returns what could not be written along: pictures that are missing or damaged.
std::vector<std::string> write_store_json(OpenStore& from, const std::filesystem::path& file,
                                          WithPictures pictures);

/// Brings such a text into a store, all or nothing, pictures from FILE.pictures. Throws InputError that says
/// where: not such a text, newer, damaged.
CopyOutcome read_store_json(const std::filesystem::path& file, OpenStore& to);

}  // namespace tonemend
