#pragma once

#include <filesystem>
#include <memory>

#include "record/store/database.h"

namespace tonemend {

/// How an SQLite file is opened.
enum class SqliteOpen {
    or_make,   ///< made when it is not there, for its owner alone
    existing,  ///< must be there
    as_it_is   ///< only read, and nothing beside it touched: for what is damaged, or on a medium that is
               ///< closed
};

/// A database in one file. Changes go to a log beside it first (write-ahead log) and are on the disk when
/// commit returns; two programs write one after the other, and one that waits over ten seconds is told so.
/// Throws InputError as Database says.
std::unique_ptr<Database> open_sqlite(const std::filesystem::path& file, SqliteOpen how);

}  // namespace tonemend
