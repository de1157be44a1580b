#pragma once

#include <filesystem>

namespace tonemend {

/// Holds the lock of the folder that `file` lies in, as long as it lives; waits while another program has it.
/// The file itself is replaced when it is written, and a lock on it would go with the old one. Throws
/// InputError when the folder cannot be opened.
class FolderLock {
  public:
    explicit FolderLock(const std::filesystem::path& file);
    ~FolderLock();
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;

  private:
    int descriptor_;
};

}  // namespace tonemend
