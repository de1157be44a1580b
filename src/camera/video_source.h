#pragma once

#include <memory>
#include <string>

#include "camera/source.h"

namespace tonemend {

enum class VideoKind { device, stream, file };

/// A video device (V4L2), a network stream (MJPEG over HTTP, RTSP) or a video file, through the plug-in
/// library. 8-bit frames with live_video_encoding(). A file repeats from its start and plays at its own
/// speed. After a failure next() opens it anew.
class VideoSource : public Source {
  public:
    /// `where` is a device node, an address or a file. `timeout`: the longest silence of a device or stream,
    /// while opening or reading, before it counts as gone. Nothing is opened yet.
    VideoSource(VideoKind kind, std::string where,
                std::chrono::milliseconds timeout = std::chrono::seconds(2));
    ~VideoSource() override;

    std::string name() const override { return name_; }
    std::shared_ptr<const Frame> next(std::chrono::milliseconds patience) override;
    /// May take two seconds while the camera is silent.
    std::vector<ControlOutcome> lock_controls() override;
    bool live() const override { return true; }

  private:
    struct Opened;
    void open();
    [[noreturn]] void give_up(const std::string& trouble);

    VideoKind kind_;
    std::string where_;
    std::string name_;
    std::chrono::milliseconds timeout_;
    ColourEncoding encoding_;
    std::unique_ptr<Opened> opened_;
    bool hold_ = false;   ///< controls are to be held, after each opening anew
    bool fresh_ = false;  ///< opened, and no frame yet
    std::chrono::steady_clock::time_point last_heard_;
};

}  // namespace tonemend
