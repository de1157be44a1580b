// The property that "ICC Profiles in X Specification" 0.4 (freedesktop.org) names, on a server of the test's
// own.
#include <csignal>
#include <cstdlib>
#include <string>

#include <sys/wait.h>
#include <unistd.h>
#include <xcb/xcb.h>

#include "live/display_profile.h"
#include "picture/srgb_profile.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

/// Xvfb on a display number that it chooses itself.
class XServer {
  public:
    XServer() {
        int ends[2] = {-1, -1};
        REQUIRE(pipe(ends) == 0);
        process_ = fork();
        if (process_ == 0) {
            const std::string out = std::to_string(ends[1]);
            close(ends[0]);
            execlp("Xvfb", "Xvfb", "-displayfd", out.c_str(), "-screen", "0", "64x64x24", "-nolisten", "tcp",
                   "-noreset", static_cast<char*>(nullptr));
            _exit(127);
        }
        close(ends[1]);
        for (char digit = 0; read(ends[0], &digit, 1) == 1 && digit != '\n';) name_ += digit;
        close(ends[0]);
        name_ = ":" + name_;
    }
    ~XServer() {
        kill(process_, SIGTERM);
        waitpid(process_, nullptr, 0);
    }
    XServer(const XServer&) = delete;
    XServer& operator=(const XServer&) = delete;
    const std::string& name() const { return name_; }

  private:
    pid_t process_ = -1;
    std::string name_;
};

void set_property(const std::string& display, const std::string& property,
                  const std::vector<std::uint8_t>& bytes) {
    xcb_connection_t* connection = xcb_connect(display.c_str(), nullptr);
    REQUIRE(xcb_connection_has_error(connection) == 0);
    xcb_intern_atom_reply_t* atom = xcb_intern_atom_reply(
        connection,
        xcb_intern_atom(connection, 0, static_cast<std::uint16_t>(property.size()), property.c_str()),
        nullptr);
    REQUIRE(atom != nullptr);
    const xcb_window_t root = xcb_setup_roots_iterator(xcb_get_setup(connection)).data->root;
    xcb_generic_error_t* error = xcb_request_check(
        connection,
        xcb_change_property_checked(connection, XCB_PROP_MODE_REPLACE, root, atom->atom, XCB_ATOM_CARDINAL, 8,
                                    static_cast<std::uint32_t>(bytes.size()), bytes.data()));
    CHECK(error == nullptr);
    std::free(error);
    std::free(atom);
    xcb_disconnect(connection);
}

}  // namespace

TEST_CASE(
    "The profile that the desktop sets on the X server is read back byte for byte, monitor by monitor") {
    const XServer server;
    REQUIRE(server.name() != ":");  // Xvfb is missing
    CHECK_FALSE(read_x11_profile(0, server.name()).has_value());

    const std::vector<std::uint8_t> profile = srgb_profile();
    std::vector<std::uint8_t> large(2'000'000);  // profiles with large tables come in more than one packet
    for (std::size_t i = 0; i < large.size(); ++i) large[i] = static_cast<std::uint8_t>(i * 7 % 251);
    set_property(server.name(), "_ICC_PROFILE", profile);
    set_property(server.name(), "_ICC_PROFILE_1", large);
    CHECK(read_x11_profile(0, server.name()) == profile);
    CHECK(read_x11_profile(1, server.name()) == large);
    CHECK_FALSE(read_x11_profile(2, server.name()).has_value());

    set_property(server.name(), "_ICC_PROFILE", {});
    CHECK_FALSE(read_x11_profile(0, server.name()).has_value());
}

TEST_CASE("Without an X server there is no system profile, and no error") {
    CHECK_FALSE(read_x11_profile(0, ":32767").has_value());
    CHECK_FALSE(read_x11_profile(0, "no such display").has_value());
}
