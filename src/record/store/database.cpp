#include "record/store/database.h"

namespace tonemend {

std::vector<SqlRow> Database::rows(const std::string& sql, const SqlRow& values) {
    std::vector<SqlRow> all;
    query(sql, values, [&](const SqlRow& row) { all.push_back(row); });
    return all;
}

std::optional<SqlRow> Database::row(const std::string& sql, const SqlRow& values) {
    std::optional<SqlRow> first;
    query(sql, values, [&](const SqlRow& row) {
        if (!first) first = row;
    });
    return first;
}

void Database::execute(const std::string& sql, const SqlRow& values) {
    query(sql, values, [](const SqlRow&) {});
}

}  // namespace tonemend
