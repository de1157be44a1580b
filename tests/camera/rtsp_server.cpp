#include "tests/camera/rtsp_server.h"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <stdexcept>

#include "tests/catch.h"

namespace tonemend::testing {

namespace {

// Debian's own interpreter: GStreamer's bindings are installed for it.
constexpr const char* python = "/usr/bin/python3";

// What the process prints first; 0 when it ends without.
int read_number(int pipe_end) {
    std::string text;
    for (char c = 0; read(pipe_end, &c, 1) == 1 && c != '\n';) text += c;
    return text.empty() ? 0 : std::stoi(text);
}

}  // namespace

RtspServer::RtspServer() {
    restart();
}

RtspServer::~RtspServer() {
    kill();
}

void RtspServer::stall() {
    ::kill(process_, SIGSTOP);
}

void RtspServer::go_on() {
    ::kill(process_, SIGCONT);
}

void RtspServer::kill() {
    if (process_ <= 0) return;
    ::kill(process_, SIGKILL);
    waitpid(process_, nullptr, 0);
    process_ = 0;
}

void RtspServer::restart() {
    kill();
    std::array<int, 2> ends{};
    if (pipe2(ends.data(), O_CLOEXEC) != 0) throw std::runtime_error("the test has no pipe to its server");
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
    std::string program = python, script = TONEMEND_SOURCE_DIR "/tests/camera/rtsp_server.py",
                port = std::to_string(port_);
    const std::array<char*, 4> arguments{program.data(), script.data(), port.data(), nullptr};
    const int failed = posix_spawn(&process_, python, &actions, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    close(ends[1]);
    const int port_said = failed == 0 ? read_number(ends[0]) : 0;
    close(ends[0]);
    if (port_said == 0)
        throw std::runtime_error(
            "the test's RTSP server does not start; install the packages of .ci/packages");
    port_ = port_said;
}

}  // namespace tonemend::testing
