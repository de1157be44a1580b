#include <fcntl.h>
#include <unistd.h>

#include <fstream>

#include "picture/text_line.h"
#include "picture/write_picture.h"
#include "record/store/owners_folder.h"
#include "record/store/picture_vault.h"
#include "record/store/sha256.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

// A new name in a folder is safe from a power cut only when the folder itself has reached the disk.
void sync_folder(const fs::path& folder) {
    const int descriptor = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) return;
    (void)fsync(descriptor);
    close(descriptor);
}

class FolderVault : public PictureVault {
  public:
    explicit FolderVault(fs::path folder) : folder_(std::move(folder)) {}

    void put(const VaultName& name, std::span<const std::byte> bytes) override {
        // Written again when it is there and damaged.
        if (const auto there = get(name); there && sha256(*there) == name.hash) return;
        make_owners_folder(folder_);
        const fs::path file = file_of(name);
        make_owners_folder(file.parent_path());
        write_whole_file(file, bytes);
        sync_folder(file.parent_path());
        sync_folder(folder_);
    }

    std::optional<std::vector<std::byte>> get(const VaultName& name) override {
        std::ifstream in(file_of(name), std::ios::binary);
        if (!in) return std::nullopt;
        in.seekg(0, std::ios::end);
        const auto size = in.tellg();
        if (size < 0) return std::nullopt;
        std::vector<std::byte> bytes(static_cast<std::size_t>(size));
        in.seekg(0);
        in.read(reinterpret_cast<char*>(bytes.data()), size);
        if (!in) return std::nullopt;
        return bytes;
    }

    std::string place_of(const VaultName& name) const override {
        return one_line(file_of(name).string(), 400);
    }

  private:
    fs::path file_of(const VaultName& name) const {
        // What a damaged record holds leads nowhere else.
        if (!is_sha256(name.hash) ||
            name.kind.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789") != std::string::npos)
            return folder_ / "no-such-picture";
        return folder_ / name.hash.substr(0, 2) / (name.hash + "." + name.kind);
    }

    fs::path folder_;
};

}  // namespace

std::unique_ptr<PictureVault> folder_vault(const fs::path& folder) {
    return std::make_unique<FolderVault>(folder);
}

}  // namespace tonemend
