#pragma once

#include <memory>

#include "record/store/database.h"
#include "record/store/picture_vault.h"
#include "record/store/store_location.h"

namespace tonemend {

/// A store's two parts, open.
struct OpenStore {
    std::unique_ptr<Database> database;
    std::unique_ptr<PictureVault> pictures;  ///< may use the database: goes before it
    OpenStore() = default;
    OpenStore(OpenStore&&) = default;
    OpenStore& operator=(OpenStore&&) = delete;
    ~OpenStore() { pictures.reset(); }
};

enum class StoreUse {
    keeping,  ///< read and written; made when it is not there
    reading   ///< must be there; also from a folder that is closed to writing
};

/// Opens a store, makes it if need be (for its owner alone), brings an older one up to this program's version
/// after a backup (a file beside it: FILE.version-N-TIME; in PostgreSQL a schema of that name). Throws
/// InputError.
OpenStore open_store(const StoreLocation& location, StoreUse use);

/// A store in one file, pictures and all: what a backup is. It is made, and must not be there.
OpenStore make_backup_file(const std::filesystem::path& file);
/// Opens one to read it. Throws InputError when it is none.
OpenStore open_backup_file(const std::filesystem::path& file);

}  // namespace tonemend
