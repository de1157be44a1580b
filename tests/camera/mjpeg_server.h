#pragma once

#include <atomic>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

namespace tonemend::testing {

/// A network camera of the test's own: JPEG pictures over HTTP as multipart/x-mixed-replace, on the local
/// machine alone.
class MjpegServer {
  public:
    /// Listens on any free port.
    explicit MjpegServer(std::string jpeg, int frames_per_second = 30);
    ~MjpegServer() { kill(); }
    MjpegServer(const MjpegServer&) = delete;
    MjpegServer& operator=(const MjpegServer&) = delete;

    std::string address() const { return "http://127.0.0.1:" + std::to_string(port_) + "/video"; }
    /// Keeps its connections open and says nothing on them.
    void stall() { stalled_ = true; }
    /// Drops its connections in the middle of a picture and listens no more.
    void kill();
    /// Listens again, on the same port.
    void restart();

  private:
    void listen_on_port();
    void accept_clients();
    void serve(int client);

    const std::string jpeg_;
    const int interval_;  // milliseconds
    int port_ = 0;
    int listener_ = -1;
    std::atomic<bool> stalled_ = false, dead_ = true;
    std::thread thread_;
};

}  // namespace tonemend::testing
