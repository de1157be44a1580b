#include "record/store/rescue.h"

#include <fmt/format.h>
#include <unistd.h>

#include <fstream>
#include <map>
#include <set>

#include "picture/text_line.h"
#include "picture/write_picture.h"
#include "record/store/file_header.h"
#include "record/store/sha256.h"
#include "record/store/sqlite_database.h"
#include "record/store/store_action.h"
#include "record/store/store_writer.h"
#include "record/store/uid.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

/// A copy of the damaged file and its log to work on, gone with its owner.
class WorkingCopy {
  public:
    explicit WorkingCopy(const fs::path& damaged)
        : folder_(fs::temp_directory_path() / fmt::format("tonemend-rescue-{}", getpid())) {
        std::error_code failure;
        fs::create_directories(folder_, failure);
        fs::permissions(folder_, fs::perms::owner_all, failure);
        fs::copy_file(damaged, file(), fs::copy_options::overwrite_existing, failure);
        if (failure)
            throw InputError(fmt::format("{}: cannot be copied to {} ({})", one_line(damaged.string(), 400),
                                         folder_.string(), failure.message()));
        const fs::path log = fs::path(damaged).concat("-wal");
        std::error_code no_log;
        if (fs::exists(log, no_log))
            fs::copy_file(log, fs::path(file()).concat("-wal"), fs::copy_options::overwrite_existing, no_log);
    }
    ~WorkingCopy() {
        std::error_code ignored;
        fs::remove_all(folder_, ignored);
    }
    WorkingCopy(const WorkingCopy&) = delete;
    WorkingCopy& operator=(const WorkingCopy&) = delete;
    fs::path file() const { return folder_ / "copy.sqlite"; }

  private:
    fs::path folder_;
};

class Rescuer {
  public:
    Rescuer(Database& damaged, StoreWriter& writer, RescueOutcome& outcome)
        : damaged_(damaged), writer_(writer), outcome_(outcome) {}

    void save_table(const Table& table) {
        int lost = 0;
        std::string why;
        const auto take = [&](const SqlRow& row) { save_record(table, row); };
        const std::string columns = fmt::format("rowid, {}", table.column_list());
        // Onwards as far as it goes, then back from the end, then one by one between: damage spoils pages in
        // the middle, and what lies behind them can be reached by number.
        std::int64_t from = 0, to = 0;
        const auto read = [&](const std::string& sql, const SqlRow& values, std::int64_t& reached) {
            try {
                damaged_.query(sql, values, [&](const SqlRow& row) {
                    reached = whole_in(row.at(0));
                    take(row);
                });
                return true;
            } catch (const InputError& error) {
                if (why.empty()) why = error.what();
                return false;
            }
        };
        if (read(fmt::format("SELECT {} FROM {} NOT INDEXED ORDER BY rowid", columns, table.name), {}, from))
            return;
        if (!read(fmt::format("SELECT {} FROM {} NOT INDEXED WHERE rowid > ? ORDER BY rowid DESC", columns,
                              table.name),
                  {from}, to) &&
            to == 0)
            to = from + most_probed;
        for (std::int64_t at = from + 1, silent = 0; at < to && silent < most_silent; ++at) {
            std::int64_t reached = 0;
            if (!read(fmt::format("SELECT {} FROM {} NOT INDEXED WHERE rowid = ?", columns, table.name), {at},
                      reached))
                ++lost;
            silent = reached == 0 ? silent + 1 : 0;
        }
        lose(fmt::format("{}: a part cannot be read ({}); {} saved", table.name, why,
                         seen_[table.name].size()));
    }

    // What refers to a lost record.
    void mend_references() {
        Database& database = *writer_.store().database;
        const auto& tables = store_tables();
        for (auto table = tables.rbegin(); table != tables.rend(); ++table)
            for (const Column& column : table->columns)
                if (!column.refers_to.empty()) mend_column(database, *table, column);
    }

  private:
    static constexpr std::int64_t most_probed = 1000000, most_silent = 5000;

    void lose(const std::string& what) { outcome_.losses.push_back(one_line(what, 400)); }

    void save_record(const Table& table, const SqlRow& with_number) {
        SqlRow row(with_number.begin() + 1, with_number.end());
        const auto* name = std::get_if<std::string>(&row.at(0));
        if (name != nullptr && !seen_[table.name].insert(*name).second) return;
        try {
            if (table.name == "readings" && sha256(text_in(row.at(table.index_of("text")))) !=
                                                text_in(row.at(table.index_of("text_hash"))))
                lose(fmt::format("readings {}: its text is not what was kept, and was taken as it is",
                                 name == nullptr ? "?" : *name));
            writer_.put(table, std::move(row));
            ++outcome_.records;
        } catch (const InputError& error) {
            lose(fmt::format("{} {}: {}", table.name, name == nullptr ? "without a name" : *name,
                             error.what()));
        }
    }

    // A reference that may be left out is; else a record that says so stands in.
    void mend_column(Database& database, const Table& table, const Column& column) {
        const Table& other = store_table(column.refers_to);
        const std::string missing = fmt::format(
            "SELECT DISTINCT t.{0} FROM {1} t LEFT JOIN {2} o ON o.{3} = t.{0} WHERE t.{0} IS NOT NULL AND "
            "o.{3} IS NULL",
            column.name, table.name, other.name, other.columns.front().name);
        const bool needed = other.name == "jobs" || other.name == "pieces" || other.name == "areas";
        for (const SqlRow& row : database.rows(missing)) {
            const std::string lost = text_in(row.at(0));
            lose(fmt::format("{} {}: is lost; {}", other.name, lost,
                             needed ? "one called 'lost' stands in its place"
                                    : fmt::format("{} do without it", table.name)));
            if (needed)
                stand_in(database, other.name, lost);
            else
                database.execute(
                    fmt::format("UPDATE {0} SET {1} = NULL WHERE {1} = ?", table.name, column.name), {lost});
        }
    }

    // A job and a piece for what has lost its own.
    const std::string& home(Database& database) {
        if (home_.empty()) {
            home_ = new_uid();
            add_job(database, home_, "rescued");
            insert_record(database, "pieces",
                          {{"uid", home_}, {"job", home_}, {"name", "rescued"}, {"folded", "rescued"}});
        }
        return home_;
    }

    static void add_job(Database& database, const std::string& uid, const std::string& name) {
        const auto number = database.row("SELECT coalesce(max(number), 0) + 1 FROM jobs")->at(0);
        insert_record(
            database, "jobs",
            {{"uid", uid}, {"number", number}, {"name", name}, {"started", utc_now()}, {"folded", name}});
    }

    void stand_in(Database& database, std::string_view table, const std::string& uid) {
        if (table == "jobs") return add_job(database, uid, "lost");
        if (table == "pieces")
            insert_record(database, "pieces",
                          {{"uid", uid}, {"job", home(database)}, {"name", "lost"}, {"folded", "lost"}});
        else
            insert_record(database, "areas", {{"uid", uid}, {"piece", home(database)}, {"name", "lost"}});
    }

    Database& damaged_;
    StoreWriter& writer_;
    RescueOutcome& outcome_;
    std::map<std::string_view, std::set<std::string>> seen_;
    std::string home_;
};

void save_pictures(const fs::path& damaged, StoreWriter& writer, RescueOutcome& outcome) {
    const auto kept = folder_vault(StoreLocation{damaged, {}}.pictures());
    for (const SqlRow& row : writer.store().database->rows("SELECT hash, kind FROM pictures ORDER BY hash")) {
        const VaultName name{text_in(row.at(0)), text_in(row.at(1))};
        const auto bytes = kept->get(name);
        writer.put_picture(name, bytes);
        if (bytes && sha256(*bytes) == name.hash) ++outcome.pictures;
    }
}

}  // namespace

RescueOutcome rescue_store(const fs::path& damaged, const fs::path& to) {
    std::error_code failure;
    if (!fs::is_regular_file(damaged, failure))
        throw InputError(
            fmt::format("{}: there is no such store; check the name", one_line(damaged.string(), 400)));
    if (fs::exists(to, failure))
        throw InputError(fmt::format("{}: is there already; choose a new name for what is saved",
                                     one_line(to.string(), 400)));
    const WorkingCopy copy(damaged);
    RescueOutcome outcome;
    if (mend_file_header(copy.file()))
        outcome.losses.emplace_back("the file's first bytes were damaged and were mended");
    std::unique_ptr<Database> source;
    try {
        source = open_sqlite(copy.file(), SqliteOpen::existing);
    } catch (const InputError&) {
        throw InputError(
            fmt::format("{}: nothing can be read of it, its tables are not to be found; bring a backup back",
                        one_line(damaged.string(), 400)));
    }
    try {
        OpenStore saved = open_store({to, {}}, StoreUse::keeping);
        StoreWriter writer(saved);
        Rescuer rescuer(*source, writer, outcome);
        for (const Table& table : store_tables()) rescuer.save_table(table);
        rescuer.mend_references();
        save_pictures(damaged, writer, outcome);
        const CopyOutcome copied = writer.commit();
        outcome.losses.insert(outcome.losses.end(), copied.losses.begin(), copied.losses.end());
        if (outcome.records == 0)
            throw InputError(fmt::format("{}: nothing can be read of it{}", one_line(damaged.string(), 400),
                                         outcome.losses.empty() ? "" : " (" + outcome.losses.back() + ")"));
    } catch (...) {
        for (const char* part : {"", "-wal", "-shm"}) fs::remove(fs::path(to).concat(part), failure);
        fs::remove_all(StoreLocation{to, {}}.pictures(), failure);
        throw;
    }
    std::string list;
    for (const std::string& loss : outcome.losses) list += loss + "\n";
    if (list.empty()) list = "nothing was lost\n";
    write_whole_file(fs::path(to).concat(".losses.txt"), std::as_bytes(std::span(list)));
    fs::permissions(fs::path(to).concat(".losses.txt"), fs::perms::owner_read | fs::perms::owner_write,
                    failure);
    return outcome;
}

}  // namespace tonemend
