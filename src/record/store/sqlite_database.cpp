#include "record/store/sqlite_database.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <map>
#include <span>
#include <system_error>

#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr int patience_ms = 10000;
constexpr std::size_t most_statements = 100;

[[noreturn]] void refuse_sqlite(const std::string& place, const SQLite::Exception& error) {
    switch (error.getErrorCode()) {
        case SQLITE_FULL:
            throw InputError(fmt::format(
                "{}: the disk is full; make room and try again, what was kept before is whole", place));
        case SQLITE_IOERR:
            throw InputError(
                fmt::format("{}: the disk does not read or write ({}); is it full, or was it taken away?",
                            place, one_line(error.what())));
        case SQLITE_READONLY:
        case SQLITE_PERM:
        case SQLITE_AUTH:
        case SQLITE_CANTOPEN:
            throw InputError(fmt::format(
                "{}: cannot be opened for writing; check the permissions of the file and of its folder, or "
                "choose another with --store",
                place));
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            throw InputError(
                fmt::format("{}: another program holds the store; try again when it has done", place));
        case SQLITE_CORRUPT:
            throw DamagedStore(fmt::format(
                "{0}: is damaged; bring a backup back with 'tonemend job restore', or save what can be read "
                "with 'tonemend job rescue {0} NEW'",
                place));
        case SQLITE_NOTADB:
            throw DamagedStore(fmt::format(
                "{0}: is no store of jobs, or is damaged at its beginning; if it was one, 'tonemend job "
                "rescue {0} NEW' saves what can be read",
                place));
        default:
            throw InputError(fmt::format("{}: {}", place, one_line(error.what())));
    }
}

// What makes a file only its owner can read: SQLite's own files beside it take their permissions from it.
void make_for_owner(const std::filesystem::path& file, const std::string& place) {
    const int made = open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (made < 0)
        throw InputError(fmt::format(
            "{}: cannot be made ({}); check the folder's permissions, or choose another with --store", place,
            std::generic_category().message(errno)));
    close(made);
}

SqlValue value_of(const SQLite::Column& column) {
    switch (column.getType()) {
        case SQLITE_INTEGER:
            return static_cast<std::int64_t>(column.getInt64());
        case SQLITE_FLOAT:
            return column.getDouble();
        case SQLITE_TEXT:
            return column.getString();
        case SQLITE_BLOB: {
            const auto* bytes = static_cast<const std::byte*>(column.getBlob());
            return SqlBytes(bytes, bytes + column.getBytes());
        }
        default:
            return std::monostate{};
    }
}

void bind_values(SQLite::Statement& statement, const SqlRow& values) {
    int place = 0;
    for (const SqlValue& value : values) {
        ++place;
        if (const auto* whole = std::get_if<std::int64_t>(&value))
            statement.bind(place, static_cast<std::int64_t>(*whole));
        else if (const auto* number = std::get_if<double>(&value))
            statement.bind(place, *number);
        else if (const auto* text = std::get_if<std::string>(&value))
            statement.bind(place, *text);
        else if (const auto* bytes = std::get_if<SqlBytes>(&value))
            statement.bind(place, static_cast<const void*>(bytes->data()), static_cast<int>(bytes->size()));
        else
            statement.bind(place);
    }
}

class SqliteDatabase : public Database {
  public:
    SqliteDatabase(const std::filesystem::path& file, SqliteOpen how) : place_(one_line(file.string(), 400)) {
        std::error_code failure;
        const bool there = std::filesystem::exists(file, failure);
        if (!there && how != SqliteOpen::or_make)
            throw InputError(fmt::format("{}: there is no such store; check the name", place_));
        if (!there) make_for_owner(file, place_);
        try {
            const bool look = how == SqliteOpen::as_it_is;
            database_ = std::make_unique<SQLite::Database>(
                look ? immutable_name(file) : file.string(),
                look ? SQLite::OPEN_READONLY | SQLite::OPEN_URI : SQLite::OPEN_READWRITE, patience_ms);
            // As files from others are to be met (SQLite's "defense against the dark arts").
            sqlite3_db_config(database_->getHandle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
            database_->exec(
                "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA foreign_keys = ON;");
            if (!look) {
                const SQLite::Statement mode = first_row("PRAGMA journal_mode = WAL");
                if (mode.getColumn(0).getString() != "wal")
                    throw InputError(fmt::format(
                        "{}: lies where a store is not safe (no write-ahead log there, as on many network "
                        "drives); choose a disk of this machine, or PostgreSQL for several benches",
                        place_));
                database_->exec("PRAGMA synchronous = FULL;");
            }
        } catch (const SQLite::Exception& error) {
            refuse_sqlite(place_, error);
        }
    }

    Dialect dialect() const override { return Dialect::sqlite; }
    std::string place() const override { return place_; }

    void query(const std::string& sql, const SqlRow& values,
               const std::function<void(const SqlRow&)>& take) override {
        try {
            SQLite::Statement& statement = prepared(sql);
            // Not left in the middle, which would hold the file's lock.
            const struct Reset {
                SQLite::Statement& statement;
                ~Reset() { statement.tryReset(); }
            } reset{statement};
            bind_values(statement, values);
            SqlRow row(static_cast<std::size_t>(statement.getColumnCount()));
            while (statement.executeStep()) {
                for (std::size_t i = 0; i < row.size(); ++i)
                    row[i] = value_of(statement.getColumn(static_cast<int>(i)));
                take(row);
            }
        } catch (const SQLite::Exception& error) {
            refuse_sqlite(place_, error);
        } catch (const std::bad_alloc&) {
            // A damaged length asks for more memory than there is.
            throw DamagedStore(
                fmt::format("{0}: is damaged (a record of impossible length); 'tonemend job rescue {0} "
                            "NEW' saves what can be read",
                            place_));
        }
    }

    void run_script(const std::string& sql) override {
        try {
            database_->exec(sql);
        } catch (const SQLite::Exception& error) {
            refuse_sqlite(place_, error);
        }
    }

    void begin(Access access) override {
        run_script(access == Access::writing ? "BEGIN IMMEDIATE" : "BEGIN");
        // What refers to another record is looked at when all is there.
        if (access == Access::writing) run_script("PRAGMA defer_foreign_keys = ON");
    }
    void commit() override { run_script("COMMIT"); }
    void roll_back() noexcept override { database_->tryExec("ROLLBACK"); }

  private:
    static std::string immutable_name(const std::filesystem::path& file) {
        std::string name = "file:";
        for (const char c : std::filesystem::absolute(file).string()) {
            const bool plain =
                (std::isalnum(static_cast<unsigned char>(c)) != 0) || c == '/' || c == '.' || c == '-';
            name += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
        }
        return name + "?immutable=1";
    }

    SQLite::Statement first_row(const char* sql) {
        SQLite::Statement statement(*database_, sql);
        statement.executeStep();
        return statement;
    }

    SQLite::Statement& prepared(const std::string& sql) {
        auto found = statements_.find(sql);
        if (found == statements_.end()) {
            if (statements_.size() >= most_statements) statements_.clear();
            found = statements_.emplace(sql, std::make_unique<SQLite::Statement>(*database_, sql)).first;
        }
        found->second->clearBindings();
        return *found->second;
    }

    std::string place_;
    std::unique_ptr<SQLite::Database> database_;
    std::map<std::string, std::unique_ptr<SQLite::Statement>> statements_;  // go before the database
};

}  // namespace

std::unique_ptr<Database> open_sqlite(const std::filesystem::path& file, SqliteOpen how) {
    return std::make_unique<SqliteDatabase>(file, how);
}

}  // namespace tonemend
