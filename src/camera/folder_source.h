#pragma once

#include <optional>

#include "camera/source.h"
#include "camera/steady_file.h"

namespace tonemend {

/// True for a name that ends as stills do, raw included, and is no hidden or temporary file.
bool has_still_name(const std::filesystem::path& path);

/// A folder that a tethered camera or a phone's copying program saves into: the newest still, raw included,
/// once it is complete. Looked at every 50 ms, so shared network folders work too; its list of files is read
/// anew when the folder's time changes and every second. Folders inside it are not looked into.
class FolderSource : public Source {
  public:
    explicit FolderSource(std::filesystem::path folder) : folder_(std::move(folder)) {}

    std::string name() const override { return "folder " + folder_.string(); }
    /// Decoding is not interrupted by `patience`. Throws InputError: no such folder, no still in it, the
    /// newest is damaged.
    std::shared_ptr<const Frame> next(std::chrono::milliseconds patience) override;
    bool live() const override { return false; }

  private:
    void find_newest();
    std::shared_ptr<const Frame> poll();

    std::filesystem::path folder_;
    std::filesystem::file_time_type folder_time_;
    std::chrono::steady_clock::time_point listed_;
    std::optional<SteadyFile> newest_;
};

}  // namespace tonemend
