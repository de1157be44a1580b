#include "calibrate/model/reference_spectra.h"

#include <fmt/format.h>
#include <lcms2.h>

#include <charconv>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <memory>
#include <sstream>

#include "picture/input_error.h"

namespace tonemend {
namespace {

constexpr const char* cure = "install the package colord-data";

std::vector<std::filesystem::path> list_folders() {
    if (const char* folder = std::getenv("TONEMEND_COLORD_DATA"); folder && *folder) {
        return {folder};
    }
    std::vector<std::filesystem::path> folders;
    if (const char* dirs = std::getenv("XDG_DATA_DIRS"); dirs) {
        std::istringstream parts(dirs);
        for (std::string part; std::getline(parts, part, ':');) {
            if (!part.empty()) {
                folders.push_back(std::filesystem::path(part) / "colord");
            }
        }
    }
    folders.emplace_back("/usr/share/colord");
    return folders;
}

std::string find_file(const std::string& relative) {
    const std::vector<std::filesystem::path> folders = list_folders();
    for (const std::filesystem::path& folder : folders) {
        std::error_code ignored;
        if (std::filesystem::is_regular_file(folder / relative, ignored)) {
            return (folder / relative).string();
        }
    }
    throw InputError(
        fmt::format("{}: no such CIE table; {}, or set TONEMEND_COLORD_DATA to the folder that has it",
                    (folders.front() / relative).string(), cure));
}

struct CloseContext {
    void operator()(cmsContext context) const { cmsDeleteContext(context); }
};
struct CloseTable {
    void operator()(void* table) const { cmsIT8Free(table); }
};

// One CGATS file and the reader's own words about what is wrong with it.
class Table {
  public:
    explicit Table(const std::string& path) : path_(path), context_(cmsCreateContext(nullptr, &complaint_)) {
        if (context_) {
            cmsSetLogErrorHandlerTHR(
                context_.get(), [](cmsContext context, cmsUInt32Number, const char* text) {
                    auto& complaint = *static_cast<std::string*>(cmsGetContextUserData(context));
                    complaint = complaint.empty() ? text : complaint;
                });
            table_.reset(cmsIT8LoadFromFile(context_.get(), path.c_str()));
        }
        if (!table_) {
            fail(complaint_.empty() ? "not CGATS text" : tidy(complaint_));
        }
    }

    /// The rows' spectra, at least `rows` of them.
    std::vector<Spectrum> read_spectra(int rows) const {
        const double start = property("SPECTRAL_START_NM");
        const double end = property("SPECTRAL_END_NM");
        const double bands = property("SPECTRAL_BANDS");
        if (!(start > 0 && end > start && bands >= 2 && bands <= 10000 && bands == std::floor(bands))) {
            fail("SPECTRAL_START_NM, SPECTRAL_END_NM and SPECTRAL_BANDS make no grid");
        }
        if (property("NUMBER_OF_SETS") < rows) {
            fail(fmt::format("fewer than {} spectra", rows));
        }
        // The spectral columns are the last ones; a name may stand before them.
        const int count = static_cast<int>(bands);
        const int first = static_cast<int>(property("NUMBER_OF_FIELDS")) - count;
        if (first < 0) {
            fail("fewer columns than SPECTRAL_BANDS");
        }
        std::vector<Spectrum> spectra;
        for (int row = 0; row < rows; ++row) {
            Spectrum spectrum{start, (end - start) / (count - 1), {}};
            for (int band = 0; band < count; ++band) {
                spectrum.values.push_back(number(row, first + band));
            }
            spectra.push_back(std::move(spectrum));
        }
        return spectra;
    }

  private:
    [[noreturn]] void fail(const std::string& what) const {
        throw InputError(fmt::format("{}: {}; {} again", path_, what, cure));
    }

    // The reader's message without the path that it may begin with and the line end that it may close with.
    std::string tidy(std::string text) const {
        if (text.starts_with(path_ + ": ")) {
            text.erase(0, path_.size() + 2);
        }
        return text.substr(0, text.find_last_not_of(" \r\n") + 1);
    }

    double property(const char* name) const { return parse(cmsIT8GetProperty(table_.get(), name), name); }

    double number(int row, int column) const {
        return parse(cmsIT8GetDataRowCol(table_.get(), row, column), "a spectrum");
    }

    // The reader's own conversion takes what is no number for 0.
    double parse(const char* text, const char* what) const {
        double value = 0;
        if (text) {
            const char* end = text + std::strlen(text);
            const auto [stop, error] = std::from_chars(text, end, value);
            if (error == std::errc{} && stop == end && std::isfinite(value)) {
                return value;
            }
        }
        fail(fmt::format("{} is missing or no number", what));
    }

    std::string path_;
    std::string complaint_;
    std::unique_ptr<std::remove_pointer_t<cmsContext>, CloseContext> context_;
    std::unique_ptr<void, CloseTable> table_;
};

}  // namespace

Spectrum read_illuminant(const std::string& name) {
    if (name.empty() || name.find_first_of("/\\") != std::string::npos) {
        throw InputError(
            fmt::format("illuminant '{}': not a name; give one like CIE-D65, CIE-A or CIE-F11", name));
    }
    return Table(find_file("illuminant/" + name + ".sp")).read_spectra(1).front();
}

Observer read_observer_1931() {
    std::vector<Spectrum> rows = Table(find_file("cmf/CIE1931-2deg-XYZ.cmf")).read_spectra(3);
    return {std::move(rows[0]), std::move(rows[1]), std::move(rows[2])};
}

std::vector<Spectrum> read_test_colour_samples() {
    return Table(find_file("ref/CIE-TCS.sp")).read_spectra(14);
}

DaylightComponents read_daylight_components() {
    std::vector<Spectrum> rows = Table(find_file("ref/CIE-1986-daylight-SPD.cmf")).read_spectra(3);
    return {std::move(rows[0]), std::move(rows[1]), std::move(rows[2])};
}

}  // namespace tonemend
