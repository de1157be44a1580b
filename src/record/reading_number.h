#pragma once

#include <filesystem>

namespace tonemend {

/// The next reading's number in a job folder, claimed for one program by a file .NNNN.claim that only one can
/// create, and freed with its owner. The number follows the highest of the files NNNN-….json and NNNN-….png
/// (four to six digits); one that another program has claimed is passed over.
class ReadingNumber {
  public:
    /// Throws InputError when `folder` cannot be listed or written, or has no number left.
    explicit ReadingNumber(const std::filesystem::path& folder);
    ~ReadingNumber();
    ReadingNumber(const ReadingNumber&) = delete;
    ReadingNumber& operator=(const ReadingNumber&) = delete;

    int value() const { return value_; }

  private:
    int value_ = 0;
    std::filesystem::path claim_;
};

}  // namespace tonemend
