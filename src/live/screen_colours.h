#pragma once

#include "colour/lab.h"
#include "live/display_table.h"
#include "live/theme.h"

namespace tonemend {

/// The codes of one display for the colours that the window itself paints: swatches, legends, greys.
class ScreenColours {
  public:
    explicit ScreenColours(DisplayTable table) : table_(std::move(table)) {}

    /// Of a colour (D50); what the display cannot show is cut channel by channel.
    Shade shade_of(const XYZ& colour) const;
    Shade shade_of(const Lab& colour) const;
    /// The theme, which is written in sRGB, on this display: its greys stay neutral and as light.
    Theme theme_of(ThemeName name) const;
    const DisplayTable& table() const { return table_; }

  private:
    DisplayTable table_;
};

}  // namespace tonemend
