// Stores of older versions are brought up after a backup, all or nothing; newer ones are refused. The
// versions beyond the first are this test's own.
#include "record/store/migrations.h"

#include "record/store/sqlite_database.h"
#include "tests/catch.h"
#include "tests/record/store/any_store.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

std::vector<Migration> with_second(const std::function<void(Database&)>& second) {
    std::vector<Migration> migrations{store_migrations().front()};
    migrations.push_back({2, second});
    return migrations;
}

void add_column(Database& database) {
    database.run_script("ALTER TABLE jobs ADD COLUMN colour TEXT NOT NULL DEFAULT 'none'");
}

void check_migration(const AnyStore& place) {
    {
        JobStore store = place.open();
        store.start_job({.name = "old"});
    }
    OpenStore store = open_store(place.location, StoreUse::keeping);
    Database& database = *store.database;
    int backed_up = 0;
    const auto backup = [&](int version) { backed_up = version; };
    // One that fails half way leaves the store as it was.
    CHECK_THROWS_AS(migrate(database, with_second([](Database& changed) {
                                add_column(changed);
                                throw InputError("no room");
                            }),
                            backup),
                    InputError);
    CHECK(backed_up == 1);
    CHECK(store_version(database) == 1);
    CHECK_THROWS_AS(database.rows("SELECT colour FROM jobs"), InputError);
    database.roll_back();
    migrate(database, with_second(add_column), backup);
    CHECK(store_version(database) == 2);
    CHECK(database.row("SELECT name, colour FROM jobs")->at(1) == SqlValue(std::string("none")));
    // Once more there is nothing to do, and to this program it is newer.
    backed_up = 0;
    migrate(database, with_second(add_column), backup);
    CHECK(backed_up == 0);
    CHECK_THAT(refusal_of([&] { (void)open_store(place.location, StoreUse::keeping); }),
               contains("update the program"));
}

}  // namespace

TEST_CASE("An older store is brought up to date after a backup, all or nothing, in a file and on a server") {
    check_migration(AnyStore("sqlite"));
    check_migration(AnyStore("postgres"));
}

TEST_CASE("A database that is another program's is refused") {
    const ScratchFolder folder;
    const std::filesystem::path file = folder / "other.sqlite";
    open_sqlite(file, SqliteOpen::or_make)->run_script("CREATE TABLE songs (title TEXT)");
    CHECK_THAT(refusal_of([&] {
                   JobStore({file, {}}, StoreUse::keeping);
               }),
               contains("another program's tables"));
}
