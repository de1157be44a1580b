#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "measure/finish_on.h"

namespace tonemend {

/// A pair as it is kept: which wood and finish, and when it was read.
struct KeptFinishPair {
    std::string wood, finish;  ///< as the user names them; compared without regard to case
    FinishLook look = FinishLook::finished;
    FinishPair pair;
    std::string read;  ///< UTC, ISO 8601
};

/// $XDG_DATA_HOME/tonemend/finish-pairs.json, or the same below ~/.local/share.
std::filesystem::path finish_pairs_path();

/// What the file holds, schema "tonemend.finish-pairs/1"; nothing when there is no file. Throws InputError:
/// it is not such a file, or a value in it is out of range (which, and where).
std::vector<KeptFinishPair> read_finish_pairs(const std::filesystem::path& path);

/// Adds one; the file is replaced whole, its folder is made. Throws InputError: see read_finish_pairs; cannot
/// be written; it holds 10,000 already.
void add_finish_pair(const std::filesystem::path& path, const KeptFinishPair& pair);

/// The pairs of one wood, finish and look.
std::vector<FinishPair> choose_pairs(const std::vector<KeptFinishPair>& pairs, const std::string& wood,
                                     const std::string& finish, FinishLook look);

}  // namespace tonemend
