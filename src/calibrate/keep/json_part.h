#pragma once

#include <array>
#include <cstddef>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace tonemend {

/// A part of a JSON text that came from outside, with the way to it, so that whatever is wrong can be named.
/// The text must outlive it. Each function throws InputError, without a file's name ahead, when the part is
/// not what is asked for: "readings[2].mean is not 3 numbers".
class JsonPart {
  public:
    explicit JsonPart(const nlohmann::ordered_json& json, std::string way = "")
        : json_(&json), way_(std::move(way)) {}

    /// The member `key`, which must be there.
    JsonPart at(const std::string& key) const;
    /// The member `key`; empty when it is missing or null.
    std::optional<JsonPart> find(const std::string& key) const;
    /// The entries of a list of at most `most`.
    std::vector<JsonPart> list(std::size_t most) const;

    /// A finite number between `low` and `high`, both included.
    double number(double low, double high) const;
    /// Exactly `count` of them.
    std::vector<double> numbers(std::size_t count, double low, double high) const;
    template <std::size_t count>
    std::array<double, count> numbers(double low, double high) const {
        const std::vector<double> values = numbers(count, low, high);
        std::array<double, count> result{};
        for (std::size_t i = 0; i < count; ++i) result[i] = values[i];
        return result;
    }
    /// A whole number from 0 to `most`.
    std::size_t whole(std::size_t most) const;
    bool flag() const;
    /// Made one line, of at most `longest` bytes.
    std::string text(std::size_t longest = 400) const;
    /// A text as it stands.
    const std::string& raw_text() const;

    [[noreturn]] void refuse(const std::string& what) const;
    const nlohmann::ordered_json& json() const { return *json_; }

  private:
    const nlohmann::ordered_json* json_;
    std::string way_;
};

}  // namespace tonemend
