#include "record/store/store_writer.h"

#include <fmt/format.h>

#include "record/store/sha256.h"
#include "record/store/store_rows.h"

namespace tonemend {
namespace {

// What a record's words and numbers must be, so that whoever lists it later can.
void require_record(const Table& table, const SqlRow& row) {
    read_record(table.name, row);
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const Column& column = table.columns[i];
        if (column.kind == ColumnKind::text) (void)text_in(row.at(i));
        if (column.kind == ColumnKind::whole) (void)whole_in(row.at(i));
        if (column.kind == ColumnKind::number) (void)number_in(row.at(i));
    }
    if (text_in(row.at(0)).empty()) throw InputError("a record without a name of its own");
}

}  // namespace

StoreWriter::StoreWriter(OpenStore& to) : to_(&to), writing_(*to.database, Database::Access::writing) {}

void StoreWriter::give_free_number(const Table& table, SqlRow& row) {
    const bool job = table.name == "jobs";
    const SqlValue& owner = row[table.index_of("uid")];
    SqlValue& number = row[table.index_of("number")];
    const SqlRow within = job ? SqlRow{number} : SqlRow{number, row[table.index_of("job")]};
    const std::string_view same_job = job ? "" : " AND job = ?";
    const auto holder = to_->database->row(
        fmt::format("SELECT uid FROM {} WHERE number = ?{}", table.name, same_job), within);
    if (!holder || holder->at(0) == owner) return;
    const auto free =
        job ? to_->database->row("SELECT max(number) + 1 FROM jobs")
            : to_->database->row("SELECT max(number) + 1 FROM readings WHERE job = ?", {within.at(1)});
    outcome_.notes.push_back(fmt::format("{} {} is {} here, since another has its number",
                                         job ? "job" : "reading", whole_in(number), whole_in(free->at(0))));
    number = free->at(0);
}

void StoreWriter::put(const Table& table, SqlRow row) {
    require_record(table, row);
    Database& database = *to_->database;
    const std::string_view key = table.columns.front().name;
    if (database.row(fmt::format("SELECT 1 FROM {} WHERE {} = ?", table.name, key), {row.at(0)})) {
        ++outcome_.there;
        return;
    }
    if (table.name == "jobs" || table.name == "readings") give_free_number(table, row);
    database.execute(table.insert(), row);
    ++outcome_.added;
}

void StoreWriter::put_picture(const VaultName& name, const std::optional<std::vector<std::byte>>& bytes) {
    if (!bytes)
        lose(fmt::format("picture {} is missing", name.hash));
    else if (sha256(*bytes) != name.hash)
        lose(fmt::format("picture {} is damaged", name.hash));
    else
        to_->pictures->put(name, *bytes);
}

CopyOutcome StoreWriter::commit() {
    writing_.commit();
    return std::move(outcome_);
}

CopyOutcome copy_store(OpenStore& from, OpenStore& to) {
    Transaction reading(*from.database, Database::Access::reading);
    StoreWriter writer(to);
    for (const Table& table : store_tables())
        from.database->query(table.select_all(), {}, [&](const SqlRow& row) { writer.put(table, row); });
    for (const SqlRow& picture : from.database->rows("SELECT hash, kind FROM pictures ORDER BY hash")) {
        const VaultName name{text_in(picture.at(0)), text_in(picture.at(1))};
        writer.put_picture(name, from.pictures->get(name));
    }
    return writer.commit();
}

}  // namespace tonemend
