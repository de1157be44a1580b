#include "record/kit/job_lessons.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <tuple>

#include "advise/board/board.h"
#include "advise/model/read_look.h"
#include "record/store/dilution.h"

namespace tonemend {
namespace {

using LooksJson = nlohmann::json;

std::optional<Lab> lab_in(const LooksJson& json) {
    if (!json.is_array() || json.size() != 3) return std::nullopt;
    for (const LooksJson& value : json)
        if (!value.is_number()) return std::nullopt;
    const Lab lab{json[0].get<double>(), json[1].get<double>(), json[2].get<double>()};
    if (!can_be_seen(lab)) return std::nullopt;
    return lab;
}

std::optional<ReadLook> look_in(const LooksJson& json) {
    if (!json.is_object()) return std::nullopt;
    const auto part = [&](const char* key) { return json.contains(key) ? json[key] : LooksJson(); };
    const auto ground = lab_in(part("ground")), figure = lab_in(part("figure")),
               u95 = lab_in(part("lab_u95"));
    const LooksJson share = part("figure_share");
    if (!ground || !figure || !u95 || !share.is_number()) return std::nullopt;
    ReadLook read;
    read.look = {*ground, *figure, std::clamp(share.get<double>(), 0.0, 1.0)};
    read.u = own_deviation({u95->L, u95->a, u95->b});
    return read;
}

// A coat or a reading, by when.
struct Event {
    std::string when, uid;  // uids are ordered by time too, and finer
    const FinishingStep* step = nullptr;
    const ReadingRecord* reading = nullptr;
    const std::string* text = nullptr;
};

std::vector<Event> events_of(const JobDossier::AreaDossier& area) {
    std::vector<Event> events;
    for (const FinishingStep& step : area.steps)
        if (!step.done.empty()) events.push_back({step.done, step.uid, &step, nullptr, nullptr});
    for (const JobDossier::ReadingDossier& reading : area.readings)
        if (!reading.record.unfit)
            events.push_back(
                {reading.record.taken, reading.record.uid, nullptr, &reading.record, &reading.text});
    // Both times are UTC in one form.
    std::stable_sort(events.begin(), events.end(), [](const Event& one, const Event& other) {
        return std::tie(one.when, one.uid) < std::tie(other.when, other.uid);
    });
    return events;
}

double concentration_in(const FinishingStep& step) {
    if (step.dilution.empty()) return 1;
    const Dilution dilution = parse_dilution(step.dilution);
    return dilution.colourant / (dilution.colourant + dilution.thinner);
}

// What was put on since the last reading.
struct SinceReading {
    std::vector<AppliedCoat> coats;
    bool unknown = false;  // something that the kit does not hold
    bool clear = false;
    bool any = false;
};

void put_on(const FinishingStep& step, const Kit& kit, const ModelJars& jars, AreaLessons& lessons,
            SinceReading& since) {
    if (step.grit > 0) lessons.grit = std::clamp(step.grit, 40, 1000), lessons.grit_said = true;
    if (step.kind == StepKind::sand) {
        // The surface is another now.
        since.unknown = since.any = true;
        return;
    }
    since.any = true;
    const auto jar = kit.find(step.colourant);
    if (jar) lessons.stage = std::max(lessons.stage, kit.jars[*jar].facts().stage);
    if (step.kind == StepKind::clear) {
        since.clear = lessons.finished = true;
        lessons.finish = step.colourant, lessons.stage = FinishingStage::clear;
        return;
    }
    if (step.kind == StepKind::seal) return;
    // Looked up by hand: GCC 12 takes a copied std::optional for uninitialised.
    std::size_t colourant = jars.colourants.size();
    if (jar && jars.colourant[*jar]) colourant = *jars.colourant[*jar];
    const double concentration = concentration_in(step);
    constexpr int most_coats = 20;
    if (colourant == jars.colourants.size() || !(concentration > 0) || step.coats < 1 ||
        step.coats > most_coats) {
        since.unknown = true;
        return;
    }
    for (int i = 0; i < step.coats; ++i)
        since.coats.push_back({colourant, concentration, lessons.earlier[colourant]++});
}

}  // namespace

std::optional<KeptLooks> looks_of(const std::string& text) {
    const LooksJson json = LooksJson::parse(text, nullptr, false);
    if (!json.is_object() || !json.contains("original") || !json.contains("repair")) return std::nullopt;
    const auto original = look_in(json["original"]), repair = look_in(json["repair"]);
    if (!original || !repair) return std::nullopt;
    return KeptLooks{*original, *repair};
}

std::optional<KeptSecondLight> second_light_of(const std::string& text) {
    const LooksJson json = LooksJson::parse(text, nullptr, false);
    if (!json.is_object() || !json.contains("lights") || !json["lights"].is_array()) return std::nullopt;
    for (std::size_t i = 1; i < json["lights"].size(); ++i) {
        const LooksJson& light = json["lights"][i];
        const auto lab_at = [&](const char* side) {
            const auto pointer = LooksJson::json_pointer(std::string("/comparison/") + side + "/lab");
            return light.contains(pointer) ? lab_in(light[pointer]) : std::nullopt;
        };
        if (!light.is_object() || !light.contains("stated") || !light["stated"].is_string()) continue;
        const auto original = lab_at("original"), repair = lab_at("repair");
        if (original && repair)
            return KeptSecondLight{light["stated"].get<std::string>(), *original, *repair};
    }
    return std::nullopt;
}

AreaLessons lessons_of(const JobDossier::AreaDossier& area, const std::string& wood, const Kit& kit,
                       const ModelJars& jars) {
    AreaLessons lessons;
    lessons.earlier.assign(jars.colourants.size(), 0);
    SinceReading since;
    std::optional<ReadLook> before;
    bool was_finished = false;
    for (const Event& event : events_of(area)) {
        if (event.step != nullptr) {
            put_on(*event.step, kit, jars, lessons, since);
            lessons.coat_since = lessons.coat_since || since.any;
            continue;
        }
        const auto looks = looks_of(*event.text);
        if (!looks) continue;
        if (before && !since.unknown && !was_finished) {
            if (!since.clear && !since.coats.empty())
                lessons.seen.push_back(
                    {since.coats, {wood, area.area.uid, lessons.grit}, *before, looks->repair});
            if (since.clear && since.coats.empty())
                lessons.finishes.push_back({lessons.finish, pair_of(*before, looks->repair)});
        }
        before = looks->repair;
        was_finished = lessons.finished;
        since = {};
        lessons.newest = looks, lessons.newest_number = event.reading->number, lessons.coat_since = false;
    }
    return lessons;
}

}  // namespace tonemend
