#include "live/settings_writer.h"

#include <utility>

#include "picture/text_line.h"

namespace tonemend {

SettingsWriter::SettingsWriter(std::filesystem::path path)
    : path_(std::move(path)), thread_([this] { run(); }) {}

SettingsWriter::~SettingsWriter() {
    {
        const std::lock_guard lock(mutex_);
        ending_ = true;
    }
    changed_.notify_all();
    thread_.join();
}

void SettingsWriter::write(const Settings& settings) {
    {
        const std::lock_guard lock(mutex_);
        waiting_ = settings;
    }
    changed_.notify_one();
}

std::string SettingsWriter::take_trouble() {
    const std::lock_guard lock(mutex_);
    return std::exchange(trouble_, "");
}

void SettingsWriter::run() {
    while (true) {
        Settings settings;
        {
            std::unique_lock lock(mutex_);
            changed_.wait(lock, [this] { return waiting_ || ending_; });
            if (!waiting_) return;
            settings = std::move(*waiting_);
            waiting_.reset();
        }
        std::string trouble;
        try {
            save_settings(settings, path_);
        } catch (const std::exception& error) {
            trouble = one_line(error.what(), 300);
        }
        const std::lock_guard lock(mutex_);
        trouble_ = std::move(trouble);
    }
}

}  // namespace tonemend
