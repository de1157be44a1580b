#include "calibrate/keep/json_part.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {

void JsonPart::refuse(const std::string& what) const {
    throw InputError(one_line(fmt::format("{} {}", way_.empty() ? "the text" : way_, what), 300));
}

JsonPart JsonPart::at(const std::string& key) const {
    const std::string way = way_.empty() ? key : way_ + "." + key;
    if (!json_->is_object()) refuse("is no object");
    const auto member = json_->find(key);
    if (member == json_->end()) JsonPart(*json_, way).refuse("is missing");
    return JsonPart(*member, way);
}

std::optional<JsonPart> JsonPart::find(const std::string& key) const {
    if (!json_->is_object()) refuse("is no object");
    const auto member = json_->find(key);
    if (member == json_->end() || member->is_null()) return std::nullopt;
    return at(key);
}

std::vector<JsonPart> JsonPart::list(std::size_t most) const {
    if (!json_->is_array()) refuse("is no list");
    if (json_->size() > most) refuse(fmt::format("has {} entries, more than {}", json_->size(), most));
    std::vector<JsonPart> parts;
    for (std::size_t i = 0; i < json_->size(); ++i)
        parts.emplace_back((*json_)[i], fmt::format("{}[{}]", way_, i));
    return parts;
}

double JsonPart::number(double low, double high) const {
    if (!json_->is_number()) refuse("is no number");
    const double value = json_->get<double>();
    // Written so that what is not a number is refused too.
    if (!(value >= low && value <= high))
        refuse(fmt::format("is {:g}, not between {:g} and {:g}", value, low, high));
    return value;
}

std::vector<double> JsonPart::numbers(std::size_t count, double low, double high) const {
    if (!json_->is_array() || json_->size() != count) refuse(fmt::format("is not {} numbers", count));
    std::vector<double> values;
    for (const JsonPart& part : list(count)) values.push_back(part.number(low, high));
    return values;
}

std::size_t JsonPart::whole(std::size_t most) const {
    const double value = number(0, static_cast<double>(most));
    if (value != std::floor(value)) refuse("is no whole number");
    return static_cast<std::size_t>(value);
}

bool JsonPart::flag() const {
    if (!json_->is_boolean()) refuse("is neither true nor false");
    return json_->get<bool>();
}

const std::string& JsonPart::raw_text() const {
    if (!json_->is_string()) refuse("is no text");
    return json_->get_ref<const std::string&>();
}

std::string JsonPart::text(std::size_t longest) const {
    return one_line(raw_text(), longest);
}

}  // namespace tonemend
