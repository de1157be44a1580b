#include "record/store/store_check.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "picture/text_line.h"
#include "record/store/schema.h"
#include "record/store/sha256.h"
#include "record/store/store_rows.h"

namespace tonemend {
namespace {

constexpr std::size_t most_faults = 1000;

class Checker {
  public:
    explicit Checker(OpenStore& store) : store_(store) {}

    StoreCheck check() {
        if (store_.database->dialect() == Database::Dialect::sqlite)
            attempt("the file", [&] { check_structure(); });
        for (const Table& table : store_tables()) {
            attempt(std::string(table.name), [&] { check_records(table); });
            attempt(std::string(table.name), [&] { check_references(table); });
        }
        attempt("pictures", [&] { check_pictures(); });
        return std::move(check_);
    }

  private:
    void fault(const std::string& text) {
        if (check_.faults.size() < most_faults) check_.faults.push_back(one_line(text, 400));
    }

    template <typename Look>
    void attempt(const std::string& what, Look look) {
        try {
            look();
        } catch (const InputError& error) {
            fault(fmt::format("{}: {}", what, error.what()));
        }
    }

    void check_structure() {
        for (const SqlRow& row : store_.database->rows("PRAGMA integrity_check(100)"))
            if (text_in(row.at(0)) != "ok") fault("the file: " + text_in(row.at(0)));
    }

    void check_records(const Table& table) {
        store_.database->query(
            fmt::format("SELECT {} FROM {}", table.column_list(), table.name), {}, [&](const SqlRow& row) {
                ++check_.records;
                attempt(fmt::format("{} {}", table.name, shown_name(row)), [&] { check_record(table, row); });
            });
    }

    static std::string shown_name(const SqlRow& row) {
        const auto* name = std::get_if<std::string>(&row.at(0));
        return name == nullptr ? "without a name" : *name;
    }

    void check_record(const Table& table, const SqlRow& row) {
        read_record(table.name, row);
        if (table.name == "calibrations" && sha256(text_in(row.at(2))) != text_in(row.at(0)))
            fault(fmt::format("calibration {}: its text is not what was kept", shown_name(row)));
        if (table.name != "readings") return;
        const ReadingRecord reading = to_reading(row);
        const std::string& text = text_in(row.at(table.index_of("text")));
        if (sha256(text) != text_in(row.at(table.index_of("text_hash"))))
            fault(fmt::format("reading {} ({}): its text is not what was kept", reading.number, reading.uid));
        else if (!nlohmann::json::accept(text))
            fault(fmt::format("reading {} ({}): its text is no JSON", reading.number, reading.uid));
    }

    void check_references(const Table& table) {
        for (const Column& column : table.columns) {
            if (column.refers_to.empty()) continue;
            const Table& other = store_table(column.refers_to);
            for (const SqlRow& row :
                 store_.database->rows(fmt::format("SELECT t.{0} FROM {1} t LEFT JOIN {2} o ON o.{3} = t.{4} "
                                                   "WHERE t.{4} IS NOT NULL AND o.{3} IS NULL",
                                                   table.columns.front().name, table.name, other.name,
                                                   other.columns.front().name, column.name)))
                fault(fmt::format("{} {}: its {} is missing", table.name, shown_name(row), column.name));
        }
    }

    void check_pictures() {
        for (const SqlRow& row : store_.database->rows("SELECT hash, kind FROM pictures")) {
            ++check_.pictures;
            const VaultName name{text_in(row.at(0)), text_in(row.at(1))};
            const auto bytes = store_.pictures->get(name);
            if (!bytes)
                fault(fmt::format("{}: is missing", store_.pictures->place_of(name)));
            else if (sha256(*bytes) != name.hash)
                fault(fmt::format("{}: is not what was kept", store_.pictures->place_of(name)));
        }
    }

    OpenStore& store_;
    StoreCheck check_;
};

}  // namespace

StoreCheck check_store(OpenStore& store) {
    return Checker(store).check();
}

}  // namespace tonemend
