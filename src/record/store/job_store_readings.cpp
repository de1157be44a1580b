// Readings, their pictures, and what two of them say together.
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "record/store/job_store.h"
#include "record/store/sha256.h"
#include "record/store/store_action.h"
#include "record/store/store_rows.h"
#include "record/store/store_text.h"
#include "record/store/uid.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

// Long, and the same in many readings: kept once, and in their place what they are called.
constexpr std::array<const char*, 2> detached_parts{"calibration", "flat_field"};

Json parse_text(const std::string& text) {
    try {
        return Json::parse(text);
    } catch (const Json::exception&) {
        throw DamagedStore("the reading's text is damaged; 'tonemend job verify' says more");
    }
}

// Takes `part` out of the reading's text into the table of calibrations; returns its hash, or "".
std::string detach(Database& database, Json& text, const char* part) {
    if (!text.contains("frame") || !text["frame"].contains(part)) return "";
    const std::string body = text["frame"][part].dump();
    std::string hash = sha256(body);
    insert_record(database, "calibrations", {{"hash", hash}, {"kind", std::string(part)}, {"text", body}},
                  true);
    text["frame"][part] = hash;
    return hash;
}

SqlValue keep_light(Database& database, const ReadingForStore& reading) {
    const std::string light = kept_words(reading.record.light), called = kept_words(reading.light_name);
    if (light.empty()) return std::monostate{};
    const std::string hash = sha256(fmt::format("{}\n{}\n{}", called, light, reading.kelvin));
    insert_record(database, "lights",
                  {{"hash", hash},
                   {"name", called},
                   {"light", light},
                   {"kelvin", reading.kelvin > 0 ? SqlValue(reading.kelvin) : SqlValue()}},
                  true);
    return hash;
}

}  // namespace

std::string JobStore::keep_picture(const std::optional<PictureToKeep>& picture) {
    if (!picture) return "";
    std::string hash = sha256(picture->bytes);
    store_.pictures->put({hash, picture->kind}, picture->bytes);
    insert_record(*store_.database, "pictures",
                  {{"hash", hash},
                   {"bytes", static_cast<std::int64_t>(picture->bytes.size())},
                   {"kind", picture->kind},
                   {"width", static_cast<std::int64_t>(picture->width)},
                   {"height", static_cast<std::int64_t>(picture->height)}},
                  true);
    return hash;
}

namespace {

std::string put_comparison(StoreAction& action, const ComparisonRecord& comparison) {
    std::string uid = new_uid();
    action.add("comparisons", {{"uid", uid},
                               {"area", comparison.area},
                               {"kind", std::string(name(comparison.kind))},
                               {"first", text_or_nothing(comparison.first)},
                               {"second", text_or_nothing(comparison.second)},
                               {"made", comparison.made},
                               {"text", comparison.text}});
    return uid;
}

}  // namespace

ReadingRecord JobStore::add_reading(const ReadingForStore& wanted) {
    const std::lock_guard lock(mutex_);
    ReadingRecord reading = wanted.record;
    Json text = parse_text(wanted.text);
    const std::string job = job_of_area(reading.area).uid;
    Database& database = *store_.database;
    StoreAction action(database, job);
    // The pictures' files first: a record never refers to what is not there.
    reading.annotated = keep_picture(wanted.annotated);
    reading.source = keep_picture(wanted.source);
    reading.calibration = detach(database, text, detached_parts[0]);
    const std::string flat_field = detach(database, text, detached_parts[1]);
    reading.number = static_cast<int>(whole_in(
        database.row("SELECT coalesce(max(number), 0) + 1 FROM readings WHERE job = ?", {job})->at(0)));
    reading.uid = new_uid();
    reading.picture = kept_words(reading.picture), reading.software = kept_words(reading.software);
    const std::string body = text.dump(-1, ' ', false, Json::error_handler_t::replace);
    action.add("readings", {{"uid", reading.uid},
                            {"job", job},
                            {"area", reading.area},
                            {"number", static_cast<std::int64_t>(reading.number)},
                            {"role", std::string(name(reading.role))},
                            {"taken", reading.taken},
                            {"picture", reading.picture},
                            {"original_l", reading.original.L},
                            {"original_a", reading.original.a},
                            {"original_b", reading.original.b},
                            {"repair_l", reading.repair.L},
                            {"repair_a", reading.repair.a},
                            {"repair_b", reading.repair.b},
                            {"de2000", reading.de2000},
                            {"u95", reading.u95},
                            {"tolerance", reading.tolerance},
                            {"unfit", static_cast<std::int64_t>(reading.unfit ? 1 : 0)},
                            {"light", keep_light(database, wanted)},
                            {"software", reading.software},
                            {"annotated", text_or_nothing(reading.annotated)},
                            {"source", text_or_nothing(reading.source)},
                            {"calibration", text_or_nothing(reading.calibration)},
                            {"flat_field", text_or_nothing(flat_field)},
                            {"text_hash", sha256(body)},
                            {"text", body}});
    std::string words = fmt::format("reading {}", reading.number);
    if (wanted.compare)
        for (const ComparisonRecord& comparison : wanted.compare(reading)) {
            put_comparison(action, comparison);
            words += comparison.kind == ComparisonKind::second_light ? " with its second light"
                                                                     : " with its comparison";
        }
    action.commit(words);
    return reading;
}

ComparisonRecord JobStore::add_comparison(const ComparisonRecord& wanted) {
    const std::lock_guard lock(mutex_);
    ComparisonRecord comparison = wanted;
    StoreAction action(*store_.database, job_of_area(comparison.area).uid);
    comparison.uid = put_comparison(action, comparison);
    action.commit(comparison.kind == ComparisonKind::second_light ? "the second light's reading"
                                                                  : "the comparison of before and after");
    return comparison;
}

std::vector<ReadingRecord> JobStore::readings(const std::string& area) {
    const std::lock_guard lock(mutex_);
    auto all = read_all(*store_.database, "readings", "area = ? AND undone = '' ORDER BY number", {area},
                        to_reading);
    for (ReadingRecord& reading : all) {
        if (reading.light.empty()) continue;
        const auto light =
            store_.database->row("SELECT light, name FROM lights WHERE hash = ?", {reading.light});
        if (!light) continue;
        const std::string& called = text_in(light->at(1));
        reading.light =
            called.empty() ? text_in(light->at(0)) : fmt::format("{} ({})", called, text_in(light->at(0)));
    }
    return all;
}

std::vector<ComparisonRecord> JobStore::comparisons(const std::string& area) {
    const std::lock_guard lock(mutex_);
    return read_all(*store_.database, "comparisons", "area = ? AND undone = '' ORDER BY uid", {area},
                    to_comparison);
}

std::string JobStore::reading_text(const std::string& reading) {
    const std::lock_guard lock(mutex_);
    const auto row = store_.database->row("SELECT text FROM readings WHERE uid = ?", {reading});
    if (!row) throw InputError("the reading is not in the store any more");
    Json text = parse_text(text_in(row->at(0)));
    for (const char* part : detached_parts) {
        if (!text.contains("frame") || !text["frame"].contains(part) || !text["frame"][part].is_string())
            continue;
        const auto body = store_.database->row("SELECT text FROM calibrations WHERE hash = ?",
                                               {text["frame"][part].get<std::string>()});
        if (!body)
            throw DamagedStore("the reading's calibration is missing; 'tonemend job verify' says more");
        text["frame"][part] = parse_text(text_in(body->at(0)));
    }
    return text.dump();
}

std::string JobStore::picture_kind(const std::string& hash) {
    const std::lock_guard lock(mutex_);
    const auto row = store_.database->row("SELECT kind FROM pictures WHERE hash = ?", {hash});
    return row ? text_in(row->at(0)) : "";
}

std::vector<std::byte> JobStore::picture(const std::string& hash) {
    const std::lock_guard lock(mutex_);
    const VaultName picture{hash, picture_kind(hash)};
    auto bytes = store_.pictures->get(picture);
    if (!bytes)
        throw InputError(
            fmt::format("{}: is missing; bring it back from a backup", store_.pictures->place_of(picture)));
    if (sha256(*bytes) != hash)
        throw InputError(
            fmt::format("{}: is damaged; bring it back from a backup", store_.pictures->place_of(picture)));
    return std::move(*bytes);
}

}  // namespace tonemend
