#include "record/store/store_action.h"

#include <fmt/format.h>

#include <algorithm>

#include "record/store/schema.h"
#include "record/store/uid.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

const SqlValue& value_named(std::initializer_list<NamedValue> values, std::string_view column) {
    static const SqlValue empty = std::string();
    const auto found =
        std::find_if(values.begin(), values.end(), [&](const NamedValue& v) { return v.column == column; });
    return found == values.end() ? empty : found->value;
}

}  // namespace

void insert_record(Database& database, std::string_view table, std::initializer_list<NamedValue> values,
                   bool or_there) {
    const Table& shape = store_table(table);
    SqlRow row;
    for (const Column& column : shape.columns) row.push_back(value_named(values, column.name));
    database.execute(shape.insert(or_there), row);
}

StoreAction::StoreAction(Database& database, std::string job)
    : database_(database),
      writing_(database, Database::Access::writing),
      job_(std::move(job)),
      action_(new_uid()) {}

void StoreAction::add(std::string_view table, std::initializer_list<NamedValue> values) {
    insert_record(database_, table, values);
    note(table, text_in(value_named(values, "uid")), "undone", "");
}

void StoreAction::set(std::string_view table, const std::string& uid, std::string_view column,
                      const std::string& value) {
    const auto before = database_.row(fmt::format("SELECT {} FROM {} WHERE uid = ?", column, table), {uid});
    if (!before) throw InputError("the store holds no such record any more; look again");
    database_.execute(fmt::format("UPDATE {} SET {} = ? WHERE uid = ?", table, column), {value, uid});
    note(table, uid, column, text_in(before->at(0)));
}

void StoreAction::note(std::string_view table, const std::string& record, std::string_view column,
                       const std::string& before) {
    insert_record(database_, "changes",
                  {{"uid", new_uid()},
                   {"action", action_},
                   {"job", job_},
                   {"made", utc_now()},
                   {"changed_table", std::string(table)},
                   {"record", record},
                   {"changed_column", std::string(column)},
                   {"before", before}});
}

void StoreAction::commit(const std::string& words) {
    database_.execute("UPDATE changes SET words = ? WHERE job = ? AND action = ?", {words, job_, action_});
    writing_.commit();
}

std::string take_back(Database& database, const std::string& job, const std::string& record) {
    Transaction writing(database, Database::Access::writing);
    const auto newest =
        record.empty()
            ? database.row(
                  "SELECT action, words FROM changes WHERE job = ? AND undone = '' ORDER BY uid DESC LIMIT 1",
                  {job})
            : database.row(
                  "SELECT action, words FROM changes WHERE job = ? AND undone = '' AND record = ? AND "
                  "changed_column = 'undone' ORDER BY uid DESC LIMIT 1",
                  {job, record});
    if (!newest) return "";
    const std::string now = utc_now();
    for (const SqlRow& change :
         database.rows("SELECT changed_table, record, changed_column, before FROM changes WHERE "
                       "job = ? AND action = ? ORDER BY uid DESC",
                       {job, newest->at(0)})) {
        const Table& table = store_table(text_in(change.at(0)));
        const std::string& column = text_in(change.at(2));
        (void)table.index_of(column);  // what a damaged store names is not asked for
        // Of `undone` both adding and dropping a record note that it was empty: what was added stands until
        // now, what was dropped stands again.
        const auto held =
            database.row(fmt::format("SELECT {} FROM {} WHERE uid = ?", column, table.name), {change.at(1)});
        const bool added = column == "undone" && held && text_in(held->at(0)).empty();
        const SqlValue value = added ? SqlValue(now) : change.at(3);
        database.execute(fmt::format("UPDATE {} SET {} = ? WHERE uid = ?", table.name, column),
                         {value, change.at(1)});
    }
    database.execute("UPDATE changes SET undone = ? WHERE job = ? AND action = ?", {now, job, newest->at(0)});
    writing.commit();
    return text_in(newest->at(1));
}

}  // namespace tonemend
