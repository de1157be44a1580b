#include "record/export/store_json.h"

#include <fmt/format.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "picture/text_line.h"
#include "record/export/whole_stream.h"
#include "record/store/sha256.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;
using OrderedJson = nlohmann::ordered_json;

constexpr const char* jobs_schema = "tonemend.jobs/1";

fs::path pictures_beside(const fs::path& file) {
    return fs::path(file).concat(".pictures");
}

// Text that is a JSON object stands as one, if that way it comes back as it was.
OrderedJson embed(const std::string& text) {
    auto parsed = OrderedJson::parse(text, nullptr, false);
    if (parsed.is_object() && parsed.dump() == text) return parsed;
    return text;
}

OrderedJson to_row_json(const Table& table, const SqlRow& row) {
    OrderedJson json = OrderedJson::object();
    for (std::size_t i = 0; i < row.size(); ++i) {
        const Column& column = table.columns[i];
        OrderedJson& value = json[std::string(column.name)];
        if (std::holds_alternative<std::monostate>(row[i]))
            value = nullptr;
        else if (column.kind == ColumnKind::whole)
            value = whole_in(row[i]);
        else if (column.kind == ColumnKind::number)
            value = number_in(row[i]);
        else
            value = column.name == "text" ? embed(text_in(row[i])) : OrderedJson(text_in(row[i]));
    }
    return json;
}

SqlValue to_value(const Column& column, const OrderedJson& json) {
    if (json.is_null()) return std::monostate{};
    if (column.kind == ColumnKind::whole && json.is_number_integer()) return json.get<std::int64_t>();
    if (column.kind == ColumnKind::number && json.is_number()) return json.get<double>();
    if (column.kind == ColumnKind::text && json.is_string()) return json.get<std::string>();
    if (column.name == "text" && json.is_object()) return json.dump();
    throw InputError(fmt::format("{} is not what it can be", column.name));
}

SqlRow to_row(const Table& table, const OrderedJson& json) {
    SqlRow row;
    for (const Column& column : table.columns) {
        const auto member = json.find(std::string(column.name));
        if (member == json.end()) throw InputError(fmt::format("{} is missing", column.name));
        row.push_back(to_value(column, *member));
    }
    if (json.size() != table.columns.size())
        throw InputError("holds more than this version of the program knows");
    return row;
}

/// Takes records out of the text as they are read, so that a large one need not fit into memory.
class RecordReader {
  public:
    explicit RecordReader(StoreWriter& writer) : writer_(writer) {}

    bool take(int depth, OrderedJson::parse_event_t event, OrderedJson& parsed) {
        using Event = OrderedJson::parse_event_t;
        if (event == Event::key && depth == 1) {
            table_ = parsed.get<std::string>();
            records_ = 0;
        }
        if (event != Event::object_end || depth != 2) return true;
        ++records_;
        try {
            const Table& table = known(table_);
            SqlRow row = to_row(table, parsed);
            if (table.name == "pictures") pictures_.push_back({text_in(row.at(0)), text_in(row.at(2))});
            writer_.put(table, std::move(row));
        } catch (const InputError& error) {
            throw InputError(fmt::format("{}, record {}: {}", one_line(table_, 40), records_, error.what()));
        }
        return false;
    }

    const std::vector<VaultName>& pictures() const { return pictures_; }

  private:
    static const Table& known(const std::string& name) {
        for (const Table& table : store_tables())
            if (table.name == name) return table;
        throw InputError("there are no such records");
    }

    StoreWriter& writer_;
    std::string table_;
    int records_ = 0;
    std::vector<VaultName> pictures_;
};

}  // namespace

std::vector<std::string> write_store_json(OpenStore& from, const fs::path& file, WithPictures pictures) {
    const Transaction reading(*from.database, Database::Access::reading);
    WholeStream out(file);
    out.stream() << fmt::format("{{\n\"schema\": \"{}\"", jobs_schema);
    for (const Table& table : store_tables()) {
        out.stream() << fmt::format(",\n\"{}\": [", table.name);
        bool first = true;
        from.database->query(table.select_all(), {}, [&](const SqlRow& row) {
            out.stream()
                << (first ? "\n" : ",\n")
                << to_row_json(table, row).dump(-1, ' ', false, OrderedJson::error_handler_t::replace);
            first = false;
        });
        out.stream() << (first ? "]" : "\n]");
    }
    out.stream() << "\n}\n";
    std::vector<std::string> losses;
    if (pictures == WithPictures::yes) {
        const auto beside = folder_vault(pictures_beside(file));
        for (const SqlRow& row : from.database->rows("SELECT hash, kind FROM pictures ORDER BY hash")) {
            const VaultName name{text_in(row.at(0)), text_in(row.at(1))};
            const auto bytes = from.pictures->get(name);
            if (bytes && sha256(*bytes) == name.hash)
                beside->put(name, *bytes);
            else
                losses.push_back(fmt::format("picture {} is {}", name.hash, bytes ? "damaged" : "missing"));
        }
    }
    out.finish();
    return losses;
}

CopyOutcome read_store_json(const fs::path& file, OpenStore& to) {
    const std::string shown = one_line(file.string(), 400);
    std::ifstream in(file, std::ios::binary);
    if (!in) throw InputError(fmt::format("{}: cannot be read; check the name", shown));
    StoreWriter writer(to);
    RecordReader reader(writer);
    try {
        const OrderedJson rest =
            OrderedJson::parse(in, [&](int depth, OrderedJson::parse_event_t event, OrderedJson& parsed) {
                return reader.take(depth, event, parsed);
            });
        const std::string schema = rest.is_object() ? rest.value("schema", "") : "";
        if (schema != jobs_schema && schema.starts_with("tonemend.jobs/"))
            throw InputError("was written by a newer version of this program; update the program");
        if (schema != jobs_schema)
            throw InputError("is no export of jobs ('tonemend job export FILE.json' writes one)");
    } catch (const OrderedJson::exception& error) {
        throw InputError(
            fmt::format("{}: is damaged ({}); bring it back from a copy", shown, one_line(error.what())));
    } catch (const InputError& error) {
        throw InputError(fmt::format("{}: {}", shown, error.what()));
    }
    const auto beside = folder_vault(pictures_beside(file));
    for (const VaultName& name : reader.pictures()) writer.put_picture(name, beside->get(name));
    return writer.commit();
}

}  // namespace tonemend
