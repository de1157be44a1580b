#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "record/store/database.h"
#include "record/store/job_types.h"

namespace tonemend {

/// "SELECT every column FROM table WHERE condition".
std::string select_from(std::string_view table, std::string_view condition);

// Rows of select_from as records. Throw InputError when a value is none that the record can have.
Job to_job(const SqlRow& row);
Piece to_piece(const SqlRow& row);
Area to_area(const SqlRow& row);
FinishingStep to_step(const SqlRow& row);
/// Its light stays the key of the table of lights.
ReadingRecord to_reading(const SqlRow& row);
ComparisonRecord to_comparison(const SqlRow& row);

/// Reads a row of any table whose records the ones above are; others are passed over. Throws as they do.
void read_record(std::string_view table, const SqlRow& row);

template <typename Read>
auto read_all(Database& database, std::string_view table, std::string_view condition, const SqlRow& values,
              Read read) {
    std::vector<decltype(read(SqlRow{}))> all;
    database.query(select_from(table, condition), values,
                   [&](const SqlRow& row) { all.push_back(read(row)); });
    return all;
}

}  // namespace tonemend
