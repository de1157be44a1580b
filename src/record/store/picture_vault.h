#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "record/store/database.h"

namespace tonemend {

/// A picture's file, byte for byte, by its content: `hash` is its SHA-256, `kind` its file ending without the
/// dot ("png", "tif").
struct VaultName {
    std::string hash, kind;
};

/// Where a store's pictures are. What is put twice is kept once; nothing is ever deleted. Throws InputError
/// when there is no room or no permission.
class PictureVault {
  public:
    PictureVault() = default;
    virtual ~PictureVault() = default;
    PictureVault(const PictureVault&) = delete;
    PictureVault& operator=(const PictureVault&) = delete;

    /// When this returns, the bytes are on the disk (or will be with the transaction that is open).
    virtual void put(const VaultName& name, std::span<const std::byte> bytes) = 0;
    /// The bytes as they are, not checked against the hash; nothing when there are none.
    virtual std::optional<std::vector<std::byte>> get(const VaultName& name) = 0;
    /// For people, in a sentence about a picture: "FOLDER/ab/ab….png".
    virtual std::string place_of(const VaultName& name) const = 0;
};

/// Files in `folder`, which only its owner can enter: ab/abcdef….png.
std::unique_ptr<PictureVault> folder_vault(const std::filesystem::path& folder);
/// Rows of the table picture_bytes, for a store that several machines share, and for a backup in one file.
/// The database must outlive it.
std::unique_ptr<PictureVault> table_vault(Database& database);

}  // namespace tonemend
