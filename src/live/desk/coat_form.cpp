#include "live/desk/coat_form.h"

#include <fmt/format.h>

#include <charconv>
#include <vector>

#include "picture/input_error.h"

namespace tonemend {
namespace {

enum Field : std::size_t { kind_field, colourant, carrier, dilution, coats, grit, wait, note };

constexpr int kinds = static_cast<int>(StepKind::other) + 1;

double number_of(const std::string& text, std::string_view what, double otherwise) {
    if (text.empty()) return otherwise;
    double value = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
    if (read.ec != std::errc() || read.ptr != text.data() + text.size())
        throw InputError(fmt::format("{}: '{}' is no number", what, text));
    return value;
}

int whole_of(const std::string& text, std::string_view what, int otherwise) {
    const double value = number_of(text, what, otherwise);
    if (!(value >= 0 && value <= 100000) || value != static_cast<int>(value))
        throw InputError(fmt::format("{}: '{}' is no whole number", what, text));
    return static_cast<int>(value);
}

}  // namespace

void CoatForm::open(const std::vector<FinishingStep>& steps) {
    texts_ = {};
    selected_ = colourant;
    if (steps.empty()) return;
    const FinishingStep& last = steps.back();
    kind_ = last.kind;
    texts_[colourant].set(last.colourant);
    texts_[carrier].set(last.carrier);
    texts_[dilution].set(last.dilution);
    if (last.coats != 1) texts_[coats].set(std::to_string(last.coats));
    if (last.grit > 0) texts_[grit].set(std::to_string(last.grit));
    if (last.wait_minutes > 0) texts_[wait].set(fmt::format("{:g}", last.wait_minutes));
}

void CoatForm::type(char32_t point) {
    if (selected_ != kind_field) texts_[selected_].type(point);
}

void CoatForm::select(std::size_t field) {
    if (field < fields) selected_ = field;
}

void CoatForm::press(DeskKey key) {
    const auto turn = [&](int by) {
        if (selected_ == kind_field)
            kind_ = static_cast<StepKind>((static_cast<int>(kind_) + by + kinds) % kinds);
    };
    switch (key) {
        case DeskKey::earlier:
            selected_ = (selected_ + fields - 1) % fields;
            return;
        case DeskKey::later:
            selected_ = (selected_ + 1) % fields;
            return;
        case DeskKey::left:
            return turn(-1);
        case DeskKey::right:
            return turn(1);
        case DeskKey::rub_out:
            texts_[selected_].take_back();
            return;
        default:
            return;
    }
}

FinishingStep CoatForm::step(const std::string& area, const std::string& when) const {
    FinishingStep step;
    step.area = area, step.kind = kind_, step.done = when;
    step.colourant = texts_[colourant].text(), step.carrier = texts_[carrier].text();
    step.dilution = texts_[dilution].text(), step.note = texts_[note].text();
    step.coats = whole_of(texts_[coats].text(), "coats", 1);
    step.grit = whole_of(texts_[grit].text(), "grit", 0);
    step.wait_minutes = number_of(texts_[wait].text(), "wait", 0);
    return step;
}

std::array<CoatForm::Line, CoatForm::fields> CoatForm::lines() const {
    const auto text = [&](Field field) { return texts_[field].text(); };
    return {{{"kind", std::string(name(kind_)), "← → change it"},
             {"colourant", text(colourant), "as you call it"},
             {"carrier", text(carrier), "alcohol, water, oil"},
             {"thinned", text(dilution), "thinner to colourant: 2:1"},
             {"coats", text(coats), "1 unless said"},
             {"grit", text(grit), "the wood was sanded to"},
             {"wait", text(wait), "minutes till dry; label first"},
             {"note", text(note), ""}}};
}

}  // namespace tonemend
