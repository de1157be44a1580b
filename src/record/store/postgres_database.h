#pragma once

#include <memory>
#include <string>

#include "record/store/database.h"

namespace tonemend {

/// A database of a PostgreSQL server (12 or newer), by a connection string "postgresql://user@host/database"
/// as libpq takes it; a password is best left to ~/.pgpass. Writers go one after the other. Throws InputError
/// as Database says, also when the server cannot be reached within ten seconds.
std::unique_ptr<Database> open_postgres(const std::string& connection);

}  // namespace tonemend
