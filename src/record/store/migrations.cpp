#include "record/store/migrations.h"

#include <fmt/format.h>

#include <cstdlib>

#include "record/store/schema.h"

namespace tonemend {
namespace {

void replace_all(std::string& text, const std::string& what, const std::string& by) {
    for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += by.size())
        text.replace(at, what.size(), by);
}

std::int64_t count_tables(Database& database, const std::string& name) {
    const char* catalogue = database.dialect() == Database::Dialect::sqlite
                                ? "SELECT count(*) FROM sqlite_master WHERE name LIKE ?"
                                : "SELECT count(*) FROM information_schema.tables WHERE table_schema = "
                                  "current_schema() AND table_name LIKE ?";
    return whole_in(database.row(catalogue, {name})->at(0));
}

}  // namespace

const std::vector<Migration>& store_migrations() {
    static const std::vector<Migration> migrations{
        {1,
         [](Database& database) { database.run_script(in_dialect(schema_version_1, database.dialect())); }}};
    return migrations;
}

std::string in_dialect(const std::string& script, Database::Dialect dialect) {
    const bool sqlite = dialect == Database::Dialect::sqlite;
    std::string text = script;
    // Bytes as they are decide the order in both.
    replace_all(text, "{text}", sqlite ? "TEXT" : "TEXT COLLATE \"C\"");
    replace_all(text, "{bytes}", sqlite ? "BLOB" : "BYTEA");
    return text;
}

int store_version(Database& database) {
    if (count_tables(database, "store_info") == 0) {
        if (count_tables(database, "%") > 0)
            throw InputError(fmt::format("{}: holds another program's tables; choose a database of its own",
                                         database.place()));
        return 0;
    }
    const auto row = database.row("SELECT value FROM store_info WHERE key = 'version'");
    const int version = row ? std::atoi(text_in(row->at(0)).c_str()) : 0;
    if (version < 1)
        throw DamagedStore(
            fmt::format("{0}: does not say what version it is; save what can be read with 'tonemend job "
                        "rescue {0}'",
                        database.place()));
    return version;
}

void migrate(Database& database, const std::vector<Migration>& migrations,
             const std::function<void(int version)>& backup) {
    const int newest = migrations.back().version;
    const auto refuse_newer = [&](int version) {
        if (version > newest)
            throw InputError(fmt::format(
                "{}: was made by a newer version of this program (store version {}, this program knows {}); "
                "update the program",
                database.place(), version, newest));
    };
    const int found = store_version(database);
    refuse_newer(found);
    if (found == newest) return;
    if (found > 0) backup(found);
    Transaction writing(database, Database::Access::writing);
    const int version = store_version(database);  // another program may have been quicker
    refuse_newer(version);
    for (const Migration& migration : migrations)
        if (migration.version > version) migration.apply(database);
    database.execute(
        "INSERT INTO store_info (key, value) VALUES ('version', ?) "
        "ON CONFLICT (key) DO UPDATE SET value = excluded.value",
        {std::to_string(newest)});
    writing.commit();
}

}  // namespace tonemend
