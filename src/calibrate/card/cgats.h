#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace tonemend {

/// The first table of a CGATS text file (ISO 28178, annex B): rows of named columns under a heading of
/// keywords.
struct CgatsTable {
    std::string source;      ///< the file, for messages
    std::string identifier;  ///< the first line: "CGATS.17" or the maker's own
    std::vector<std::pair<std::string, std::string>> keywords;
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows;  ///< as many texts a row as there are columns

    /// Where `name` is, letter case aside; empty when there is no such column.
    std::optional<std::size_t> find_column(const std::string& name) const;
    /// As find_column. Throws InputError that names the missing column.
    std::size_t column(const std::string& name) const;
    /// The cell as a finite number. Throws InputError for anything else.
    double number(std::size_t row, std::size_t column) const;
    /// The row as people know it: by its SAMPLE_NAME or SAMPLE_ID, else by its number.
    std::string row_name(std::size_t row) const;
};

/// Reads a file of at most 16 MiB. Throws InputError with the reader's own words when it is not CGATS text.
CgatsTable read_cgats(const std::filesystem::path& path);

/// `table` as a file's text, which read_cgats gives back.
std::string cgats_text(const CgatsTable& table);

/// Writes `table` so that read_cgats gives it back. Throws InputError when `path` cannot be written.
void write_cgats(const CgatsTable& table, const std::filesystem::path& path);

}  // namespace tonemend
