#include "calibrate/keep/capture_facts_json.h"

#include <nlohmann/json.hpp>

namespace tonemend {
namespace {

void take(const JsonPart& json, const char* key, std::optional<double>& value) {
    constexpr double most = 1e9;
    if (const auto part = json.find(key)) value = part->number(0, most);
}

void take(const JsonPart& json, const char* key, std::optional<bool>& value) {
    if (const auto part = json.find(key)) value = part->flag();
}

}  // namespace

nlohmann::ordered_json facts_json(const CaptureFacts& facts) {
    nlohmann::ordered_json json{{"camera", facts.camera}, {"raw", facts.raw}, {"mean_of", facts.mean_of}};
    const auto put = [&json](const char* key, const auto& value) {
        if (value) json[key] = *value;
    };
    put("exposure_seconds", facts.exposure_seconds);
    put("f_number", facts.f_number);
    put("iso", facts.iso);
    put("white_balance_automatic", facts.white_balance_automatic);
    put("exposure_automatic", facts.exposure_automatic);
    put("flash_fired", facts.flash_fired);
    put("jpeg_quality", facts.jpeg_quality);
    return json;
}

CaptureFacts to_facts(const JsonPart& json) {
    CaptureFacts facts;
    facts.camera = json.at("camera").text(200);
    facts.raw = json.at("raw").flag();
    constexpr std::size_t most_frames = 1'000'000;
    if (const auto mean_of = json.find("mean_of"))
        facts.mean_of = static_cast<int>(mean_of->whole(most_frames));
    take(json, "exposure_seconds", facts.exposure_seconds);
    take(json, "f_number", facts.f_number);
    take(json, "iso", facts.iso);
    take(json, "white_balance_automatic", facts.white_balance_automatic);
    take(json, "exposure_automatic", facts.exposure_automatic);
    take(json, "flash_fired", facts.flash_fired);
    if (const auto quality = json.find("jpeg_quality"))
        facts.jpeg_quality = static_cast<int>(quality->whole(100));
    return facts;
}

}  // namespace tonemend
