#include "record/finish_pairs.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <span>
#include <string_view>

#include "calibrate/keep/json_part.h"
#include "calibrate/keep/user_folder.h"
#include "picture/file_bytes.h"
#include "picture/input_error.h"
#include "picture/small_letters.h"
#include "picture/text_line.h"
#include "picture/write_picture.h"
#include "record/json_numbers.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

constexpr const char* pairs_schema = "tonemend.finish-pairs/1";
constexpr std::size_t most_pairs = 10'000;

Lab to_surface_lab(const JsonPart& json) {
    const auto values = json.numbers<3>(-200, 200);
    return {values[0], values[1], values[2]};
}

Json pair_json(const KeptFinishPair& kept) {
    const FinishPair& pair = kept.pair;
    return {{"wood", kept.wood},
            {"finish", kept.finish},
            {"look", kept.look == FinishLook::wet ? "wet" : "finished"},
            {"bare", lab_json(pair.bare)},
            {"bare_u95", numbers_json(pair.bare_u95)},
            {"finished", lab_json(pair.finished)},
            {"finished_u95", numbers_json(pair.finished_u95)},
            {"read", kept.read}};
}

KeptFinishPair to_pair(const JsonPart& json) {
    KeptFinishPair kept;
    kept.wood = json.at("wood").text(100), kept.finish = json.at("finish").text(100);
    const std::string look = json.at("look").text(20);
    if (look != "wet" && look != "finished") json.at("look").refuse("is neither wet nor finished");
    kept.look = look == "wet" ? FinishLook::wet : FinishLook::finished;
    kept.pair.bare = to_surface_lab(json.at("bare"));
    kept.pair.finished = to_surface_lab(json.at("finished"));
    kept.pair.bare_u95 = json.at("bare_u95").numbers<3>(0, 200);
    kept.pair.finished_u95 = json.at("finished_u95").numbers<3>(0, 200);
    kept.read = json.at("read").text(40);
    return kept;
}

}  // namespace

fs::path finish_pairs_path() {
    return user_folder(UserFolder::data) / "finish-pairs.json";
}

std::vector<KeptFinishPair> read_finish_pairs(const fs::path& path) {
    std::error_code failed;
    if (!fs::exists(path, failed)) return {};
    const FileBytes bytes = read_file_bytes(path);
    try {
        const Json json =
            Json::parse(std::string_view(reinterpret_cast<const char*>(bytes.data.get()), bytes.size));
        const JsonPart whole(json);
        if (whole.at("schema").raw_text() != pairs_schema)
            whole.at("schema").refuse(fmt::format("is not {}", pairs_schema));
        std::vector<KeptFinishPair> pairs;
        for (const JsonPart& part : whole.at("pairs").list(most_pairs)) pairs.push_back(to_pair(part));
        return pairs;
    } catch (const std::exception& error) {
        throw InputError(
            fmt::format("{}: cannot serve as a list of finish pairs: {}; mend it, or give another "
                        "file with --pairs",
                        one_line(path.string(), 400), one_line(error.what(), 200)));
    }
}

void add_finish_pair(const fs::path& path, const KeptFinishPair& pair) {
    std::vector<KeptFinishPair> pairs = read_finish_pairs(path);
    if (pairs.size() >= most_pairs)
        throw InputError(
            fmt::format("{}: holds {} pairs, which is all it may; begin another file with --pairs",
                        one_line(path.string(), 400), most_pairs));
    pairs.push_back(pair);
    Json list = Json::array();
    for (const KeptFinishPair& kept : pairs) list.push_back(pair_json(kept));
    const std::string text =
        Json{{"schema", pairs_schema}, {"pairs", list}}.dump(1, ' ', false, Json::error_handler_t::replace) +
        "\n";
    std::error_code failed;
    if (path.has_parent_path()) fs::create_directories(path.parent_path(), failed);
    write_whole_file(path, std::as_bytes(std::span(text)));
}

std::vector<FinishPair> choose_pairs(const std::vector<KeptFinishPair>& pairs, const std::string& wood,
                                     const std::string& finish, FinishLook look) {
    std::vector<FinishPair> chosen;
    for (const KeptFinishPair& kept : pairs)
        if (kept.look == look && in_small_letters(kept.wood) == in_small_letters(wood) &&
            in_small_letters(kept.finish) == in_small_letters(finish))
            chosen.push_back(kept.pair);
    return chosen;
}

}  // namespace tonemend
