#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>

#include "record/store/database.h"

namespace tonemend {

struct NamedValue {
    std::string_view column;
    SqlValue value;
};

/// INSERT of one record; columns that are not named become "" (which all that may be left out hold as text).
/// With `or_there` a record of that name that is there already stays as it is.
void insert_record(Database& database, std::string_view table, std::initializer_list<NamedValue> values,
                   bool or_there = false);

/// What a person did to a job: all of it reaches the store or nothing, and one undo takes it back. Only one
/// at a time.
class StoreAction {
  public:
    /// `job`: uid; may be that of a job that this action adds. `words`: "took reading 3".
    StoreAction(Database& database, std::string job);

    /// Adds a record that undo can take back: a table with `uid` and `undone`.
    void add(std::string_view table, std::initializer_list<NamedValue> values);
    /// Sets a text of a record.
    void set(std::string_view table, const std::string& uid, std::string_view column,
             const std::string& value);
    Database& database() { return database_; }
    /// All is on the disk when this returns. `words` are what it was: "reading 3".
    void commit(const std::string& words);

  private:
    void note(std::string_view table, const std::string& record, std::string_view column,
              const std::string& before);

    Database& database_;
    Transaction writing_;
    std::string job_, action_;
};

/// Takes the newest action upon the job back, or, with `record`, the one that added that record. Returns its
/// words; empty: there is none.
std::string take_back(Database& database, const std::string& job, const std::string& record = {});

}  // namespace tonemend
