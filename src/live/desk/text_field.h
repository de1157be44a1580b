#pragma once

#include <string>

namespace tonemend {

/// A line of text that is being typed, UTF-8; at most 200 bytes.
class TextField {
  public:
    /// `point`: a Unicode code point; control characters are passed over.
    void type(char32_t point);
    /// Takes the last code point away.
    void take_back();
    void set(const std::string& text) { text_ = text; }
    const std::string& text() const { return text_; }

  private:
    std::string text_;
};

}  // namespace tonemend
