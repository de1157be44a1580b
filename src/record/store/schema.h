#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace tonemend {

enum class ColumnKind { text, whole, number };

struct Column {
    std::string_view name;
    ColumnKind kind = ColumnKind::text;
    std::string_view refers_to = {};  ///< table whose first column this names, when it is not empty
};

/// A table of the store; its first column names a record in every store that it is copied to.
struct Table {
    std::string_view name;
    std::vector<Column> columns;

    /// "uid, name, …".
    std::string column_list() const;
    /// SELECT of every column, in the order of the first.
    std::string select_all() const;
    /// INSERT of every column; with `or_there`, a record of that name that is there already stays as it is.
    std::string insert(bool or_there = false) const;
    /// Where the column stands. Throws std::logic_error when there is none of that name.
    std::size_t index_of(std::string_view column) const;
};

/// The tables as this program knows them, each after those that it refers to. Not among them: `store_info`,
/// which is each store's own, and `picture_bytes`, where a store that has no folder keeps its pictures.
const std::vector<Table>& store_tables();
/// The one of that name. Throws std::logic_error.
const Table& store_table(std::string_view name);

/// What makes version 1 in an empty database; `{text}` and `{bytes}` stand for the dialect's own types.
extern const char* const schema_version_1;

}  // namespace tonemend
