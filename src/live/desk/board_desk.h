#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "live/desk/desk_key.h"
#include "record/kit/kit_shelf.h"
#include "record/store/store_door.h"

namespace tonemend {

/// A line of the page of a sample board.
struct BoardLine {
    std::string words, figures;
    std::string strip;                             ///< that Enter reads, or that its coat goes on
    std::optional<StripCoat> coat = std::nullopt;  ///< that Enter writes down; none: Enter reads the strip
};

/// The page of the newest sample board: what was put on it, what to put on next, and which strip is read.
/// Knows nothing of drawing. Belongs to one thread.
class BoardDesk {
  public:
    void open(const StoreLocation& store);
    void select(std::size_t line);
    void press(DeskKey key);
    /// The strip that the chosen line reads; empty: it is a coat's line, or there is none.
    std::string strip_to_read() const;
    /// Writes the chosen line's coat down. Returns what was written, in words. Throws InputError.
    std::string write_coat();
    /// Keeps a reading of a strip as it is now. Returns words. Throws InputError.
    std::string keep_reading(const std::string& strip, const ReadLook& look, const std::string& light,
                             const std::string& taken);

    const std::vector<BoardLine>& lines() const { return lines_; }
    std::size_t selected() const { return selected_; }
    /// Which board, and how well the kit is known on its wood; or what is wanting.
    const std::string& title() const { return title_; }

  private:
    void look();
    void change_board(const std::function<void(SampleBoard&)>& change);

    StoreDoor door_;
    std::optional<KeptKit> kit_;
    std::optional<KeptBoard> board_;
    std::string title_;
    std::vector<BoardLine> lines_;
    std::size_t selected_ = 0;
};

}  // namespace tonemend
