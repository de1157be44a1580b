#pragma once

#include <string>
#include <vector>

#include "record/store/schema.h"
#include "record/store/store_access.h"

namespace tonemend {

/// What became of records that were brought into a store.
struct CopyOutcome {
    int added = 0, there = 0;         ///< records; `there`: of that name already, left as they were
    std::vector<std::string> notes;   ///< numbers that had to change, one line each
    std::vector<std::string> losses;  ///< what could not be brought, one line each
};

/// Brings records from elsewhere into a store: all of them, or, unless commit returns, none. A job or a
/// reading whose number another one has gets the next free one.
class StoreWriter {
  public:
    explicit StoreWriter(OpenStore& to);

    /// `row` as the table's columns are. Throws InputError when it holds what such a record cannot.
    void put(const Table& table, SqlRow row);
    /// A picture's bytes; those that are not what `hash` says, or nothing, are a loss.
    void put_picture(const VaultName& name, const std::optional<std::vector<std::byte>>& bytes);
    void lose(const std::string& what) { outcome_.losses.push_back(what); }
    OpenStore& store() { return *to_; }
    CopyOutcome commit();

  private:
    void give_free_number(const Table& table, SqlRow& row);

    OpenStore* to_;
    Transaction writing_;
    CopyOutcome outcome_;
};

/// Brings all of `from` into `to`, as it is at one moment.
CopyOutcome copy_store(OpenStore& from, OpenStore& to);

}  // namespace tonemend
