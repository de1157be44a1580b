#include <fmt/format.h>

#include "record/store/picture_vault.h"

namespace tonemend {
namespace {

class TableVault : public PictureVault {
  public:
    explicit TableVault(Database& database) : database_(&database) {}

    void put(const VaultName& name, std::span<const std::byte> bytes) override {
        database_->execute(
            "INSERT INTO picture_bytes (hash, bytes) VALUES (?, ?) ON CONFLICT (hash) DO UPDATE SET bytes = "
            "excluded.bytes",
            {name.hash, SqlBytes(bytes.begin(), bytes.end())});
    }

    std::optional<std::vector<std::byte>> get(const VaultName& name) override {
        const auto row = database_->row("SELECT bytes FROM picture_bytes WHERE hash = ?", {name.hash});
        if (!row) return std::nullopt;
        if (const auto* bytes = std::get_if<SqlBytes>(&row->at(0))) return *bytes;
        return std::nullopt;
    }

    std::string place_of(const VaultName& name) const override {
        return fmt::format("{}: picture {}", database_->place(), name.hash);
    }

  private:
    Database* database_;
};

}  // namespace

std::unique_ptr<PictureVault> table_vault(Database& database) {
    return std::make_unique<TableVault>(database);
}

}  // namespace tonemend
