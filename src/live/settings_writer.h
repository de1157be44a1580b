#pragma once

#include <condition_variable>
#include <filesystem>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "live/settings.h"

namespace tonemend {

/// Writes the settings in a thread of its own, so that a slow disk holds nobody up; of several that wait the
/// newest is written. What was given is written before it goes away.
class SettingsWriter {
  public:
    explicit SettingsWriter(std::filesystem::path path);
    ~SettingsWriter();
    SettingsWriter(const SettingsWriter&) = delete;
    SettingsWriter& operator=(const SettingsWriter&) = delete;

    /// Returns at once.
    void write(const Settings& settings);
    /// One line when the last could not be written, once; empty else.
    std::string take_trouble();

  private:
    void run();

    const std::filesystem::path path_;
    std::mutex mutex_;
    std::condition_variable changed_;
    std::optional<Settings> waiting_;  // all below: under mutex_
    std::string trouble_;
    bool ending_ = false;
    std::thread thread_;
};

}  // namespace tonemend
