#pragma once

#include <filesystem>
#include <string>

namespace tonemend {

/// Where a store is: a file of this machine, or a PostgreSQL database.
struct StoreLocation {
    std::filesystem::path file;  ///< SQLite; empty: PostgreSQL
    std::string connection;      ///< libpq's connection string, then

    /// Where a file's pictures are: FILE.pictures beside it.
    std::filesystem::path pictures() const { return std::filesystem::path(file).concat(".pictures"); }
    /// A server counts as there.
    bool is_there() const;
    bool operator==(const StoreLocation&) const = default;
};

/// "postgresql://…" (or "postgres://…") or a file's name; empty: what $TONEMEND_STORE names likewise, else
/// jobs.sqlite in the person's data folder (see user_folder).
StoreLocation parse_store_location(const std::string& text);
/// practice.sqlite in that folder: what is practised stays apart.
StoreLocation practice_store();

}  // namespace tonemend
