#include "calibrate/card/cgats.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fstream>
#include <iterator>
#include <memory>
#include <string_view>
#include <type_traits>

#include <fmt/format.h>
#include <lcms2.h>

#include "picture/input_error.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

using Context = std::unique_ptr<std::remove_pointer_t<cmsContext>, decltype(&cmsDeleteContext)>;
using Handle = std::unique_ptr<void, decltype(&cmsIT8Free)>;

void keep_first_error(cmsContext context, cmsUInt32Number, const char* text) {
    auto& kept = *static_cast<std::string*>(cmsGetContextUserData(context));
    std::string_view words = text;
    // A file read from memory has no name: ": Line 10, …".
    if (words.starts_with(": ")) words.remove_prefix(2);
    if (kept.empty()) kept = words;
}

/// A context whose errors land in `error`.
Context make_context(std::string& error) {
    Context context(cmsCreateContext(nullptr, &error), cmsDeleteContext);
    if (!context) throw std::bad_alloc();
    cmsSetLogErrorHandlerTHR(context.get(), keep_first_error);
    return context;
}

std::string read_text(const std::filesystem::path& path) {
    constexpr std::uintmax_t most = 16 << 20;
    std::error_code failure;
    if (!std::filesystem::is_regular_file(path, failure))
        throw InputError(fmt::format("{}: no such file; check the path", path.string()));
    const auto size = std::filesystem::file_size(path, failure);
    if (!failure && size > most)
        throw InputError(fmt::format(
            "{}: {} bytes is too long for a table of patches; give a CGATS text file", path.string(), size));
    std::ifstream file(path, std::ios::binary);
    std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
    if (!file.is_open() || file.bad())
        throw InputError(fmt::format("{}: cannot be read; check that you may read it", path.string()));
    return text;
}

/// What editors and users put before the identifier, which the format wants on the first line: a byte-order
/// mark, blank lines, comments.
std::string without_preamble(const std::string& text) {
    std::size_t start = text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
    while (start < text.size()) {
        const std::size_t word = text.find_first_not_of(" \t\r\n", start);
        if (word == std::string::npos) return {};
        if (text[word] != '#') return text.substr(word);
        start = std::min(text.find_first_of("\r\n", word), text.size());
    }
    return {};
}

/// Little CMS takes the end of the file for the end of the data, and so a file cut short for a whole one.
bool has_end_of_data(const std::string& text) {
    constexpr std::string_view mark = "END_DATA";
    for (std::size_t at = 0; (at = text.find(mark, at)) != std::string::npos; at += mark.size())
        if (text.compare(at + mark.size(), 7, "_FORMAT") != 0) return true;
    return false;
}

std::string cell(cmsHANDLE it8, int row, int column) {
    const char* text = cmsIT8GetDataRowCol(it8, row, column);
    return text ? text : "";
}

int as_int(std::size_t value) {
    return static_cast<int>(value);
}

}  // namespace

std::optional<std::size_t> CgatsTable::find_column(const std::string& name) const {
    const auto found = std::find_if(columns.begin(), columns.end(), [&](const std::string& column_name) {
        return in_small_letters(column_name) == in_small_letters(name);
    });
    if (found == columns.end()) return std::nullopt;
    return static_cast<std::size_t>(found - columns.begin());
}

std::size_t CgatsTable::column(const std::string& name) const {
    if (const auto found = find_column(name)) return *found;
    throw InputError(fmt::format("{}: the column {} is missing; add it to the data format and to every row",
                                 source, name));
}

double CgatsTable::number(std::size_t row, std::size_t column) const {
    const std::string& text = rows.at(row).at(column);
    double value = 0;
    const char* const end = text.data() + text.size();
    const auto result = std::from_chars(text.data(), end, value);
    const bool sound = result.ec == std::errc{} && result.ptr == end && std::isfinite(value);
    // The reader runs such a cell together with a word before it, so it isn't quoted.
    if (!sound && text.find(',') != std::string::npos)
        throw InputError(fmt::format("{}: {} has a comma in {}; write 85.10 with a point, not a comma",
                                     source, row_name(row), one_line(columns.at(column), 40)));
    if (!sound)
        throw InputError(fmt::format("{}: {} has '{}' for {}, which is not a number; write it like 52.3",
                                     source, row_name(row), one_line(text, 40),
                                     one_line(columns.at(column), 40)));
    return value;
}

std::string CgatsTable::row_name(std::size_t row) const {
    for (const char* name : {"SAMPLE_NAME", "SAMPLE_ID"})
        if (const auto at = find_column(name))
            return fmt::format("patch '{}'", one_line(rows.at(row).at(*at), 40));
    return fmt::format("row {}", row + 1);
}

CgatsTable read_cgats(const std::filesystem::path& path) {
    const std::string text = without_preamble(read_text(path));
    std::string error;
    const Context context = make_context(error);
    const Handle it8(text.empty() ? nullptr
                                  : cmsIT8LoadFromMem(context.get(), text.data(),
                                                      static_cast<cmsUInt32Number>(text.size())),
                     cmsIT8Free);
    if (!it8 || !error.empty())
        throw InputError(fmt::format(
            "{}: not a CGATS text table ({}); see calibration/README.md for one to copy", path.string(),
            text.empty()    ? "it is empty"
            : error.empty() ? "no header"
                            : one_line(error)));

    CgatsTable table;
    table.source = path.string();
    if (const char* type = cmsIT8GetSheetType(it8.get())) table.identifier = one_line(type);

    char** names = nullptr;
    const cmsUInt32Number keyword_count = cmsIT8EnumProperties(it8.get(), &names);
    for (cmsUInt32Number i = 0; i < keyword_count; ++i) {
        const char* value = cmsIT8GetProperty(it8.get(), names[i]);
        table.keywords.emplace_back(names[i], value ? value : "");
    }

    const int column_count = cmsIT8EnumDataFormat(it8.get(), &names);
    for (int i = 0; i < column_count; ++i) table.columns.emplace_back(names[i] ? names[i] : "");
    const double row_count = cmsIT8GetPropertyDbl(it8.get(), "NUMBER_OF_SETS");
    for (int row = 0; row < static_cast<int>(row_count); ++row) {
        auto& cells = table.rows.emplace_back();
        for (int column = 0; column < column_count; ++column) cells.push_back(cell(it8.get(), row, column));
    }
    if (table.columns.empty() || !has_end_of_data(text))
        throw InputError(fmt::format(
            "{}: not a whole CGATS text table ({} is missing); see calibration/README.md for one to copy",
            path.string(), table.columns.empty() ? "BEGIN_DATA_FORMAT" : "END_DATA"));
    if (table.rows.empty())
        throw InputError(fmt::format(
            "{}: the table has no rows; put a line for each patch between BEGIN_DATA and END_DATA",
            path.string()));
    return table;
}

std::string cgats_text(const CgatsTable& table) {
    std::string error;
    const Context context = make_context(error);
    const Handle it8(cmsIT8Alloc(context.get()), cmsIT8Free);
    if (!it8) throw std::bad_alloc();
    cmsIT8SetSheetType(it8.get(), table.identifier.empty() ? "CGATS.17" : table.identifier.c_str());
    for (const auto& [name, value] : table.keywords)
        if (!name.starts_with("NUMBER_OF_")) cmsIT8SetPropertyStr(it8.get(), name.c_str(), value.c_str());
    cmsIT8SetPropertyDbl(it8.get(), "NUMBER_OF_FIELDS", static_cast<double>(table.columns.size()));
    cmsIT8SetPropertyDbl(it8.get(), "NUMBER_OF_SETS", static_cast<double>(table.rows.size()));
    for (std::size_t column = 0; column < table.columns.size(); ++column)
        cmsIT8SetDataFormat(it8.get(), as_int(column), table.columns[column].c_str());
    for (std::size_t row = 0; row < table.rows.size(); ++row)
        for (std::size_t column = 0; column < table.columns.size(); ++column)
            cmsIT8SetDataRowCol(it8.get(), as_int(row), as_int(column), table.rows[row].at(column).c_str());

    cmsUInt32Number size = 0;
    cmsIT8SaveToMem(it8.get(), nullptr, &size);
    std::string text(size, '\0');
    if (!error.empty() || size == 0 || !cmsIT8SaveToMem(it8.get(), text.data(), &size))
        throw InputError(fmt::format("a table cannot be written ({})", one_line(error)));
    text.resize(text.find_last_not_of('\0') + 1);
    return text;
}

void write_cgats(const CgatsTable& table, const std::filesystem::path& path) {
    std::ofstream file(path, std::ios::binary);
    if (!(file << cgats_text(table)).flush())
        throw InputError(fmt::format(
            "{}: cannot be written (the file system refused); choose a folder that exists and that you may "
            "write to",
            path.string()));
}

}  // namespace tonemend
