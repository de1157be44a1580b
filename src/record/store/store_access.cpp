#include "record/store/store_access.h"

#include <fmt/format.h>

#include <algorithm>

#include "picture/text_line.h"
#include "record/store/migrations.h"
#include "record/store/postgres_database.h"
#include "record/store/schema.h"
#include "record/store/sqlite_database.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

std::string stamp_now() {
    std::string stamp = utc_now();
    std::erase_if(stamp, [](char c) { return c == '-' || c == ':'; });
    return stamp;
}

void back_up_file(Database& database, const fs::path& file, int version) {
    const fs::path backup = fs::path(file).concat(fmt::format(".version-{}-{}", version, stamp_now()));
    std::error_code failure;
    if (fs::exists(backup, failure)) return;  // another program makes it, in this very second
    database.execute("VACUUM INTO ?", {backup.string()});
    fs::permissions(backup, fs::perms::owner_read | fs::perms::owner_write, failure);
}

// Every table, whatever this version calls it, copied into a schema beside.
void back_up_schema(Database& database, int version) {
    std::string name = fmt::format("version_{}_{}", version, stamp_now());
    std::transform(name.begin(), name.end(), name.begin(),
                   [](char c) { return c == 'T' || c == 'Z' ? '_' : c; });
    const auto tables = database.rows(
        "SELECT table_name::text FROM information_schema.tables WHERE table_schema = current_schema()");
    Transaction writing(database, Database::Access::writing);
    database.run_script(fmt::format("CREATE SCHEMA \"{}\"", name));
    for (const SqlRow& table : tables)
        database.run_script(
            fmt::format("CREATE TABLE \"{0}\".\"{1}\" AS TABLE \"{1}\"", name, text_in(table.at(0))));
    writing.commit();
}

void make_folder_of(const fs::path& file) {
    std::error_code failure;
    const fs::path folder = file.parent_path();
    if (folder.empty() || fs::is_directory(folder, failure)) return;
    fs::create_directories(folder, failure);
    if (failure)
        throw InputError(fmt::format("{}: cannot be made ({}); choose another place with --store",
                                     one_line(folder.string(), 400), failure.message()));
}

bool is_empty_or_missing(const fs::path& file) {
    std::error_code failure;
    const auto size = fs::file_size(file, failure);
    return failure || size == 0;
}

// A store in a folder that cannot be written is read as it is, unless its log has what the file has not.
std::unique_ptr<Database> open_closed_folder(const fs::path& file) {
    if (!is_empty_or_missing(fs::path(file).concat("-wal")))
        throw InputError(
            fmt::format("{}: its folder is closed to writing, and its log (-wal) is not worked in yet; copy "
                        "both to where you may write",
                        one_line(file.string(), 400)));
    auto database = open_sqlite(file, SqliteOpen::as_it_is);
    (void)store_version(*database);
    return database;
}

OpenStore open_file(const fs::path& file, StoreUse use) {
    OpenStore store;
    if (use == StoreUse::keeping) make_folder_of(file);
    try {
        store.database =
            open_sqlite(file, use == StoreUse::keeping ? SqliteOpen::or_make : SqliteOpen::existing);
        migrate(*store.database, store_migrations(),
                [&](int version) { back_up_file(*store.database, file, version); });
    } catch (const DamagedStore&) {
        throw;
    } catch (const InputError&) {
        if (use == StoreUse::keeping || is_empty_or_missing(file)) throw;
        store.database.reset();
        store.database = open_closed_folder(file);
    }
    store.pictures = folder_vault(StoreLocation{file, {}}.pictures());
    return store;
}

}  // namespace

OpenStore open_store(const StoreLocation& location, StoreUse use) {
    if (!location.file.empty()) return open_file(location.file, use);
    OpenStore store;
    store.database = open_postgres(location.connection);
    migrate(*store.database, store_migrations(),
            [&](int version) { back_up_schema(*store.database, version); });
    store.pictures = table_vault(*store.database);
    return store;
}

OpenStore make_backup_file(const fs::path& file) {
    OpenStore store;
    std::error_code failure;
    if (fs::exists(file, failure))
        throw InputError(
            fmt::format("{}: is there already; choose another name", one_line(file.string(), 400)));
    store.database = open_sqlite(file, SqliteOpen::or_make);
    migrate(*store.database, store_migrations(), [](int) {});
    store.pictures = table_vault(*store.database);
    return store;
}

OpenStore open_backup_file(const fs::path& file) {
    OpenStore store;
    store.database = open_sqlite(file, SqliteOpen::existing);
    if (store_version(*store.database) == 0)
        throw InputError(fmt::format("{}: is no backup of a store", one_line(file.string(), 400)));
    migrate(*store.database, store_migrations(),
            [&](int version) { back_up_file(*store.database, file, version); });
    store.pictures = table_vault(*store.database);
    return store;
}

}  // namespace tonemend
