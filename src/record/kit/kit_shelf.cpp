#include "record/kit/kit_shelf.h"

#include <fmt/format.h>

#include "picture/text_line.h"
#include "record/kit/kit_json.h"
#include "record/store/store_action.h"
#include "record/store/store_rows.h"
#include "record/store/store_text.h"
#include "record/store/uid.h"
#include "record/utc_time.h"

namespace tonemend {
namespace {

KeptKit to_kit(const SqlRow& row) {
    return {text_in(row.at(0)), kit_of_text(text_in(row.at(2)))};
}

KeptBoard to_board(const SqlRow& row) {
    KeptBoard kept;
    kept.uid = text_in(row.at(0)), kept.kit = text_in(row.at(1));
    kept.board.name = text_in(row.at(2)), kept.board.wood = text_in(row.at(3));
    kept.board.grit = static_cast<int>(whole_in(row.at(4)));
    read_board_text(text_in(row.at(5)), kept.board);
    return kept;
}

template <typename Thing, typename Name>
std::string names_of(const std::vector<Thing>& things, Name name) {
    std::string list;
    for (const Thing& thing : things) list += (list.empty() ? "" : ", ") + quoted_name(name(thing));
    return list;
}

void update(Database& database, const char* table, const std::string& uid, const char* column,
            const std::string& value) {
    Transaction writing(database, Database::Access::writing);
    database.execute(fmt::format("UPDATE {} SET {} = ? WHERE uid = ?", table, column), {value, uid});
    writing.commit();
}

}  // namespace

std::vector<KeptKit> KitShelf::kits() {
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
    KeptKit kept{new_uid(), {kept_words(wanted), {}}};
    if (kept.kit.name.empty()) throw InputError("a kit needs a name");
    for (const KeptKit& other : kits())
        if (folded(other.kit.name) == folded(kept.kit.name))
            throw InputError(fmt::format("there is a kit {} already", quoted_name(other.kit.name)));
    Database& database = *store_->parts().database;
    Transaction writing(database, Database::Access::writing);
    insert_record(database, "kits",
                  {{"uid", kept.uid}, {"name", kept.kit.name}, {"text", kit_text(kept.kit)}});
    writing.commit();
    return kept;
}

void KitShelf::save(const KeptKit& kept) {
    update(*store_->parts().database, "kits", kept.uid, "text", kit_text(kept.kit));
}

void KitShelf::take_away(const KeptKit& kept) {
    update(*store_->parts().database, "kits", kept.uid, "undone", utc_now());
}

std::vector<KeptBoard> KitShelf::boards(const KeptKit& kit) {
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
    KeptBoard kept{new_uid(), kit.uid, wanted};
    kept.board.name = kept_words(wanted.name), kept.board.wood = kept_words(wanted.wood);
    if (kept.board.name.empty() || kept.board.wood.empty())
        throw InputError("a board needs a name and a wood");
    constexpr int coarsest = 40, finest = 1000;
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
                   {"text", board_text(kept.board)}});
    writing.commit();
    return kept;
}

void KitShelf::save(const KeptBoard& kept) {
    update(*store_->parts().database, "boards", kept.uid, "text", board_text(kept.board));
}

void KitShelf::take_away(const KeptBoard& kept) {
    update(*store_->parts().database, "boards", kept.uid, "undone", utc_now());
}

}  // namespace tonemend
