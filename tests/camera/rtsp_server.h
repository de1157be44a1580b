#pragma once

#include <sys/types.h>

#include <string>

namespace tonemend::testing {

/// A network camera that speaks RTSP, as a process of its own (rtsp_server.py), so that it can be stopped and
/// killed in the middle of whatever it does.
class RtspServer {
  public:
    /// Listens on any free port. Throws std::runtime_error when GStreamer's server is not installed.
    RtspServer();
    ~RtspServer();
    RtspServer(const RtspServer&) = delete;
    RtspServer& operator=(const RtspServer&) = delete;

    std::string address() const { return "rtsp://127.0.0.1:" + std::to_string(port_) + "/video"; }
    /// Keeps its connections open and neither says nor hears anything on them (SIGSTOP).
    void stall();
    /// Goes on where it was stalled (SIGCONT).
    void go_on();
    /// Dies without a word (SIGKILL).
    void kill();
    /// A new process on the same port.
    void restart();

  private:
    int port_ = 0;
    pid_t process_ = 0;
};

}  // namespace tonemend::testing
