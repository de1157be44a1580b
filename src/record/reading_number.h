#pragma once

#include <filesystem>

namespace tonemend {

/// The number before the first dash of a file that belongs to a reading in a job folder (four to six digits);
/// 0 when it is none of ours.
int reading_number(const std::filesystem::path& file);

/// The next reading's number in a job folder, claimed for one program by a file .NNNN.claim that only one can
/// create, and freed with its owner. The number follows the highest of the files NNNN-….json, .png,
/// .frame.tif and .json.undone; one that another program has claimed is passed over.
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
