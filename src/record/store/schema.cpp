#include "record/store/schema.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace tonemend {

std::string Table::column_list() const {
    std::string list;
    for (const Column& column : columns) list.append(list.empty() ? "" : ", ").append(column.name);
    return list;
}

std::string Table::select_all() const {
    return fmt::format("SELECT {} FROM {} ORDER BY {}", column_list(), name, columns.front().name);
}

std::string Table::insert(bool or_there) const {
    std::string places;
    for (std::size_t i = 0; i < columns.size(); ++i) places += i == 0 ? "?" : ", ?";
    return fmt::format("INSERT INTO {} ({}) VALUES ({}){}", name, column_list(), places,
                       or_there ? " ON CONFLICT DO NOTHING" : "");
}

std::size_t Table::index_of(std::string_view column) const {
    for (std::size_t i = 0; i < columns.size(); ++i)
        if (columns[i].name == column) return i;
    throw std::logic_error("no such column");
}

const std::vector<Table>& store_tables() {
    using enum ColumnKind;
    static const std::vector<Table> tables{
        {"jobs",
         {{"uid"},
          {"number", whole},
          {"name"},
          {"client"},
          {"note"},
          {"started"},
          {"closed"},
          {"folded"},
          {"undone"}}},
        {"pieces",
         {{"uid"},
          {"job", text, "jobs"},
          {"name"},
          {"wood"},
          {"note"},
          {"folded"},
          {"folded_wood"},
          {"undone"}}},
        {"areas", {{"uid"}, {"piece", text, "pieces"}, {"name"}, {"note"}, {"undone"}}},
        {"lights", {{"hash"}, {"name"}, {"light"}, {"kelvin", number}}},
        {"calibrations", {{"hash"}, {"kind"}, {"text"}}},
        {"pictures", {{"hash"}, {"bytes", whole}, {"kind"}, {"width", whole}, {"height", whole}}},
        {"kits", {{"uid"}, {"name"}, {"text"}, {"undone"}}},
        {"boards",
         {{"uid"}, {"kit", text, "kits"}, {"name"}, {"wood"}, {"grit", whole}, {"text"}, {"undone"}}},
        {"steps",
         {{"uid"},
          {"area", text, "areas"},
          {"place", whole},
          {"kind"},
          {"colourant"},
          {"carrier"},
          {"dilution"},
          {"coats", whole},
          {"grit", whole},
          {"wait_minutes", number},
          {"note"},
          {"done"},
          {"folded"},
          {"undone"}}},
        {"readings",
         {{"uid"},
          {"job", text, "jobs"},
          {"area", text, "areas"},
          {"number", whole},
          {"role"},
          {"taken"},
          {"picture"},
          {"original_l", number},
          {"original_a", number},
          {"original_b", number},
          {"repair_l", number},
          {"repair_a", number},
          {"repair_b", number},
          {"de2000", number},
          {"u95", number},
          {"tolerance", number},
          {"unfit", whole},
          {"light", text, "lights"},
          {"software"},
          {"annotated", text, "pictures"},
          {"source", text, "pictures"},
          {"calibration", text, "calibrations"},
          {"flat_field", text, "calibrations"},
          {"undone"},
          {"text_hash"},
          {"text"}}},
        {"comparisons",
         {{"uid"},
          {"area", text, "areas"},
          {"kind"},
          {"first", text, "readings"},
          {"second", text, "readings"},
          {"made"},
          {"undone"},
          {"text"}}},
        {"changes",
         {{"uid"},
          {"action"},
          {"job", text, "jobs"},
          {"made"},
          {"words"},
          {"changed_table"},
          {"record"},
          {"changed_column"},
          {"before"},
          {"undone"}}}};
    return tables;
}

const Table& store_table(std::string_view name) {
    const auto& tables = store_tables();
    const auto found =
        std::find_if(tables.begin(), tables.end(), [&](const Table& t) { return t.name == name; });
    if (found == tables.end()) throw std::logic_error("no such table");
    return *found;
}

}  // namespace tonemend
