#include "record/export/store_csv.h"

#include <fmt/format.h>

#include "measure/verdict.h"
#include "record/export/whole_stream.h"
#include "record/store/owners_folder.h"
#include "record/store/schema.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

std::string quoted_field(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text) quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + "\"";
}

std::string csv_field(const SqlValue& value) {
    if (const auto* whole = std::get_if<std::int64_t>(&value)) return std::to_string(*whole);
    if (const auto* number = std::get_if<double>(&value)) return fmt::format("{}", *number);
    return quoted_field(text_in(value));
}

void write_line(std::ostream& out, const SqlRow& row) {
    for (std::size_t i = 0; i < row.size(); ++i) out << (i == 0 ? "" : ",") << csv_field(row[i]);
    out << "\r\n";
}

void write_table(OpenStore& from, const Table& table, const fs::path& folder) {
    WholeStream out(folder / fmt::format("{}.csv", table.name));
    SqlRow names;
    for (const Column& column : table.columns) names.emplace_back(std::string(column.name));
    write_line(out.stream(), names);
    from.database->query(table.select_all(), {}, [&](const SqlRow& row) { write_line(out.stream(), row); });
    out.finish();
}

// Spreadsheets run what begins so (OWASP, "CSV injection").
SqlValue for_spreadsheet(const SqlValue& value) {
    const auto* text = std::get_if<std::string>(&value);
    if (text == nullptr || text->empty() ||
        std::string_view("=+-@\t\r").find(text->front()) == std::string_view::npos)
        return value;
    return "'" + *text;
}

void write_overview(OpenStore& from, const fs::path& folder) {
    WholeStream out(folder / "overview.csv");
    SqlRow names;
    for (const char* name :
         {"job",    "job name",    "piece",       "wood",        "area",      "reading",   "role",
          "taken",  "original L*", "original a*", "original b*", "repair L*", "repair a*", "repair b*",
          "dE2000", "u95",         "tolerance",   "unfit",       "light",     "verdict"})
        names.emplace_back(std::string(name));
    write_line(out.stream(), names);
    from.database->query(
        "SELECT j.number, j.name, p.name, p.wood, a.name, r.number, r.role, r.taken, r.original_l, "
        "r.original_a, "
        "r.original_b, r.repair_l, r.repair_a, r.repair_b, r.de2000, r.u95, r.tolerance, r.unfit, l.light "
        "FROM readings r JOIN areas a ON a.uid = r.area JOIN pieces p ON p.uid = a.piece JOIN jobs j ON "
        "j.uid = r.job "
        "LEFT JOIN lights l ON l.hash = r.light WHERE r.undone = '' AND a.undone = '' AND p.undone = '' AND "
        "j.undone = '' ORDER BY j.number, r.number",
        {}, [&](const SqlRow& found) {
            SqlRow row;
            for (const SqlValue& value : found) row.push_back(for_spreadsheet(value));
            row.emplace_back(
                std::string(name(judge(number_in(found[14]), number_in(found[15]), number_in(found[16])))));
            write_line(out.stream(), row);
        });
    out.finish();
}

}  // namespace

void write_store_csv(OpenStore& from, const fs::path& folder) {
    make_owners_folder(folder);
    const Transaction reading(*from.database, Database::Access::reading);
    for (const Table& table : store_tables()) write_table(from, table, folder);
    write_overview(from, folder);
}

}  // namespace tonemend
