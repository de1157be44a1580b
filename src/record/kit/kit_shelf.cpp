#include "record/kit/kit_shelf.h"

#include <fmt/format.h>

#include <algorithm>

#include "picture/text_line.h"
#include "record/kit/kit_json.h"
#include "record/store/store_action.h"
#include "record/store/store_rows.h"
#include "record/store/store_text.h"
#include "record/store/uid.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

constexpr int coarsest = 40, finest = 1000;  // grit

KeptKit to_kit(const SqlRow& row) {
    return {text_in(row.at(0)), kit_of_text(text_in(row.at(2))), text_in(row.at(2))};
}

KeptBoard to_board(const SqlRow& row) {
    KeptBoard kept;
    kept.uid = text_in(row.at(0)), kept.kit = text_in(row.at(1));
    kept.board.name = text_in(row.at(2)), kept.board.wood = text_in(row.at(3));
    kept.board.grit = static_cast<int>(std::clamp<std::int64_t>(whole_in(row.at(4)), coarsest, finest));
    kept.text = text_in(row.at(5));
    read_board_text(kept.text, kept.board);
    return kept;
}

template <typename Thing, typename Name>
std::string names_of(const std::vector<Thing>& things, Name name) {
    std::string list;
    for (const Thing& thing : things) list += (list.empty() ? "" : ", ") + quoted_name(name(thing));
    return list;
}

void mark_undone(Database& database, const char* table, const std::string& uid) {
    Transaction writing(database, Database::Access::writing);
    database.execute(fmt::format("UPDATE {} SET undone = ? WHERE uid = ?", table), {utc_now(), uid});
    writing.commit();
}

// `text` in place of what it was when it was read.
void replace_text(Database& database, const char* table, const std::string& uid, const std::string& was,
                  const std::string& text) {
    Transaction writing(database, Database::Access::writing);
    const auto now =
        database.row(fmt::format("SELECT text FROM {} WHERE uid = ? AND undone = ''", table), {uid});
    if (!now || text_in(now->at(0)) != was)
        throw InputError("it was changed elsewhere meanwhile, and nothing is kept of this; do it once more");
    database.execute(fmt::format("UPDATE {} SET text = ? WHERE uid = ?", table), {text, uid});
    writing.commit();
}

}  // namespace

std::vector<KeptKit> KitShelf::kits() {
    const auto held = store_->hold();
    return read_all(*store_->parts().database, "kits", "undone = '' ORDER BY uid", {}, to_kit);
}

KeptKit KitShelf::find_kit(const std::string& wanted) {
    std::vector<KeptKit> all = kits();
    const auto name = [](const KeptKit& kept) { return kept.kit.name; };
    if (all.empty()) throw InputError("there is no kit yet; 'tonemend kit new NAME' begins one");
    if (wanted.empty()) {
        if (all.size() == 1) return all.front();
        throw InputError(
            fmt::format("there are several kits, {}; say which with --kit", names_of(all, name)));
    }
    for (KeptKit& kept : all)
        if (folded(kept.kit.name) == folded(kept_words(wanted))) return kept;
    throw InputError(
        fmt::format("there is no kit {}; there are: {}", quoted_name(wanted), names_of(all, name)));
}

KeptKit KitShelf::start_kit(const std::string& wanted) {
    const auto held = store_->hold();
    KeptKit kept{new_uid(), {kept_words(wanted), {}}};
    kept.text = kit_text(kept.kit);
    if (kept.kit.name.empty()) throw InputError("a kit needs a name");
    for (const KeptKit& other : kits())
        if (folded(other.kit.name) == folded(kept.kit.name))
            throw InputError(fmt::format("there is a kit {} already", quoted_name(other.kit.name)));
    Database& database = *store_->parts().database;
    Transaction writing(database, Database::Access::writing);
    insert_record(database, "kits", {{"uid", kept.uid}, {"name", kept.kit.name}, {"text", kept.text}});
    writing.commit();
    return kept;
}

void KitShelf::save(KeptKit& kept) {
    const auto held = store_->hold();
    const std::string text = kit_text(kept.kit);
    replace_text(*store_->parts().database, "kits", kept.uid, kept.text, text);
    kept.text = text;
}

void KitShelf::take_away(const KeptKit& kept) {
    const auto held = store_->hold();
    mark_undone(*store_->parts().database, "kits", kept.uid);
}

std::vector<KeptBoard> KitShelf::boards(const KeptKit& kit) {
    const auto held = store_->hold();
    return read_all(*store_->parts().database, "boards", "kit = ? AND undone = '' ORDER BY uid", {kit.uid},
                    to_board);
}

KeptBoard KitShelf::find_board(const KeptKit& kit, const std::string& wanted) {
    std::vector<KeptBoard> all = boards(kit);
    if (all.empty())
        throw InputError(
            "the kit has no board yet; 'tonemend board new NAME --wood WOOD --grit N' begins one");
    if (wanted.empty()) return all.back();
    for (KeptBoard& kept : all)
        if (folded(kept.board.name) == folded(kept_words(wanted))) return kept;
    throw InputError(fmt::format("the kit has no board {}; there are: {}", quoted_name(wanted),
                                 names_of(all, [](const KeptBoard& kept) { return kept.board.name; })));
}

KeptBoard KitShelf::start_board(const KeptKit& kit, const SampleBoard& wanted) {
    const auto held = store_->hold();
    KeptBoard kept{new_uid(), kit.uid, wanted};
    kept.text = board_text(kept.board);
    kept.board.name = kept_words(wanted.name), kept.board.wood = kept_words(wanted.wood);
    if (kept.board.name.empty() || kept.board.wood.empty())
        throw InputError("a board needs a name and a wood");
    if (wanted.grit < coarsest || wanted.grit > finest)
        throw InputError(fmt::format("--grit {}: give the number on the paper, 40 to 1000", wanted.grit));
    for (const KeptBoard& other : boards(kit))
        if (folded(other.board.name) == folded(kept.board.name))
            throw InputError(fmt::format("the kit has a board {} already", quoted_name(other.board.name)));
    Database& database = *store_->parts().database;
    Transaction writing(database, Database::Access::writing);
    insert_record(database, "boards",
                  {{"uid", kept.uid},
                   {"kit", kept.kit},
                   {"name", kept.board.name},
                   {"wood", kept.board.wood},
                   {"grit", static_cast<std::int64_t>(kept.board.grit)},
                   {"text", kept.text}});
    writing.commit();
    return kept;
}

void KitShelf::save(KeptBoard& kept) {
    const auto held = store_->hold();
    const std::string text = board_text(kept.board);
    replace_text(*store_->parts().database, "boards", kept.uid, kept.text, text);
    kept.text = text;
}

void KitShelf::take_away(const KeptBoard& kept) {
    const auto held = store_->hold();
    mark_undone(*store_->parts().database, "boards", kept.uid);
}

}  // namespace tonemend
