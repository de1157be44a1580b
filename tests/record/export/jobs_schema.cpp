// The schema that other programs read an export by says what the store writes: the same tables, the same
// columns, none more. What its words mean: JSON Schema 2020-12, from memory; the contract is this program's
// own. tests/cli/job_commands.cpp holds an export against it with another's validator.
#include <fmt/format.h>

#include <algorithm>

#include <nlohmann/json.hpp>
#include <set>

#include "record/store/job_store.h"
#include "record/store/schema.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;
using Json = nlohmann::json;

namespace {

std::set<std::string> names_of_members(const Json& object) {
    std::set<std::string> names;
    for (const auto& [name, member] : object.items()) names.insert(name);
    return names;
}

/// "string", "integer" or "number", which JSON Schema calls a member's type.
std::string type_for(ColumnKind kind) {
    if (kind == ColumnKind::whole) return "integer";
    return kind == ColumnKind::number ? "number" : "string";
}

bool allows_type(const Json& member, const std::string& type) {
    const Json& types = member.at("type");
    return types.is_array() ? std::find(types.begin(), types.end(), type) != types.end() : types == type;
}

/// As the database itself says (SQLite, PRAGMA table_info: name, type, notnull, default, pk behind a number).
bool may_be_null(Database& database, const Table& table, const Column& column) {
    for (const SqlRow& row : database.rows(fmt::format("PRAGMA table_info({})", table.name)))
        if (text_in(row.at(1)) == column.name) return whole_in(row.at(3)) == 0 && whole_in(row.at(5)) == 0;
    FAIL("the database has no such column");
    return false;
}

}  // namespace

TEST_CASE("The schema of the JSON export has the tables and columns of the store, and no others") {
    const Json schema = Json::parse(content_of(TONEMEND_SOURCE_DIR "/src/record/export/jobs.schema.json"));
    CHECK(schema["$schema"] == "https://json-schema.org/draft/2020-12/schema");
    CHECK(schema["additionalProperties"] == false);
    const ScratchFolder folder;
    JobStore store({folder / "jobs.sqlite", {}}, StoreUse::keeping);
    std::set<std::string> tables{"schema"};
    for (const Table& table : store_tables()) tables.emplace(table.name);
    CHECK(names_of_members(schema["properties"]) == tables);
    CHECK(schema["required"].get<std::set<std::string>>() == tables);
    for (const Table& table : store_tables()) {
        INFO(table.name);
        const Json& list = schema["properties"].at(std::string(table.name));
        CHECK(list["type"] == "array");
        CHECK_FALSE(list["description"].get<std::string>().empty());
        const Json& record = list.at("items");
        CHECK(record["additionalProperties"] == false);
        std::set<std::string> columns;
        for (const Column& column : table.columns) columns.emplace(column.name);
        CHECK(names_of_members(record["properties"]) == columns);
        CHECK(record["required"].get<std::set<std::string>>() == columns);
        for (const Column& column : table.columns) {
            INFO(column.name);
            const Json& member = record["properties"].at(std::string(column.name));
            CHECK(allows_type(member, type_for(column.kind)));
            CHECK_FALSE(member.value("description", "").empty());
            CHECK(allows_type(member, "null") == may_be_null(*store.parts().database, table, column));
            if (!column.refers_to.empty())
                CHECK_THAT(member.value("description", ""), contains(std::string(column.refers_to)));
        }
    }
}
