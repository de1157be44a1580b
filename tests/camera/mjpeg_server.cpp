#include "tests/camera/mjpeg_server.h"

#include <arpa/inet.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <stdexcept>

namespace tonemend::testing {

MjpegServer::MjpegServer(std::string jpeg, int frames_per_second)
    : jpeg_(std::move(jpeg)), interval_(1000 / frames_per_second) {
    restart();
}

void MjpegServer::listen_on_port() {
    listener_ = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    const int yes = 1;
    setsockopt(listener_, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    sockaddr_in where{};
    where.sin_family = AF_INET;
    where.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    where.sin_port = htons(static_cast<std::uint16_t>(port_));
    socklen_t size = sizeof where;
    if (bind(listener_, reinterpret_cast<sockaddr*>(&where), size) != 0 || listen(listener_, 8) != 0 ||
        getsockname(listener_, reinterpret_cast<sockaddr*>(&where), &size) != 0)
        throw std::runtime_error("the test's server cannot listen");
    port_ = ntohs(where.sin_port);
}

void MjpegServer::restart() {
    kill();
    listen_on_port();
    dead_ = stalled_ = false;
    thread_ = std::thread([this] { accept_clients(); });
}

void MjpegServer::kill() {
    dead_ = true;
    if (thread_.joinable()) thread_.join();
}

void MjpegServer::accept_clients() {
    std::vector<std::thread> clients;
    while (!dead_) {
        pollfd ready{listener_, POLLIN, 0};
        if (poll(&ready, 1, 10) < 1) continue;
        const int client = accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC);
        if (client >= 0) clients.emplace_back([this, client] { serve(client); });
    }
    close(listener_);
    for (std::thread& client : clients) client.join();
}

void MjpegServer::serve(int client) {
    const auto say = [&](const std::string& text) {
        return send(client, text.data(), text.size(), MSG_NOSIGNAL) == static_cast<ssize_t>(text.size());
    };
    bool open = say("HTTP/1.0 200 OK\r\nContent-Type: multipart/x-mixed-replace; boundary=frame\r\n\r\n");
    const std::string part =
        "--frame\r\nContent-Type: image/jpeg\r\nContent-Length: " + std::to_string(jpeg_.size()) +
        "\r\n\r\n" + jpeg_ + "\r\n";
    while (open && !dead_) {
        std::this_thread::sleep_for(std::chrono::milliseconds(interval_));
        if (!stalled_ && !dead_) open = say(part);
    }
    if (open && !stalled_) say(part.substr(0, part.size() / 2));
    close(client);
}

}  // namespace tonemend::testing
