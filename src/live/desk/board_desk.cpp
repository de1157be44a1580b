#include "live/desk/board_desk.h"

#include <fmt/format.h>

#include <algorithm>

#include "advise/board/guide.h"
#include "picture/input_error.h"
#include "picture/small_letters.h"
#include "record/kit/board_lessons.h"
#include "record/kit/kit_words.h"

namespace tonemend {
namespace {

constexpr const char* bare_strip = "bare";

std::string next_number(const SampleBoard& board) {
    int number = 1;
    while (find_strip(board, std::to_string(number)) != nullptr) ++number;
    return std::to_string(number);
}

// The strip that has one coat of that jar, so thinned, and nothing else.
std::string strip_with(const SampleBoard& board, const KitJar& jar, double thinner) {
    for (const BoardStrip& strip : board.strips)
        if (strip.coats.size() == 1 &&
            in_small_letters(strip.coats.front().jar) == in_small_letters(jar.name) &&
            std::abs(strip.coats.front().thinner - thinner) < 0.2)
            return strip.name;
    return {};
}

bool read_as_it_is(const BoardStrip& strip) {
    return std::any_of(strip.readings.begin(), strip.readings.end(), [&](const StripReading& reading) {
        return reading.coats == static_cast<int>(strip.coats.size()) && reading.finish.empty();
    });
}

BoardLine line_of(const BoardStrip& strip) {
    BoardLine line{fmt::format("strip {}:", strip.name), read_as_it_is(strip) ? "read" : "to be read, dry",
                   strip.name};
    if (strip.coats.empty()) line.words += " bare";
    for (std::size_t i = 0; i < strip.coats.size(); ++i)
        line.words +=
            fmt::format("{} {} {:g}:1", i == 0 ? "" : ", then", strip.coats[i].jar, strip.coats[i].thinner);
    return line;
}

}  // namespace

void BoardDesk::open(const StoreLocation& store) {
    if (!(door_.location() == store)) door_ = StoreDoor(store);
    selected_ = 0;
    look();
}

void BoardDesk::look() {
    kit_.reset(), board_.reset();
    lines_.clear();
    title_ =
        "No kit yet: 'tonemend kit new NAME', 'tonemend kit add NAME --kind KIND', then 'tonemend board new "
        "NAME "
        "--wood WOOD --grit N'.";
    const auto store = door_.look();
    if (!store) return;
    KitShelf shelf(*store);
    const std::vector<KeptKit> kits = shelf.kits();
    if (kits.empty()) return;
    kit_ = kits.back();
    const std::vector<KeptBoard> boards = shelf.boards(*kit_);
    if (boards.empty()) {
        title_ = fmt::format("Kit {} has no board yet: 'tonemend board new NAME --wood WOOD --grit N'.",
                             kit_->kit.name);
        return;
    }
    board_ = boards.back();
    const SampleBoard& board = board_->board;
    title_ = fmt::format("Board {}: {}, sanded to {}.", board.name, board.wood, board.grit);
    const auto bare = bare_look(board);
    if (!bare) lines_.push_back({"the bare wood, before anything is put on it", "to be read", bare_strip});
    for (const BoardStrip& strip : board.strips) lines_.push_back(line_of(strip));
    if (!bare) return;
    const ModelJars jars = model_jars(kit_->kit);
    const std::vector<CoatObservation> seen = observations_of(boards, kit_->kit, jars);
    constexpr std::size_t most = 5;
    const auto advice =
        advise_strips(kit_->kit, jars, seen, *bare, place_of(board.wood, board_->uid, board.grit), most);
    if (advice.empty()) {
        title_ += " Nothing more is worth a strip.";
        return;
    }
    title_ += fmt::format(" As it stands a coat comes out within ±{:.1f} of what is foretold.",
                          1.96 * advice.front().before);
    for (const StripAdvice& one : advice) {
        const KitJar& jar = kit_->kit.jars[one.jar];
        const std::string below = one.second ? strip_with(board, jar, one.thinner) : std::string();
        // A second coat goes on a strip that is there and was read.
        const BoardStrip* strip = find_strip(board, below);
        if (one.second && (strip == nullptr || !read_as_it_is(*strip))) continue;
        lines_.push_back({fmt::format("put on {}, {}{}", jar.name, say_thinning(one.thinner, jar.carrier),
                                      one.second ? ", over strip " + below : ", on a strip of its own"),
                          fmt::format("then ±{:.1f}", 1.96 * one.after),
                          one.second ? below : next_number(board), StripCoat{jar.name, one.thinner}});
    }
}

void BoardDesk::select(std::size_t line) {
    if (line < lines_.size()) selected_ = line;
}

void BoardDesk::press(DeskKey key) {
    if (key == DeskKey::earlier && selected_ > 0) --selected_;
    if (key == DeskKey::later) select(selected_ + 1);
}

std::string BoardDesk::strip_to_read() const {
    return selected_ < lines_.size() && !lines_[selected_].coat ? lines_[selected_].strip : "";
}

// As it stands in the store by now, and only when the store has taken it.
void BoardDesk::change_board(const std::function<void(SampleBoard&)>& change) {
    KitShelf shelf(*door_.keep());
    KeptBoard fresh = shelf.find_board(*kit_, board_->board.name);
    change(fresh.board);
    shelf.save(fresh);
    board_ = std::move(fresh);
}

std::string BoardDesk::write_coat() {
    if (selected_ >= lines_.size() || !lines_[selected_].coat || !board_) return {};
    const BoardLine line = lines_[selected_];
    change_board([&](SampleBoard& board) { record_coat(board, line.strip, *line.coat, kit_->kit); });
    const KitJar& jar = kit_->kit.jars[*kit_->kit.find(line.coat->jar)];
    std::string words = fmt::format("Strip {}: {}. Dry in about {}; the label comes first. Then read it.",
                                    line.strip, jar.name, say_minutes(jar.wait_minutes()));
    look();
    // What comes next is to read it, and after that the next coat.
    const auto strip = std::find_if(lines_.begin(), lines_.end(), [&](const BoardLine& other) {
        return !other.coat && other.strip == line.strip;
    });
    selected_ = static_cast<std::size_t>(strip - lines_.begin());
    return words;
}

std::string BoardDesk::keep_reading(const std::string& name, const ReadLook& look_now,
                                    const std::string& light, const std::string& taken) {
    if (!board_) return {};
    int coats = 0;
    change_board([&](SampleBoard& board) {
        coats = static_cast<int>(strip_or_new(board, name).coats.size());
        record_reading(board, name, {coats, "", light, taken, look_now});
    });
    look();
    const auto next = std::find_if(lines_.begin(), lines_.end(),
                                   [](const BoardLine& line) { return line.coat.has_value(); });
    selected_ = next == lines_.end() ? 0 : static_cast<std::size_t>(next - lines_.begin());
    return fmt::format("Strip {} is read, with {} coat{} on.", name, coats, coats == 1 ? "" : "s");
}

}  // namespace tonemend
