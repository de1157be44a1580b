#include <xcb/xcb.h>

#include <cstdlib>
#include <memory>

#include "live/display_profile.h"

namespace tonemend {
namespace {

struct Free {
    void operator()(void* reply) const { std::free(reply); }
};
struct Disconnect {
    void operator()(xcb_connection_t* connection) const { xcb_disconnect(connection); }
};
template <typename Reply>
std::unique_ptr<Reply, Free> own(Reply* reply) {
    return std::unique_ptr<Reply, Free>(reply);
}

/// Far above any display profile; the protocol counts in units of four bytes.
constexpr std::uint32_t most_words = (64U << 20) / 4;

}  // namespace

std::optional<std::vector<std::uint8_t>> read_x11_profile(int monitor, const std::string& display_name) {
    int screen_number = 0;
    const std::unique_ptr<xcb_connection_t, Disconnect> connection(
        xcb_connect(display_name.empty() ? nullptr : display_name.c_str(), &screen_number));
    if (xcb_connection_has_error(connection.get())) return std::nullopt;
    xcb_screen_iterator_t screens = xcb_setup_roots_iterator(xcb_get_setup(connection.get()));
    for (; screen_number > 0 && screens.rem > 1; --screen_number) xcb_screen_next(&screens);

    const std::string name = monitor > 0 ? "_ICC_PROFILE_" + std::to_string(monitor) : "_ICC_PROFILE";
    constexpr std::uint8_t only_if_it_exists = 1;
    const auto atom =
        own(xcb_intern_atom_reply(connection.get(),
                                  xcb_intern_atom(connection.get(), only_if_it_exists,
                                                  static_cast<std::uint16_t>(name.size()), name.c_str()),
                                  nullptr));
    if (!atom || atom->atom == XCB_ATOM_NONE) return std::nullopt;
    const auto property =
        own(xcb_get_property_reply(connection.get(),
                                   xcb_get_property(connection.get(), 0, screens.data->root, atom->atom,
                                                    XCB_GET_PROPERTY_TYPE_ANY, 0, most_words),
                                   nullptr));
    if (!property || property->format != 8) return std::nullopt;
    const auto* bytes = static_cast<const std::uint8_t*>(xcb_get_property_value(property.get()));
    const int length = xcb_get_property_value_length(property.get());
    if (length <= 0) return std::nullopt;
    return std::vector<std::uint8_t>(bytes, bytes + length);
}

}  // namespace tonemend
