#pragma once

#include <functional>
#include <string>
#include <vector>

#include "record/store/database.h"

namespace tonemend {

/// A step from the version before to `version`.
struct Migration {
    int version = 0;
    std::function<void(Database&)> apply;
};

/// All of them, from the empty database on; the last one's version is the one that this program works with.
const std::vector<Migration>& store_migrations();

/// `script` with the dialect's own types in it: see schema_version_1.
std::string in_dialect(const std::string& script, Database::Dialect dialect);

/// 0: the database is empty. Throws InputError when it holds another program's tables.
int store_version(Database& database);

/// Brings the store to the last migration's version, all or nothing. Before an older store is changed
/// `backup` is called with its version; an empty one has nothing to lose. Throws InputError when the store is
/// newer than this program.
void migrate(Database& database, const std::vector<Migration>& migrations,
             const std::function<void(int version)>& backup);

}  // namespace tonemend
