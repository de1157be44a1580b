#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace tonemend {

/// When a picture last told a light's colour temperature.
struct LightCheck {
    std::string when;   ///< UTC, ISO 8601
    double kelvin = 0;  ///< correlated, 1000 to 25 000
};

/// A light that the person works or judges under, by a name of their own.
struct NamedLight {
    std::string name;   ///< see require_light_name
    std::string light;  ///< kind or temperature as parse_light takes it
    std::string lamp;   ///< in the person's words; may be empty
    std::string place;  ///< likewise
    std::optional<LightCheck> checked;
};

/// Throws InputError unless `name` is 1 to 40 letters, digits, blanks, '-', '_' or '.', begins with a letter
/// (UTF-8 letters beyond ASCII count), has no blank at its end, and is not what a light itself is called
/// ("CIE-A").
void require_light_name(const std::string& name);

/// $XDG_DATA_HOME/tonemend/lights.json (see user_folder).
std::filesystem::path standing_lights();

/// The lights as the text of a file, schema "tonemend.lights/1"; DEVELOPERS.md describes it.
std::string lights_text(const std::vector<NamedLight>& lights);
/// The way back. Throws InputError that begins with `file`: no such text, a value out of range, a light that
/// parse_light refuses, a name twice, more than 1000 lights.
std::vector<NamedLight> parse_lights(std::span<const std::byte> text, const std::string& file);

/// The lights of a file; none when it is not there. Throws InputError.
std::vector<NamedLight> read_lights(const std::filesystem::path& path);
/// Reads, lets `change` change them, and replaces the file whole; makes the folder if need be. Two programs
/// that do so at once do it one after the other. Throws InputError, also what `change` throws, and then the
/// file is as it was.
void change_lights(const std::filesystem::path& path,
                   const std::function<void(std::vector<NamedLight>&)>& change);

/// The one of that name, letters of ASCII in either case; null: there is none.
const NamedLight* find_light(const std::vector<NamedLight>& lights, const std::string& name);

/// Whether `text` can only be a kept light's name: it is nothing that parse_light may take.
bool is_light_name(const std::string& text);

/// What parse_light takes, for `text` that may be a name in the file at `path`: a light by itself stays as it
/// is. Throws InputError when it is neither, which lists the names.
std::string resolve_light(const std::string& text, const std::filesystem::path& path);

}  // namespace tonemend
