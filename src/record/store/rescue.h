#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace tonemend {

/// What was saved of a damaged store.
struct RescueOutcome {
    int records = 0, pictures = 0;
    std::vector<std::string>
        losses;  ///< what could not be read, and what had to be put in its place; a line each
};

/// Reads what can be read of a damaged SQLite store and its pictures into a new store `to`, which must not be
/// there. The damaged one is only read. Records whose job, piece or area is lost go to ones that stand in
/// their place, so that nothing readable is left behind. The list of losses is also written beside the new
/// store, as `to`.losses.txt. Throws InputError: no such file, `to` is there or cannot be written, nothing at
/// all can be read.
RescueOutcome rescue_store(const std::filesystem::path& damaged, const std::filesystem::path& to);

}  // namespace tonemend
