#include "record/store/area_readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "picture/encoders.h"
#include "picture/encoding_profile.h"
#include "picture/input_error.h"
#include "picture/read_picture.h"
#include "record/kept_reading_json.h"
#include "record/second_light_json.h"
#include "record/store/before_after.h"

namespace tonemend {
namespace {

// PNG cannot hold floating-point samples, and libpng leaves out a profile that it finds fault with, which
// those with a lookup table may be: whoever wrote it wrote it.
PictureToKeep encode_source(const ReadingPicture& source) {
    const Frame& frame = *source.frame;
    if (!source.file.empty()) return {source.file, source.file_kind, frame.width, frame.height};
    WriteOptions options;
    options.icc_profile = encoding_profile(frame.encoding);
    const bool png = frame.type != SampleType::float32 && frame.encoding.decoding->separable();
    return {png ? encode_png(frame, options) : encode_tiff(frame, options), png ? "png" : "tif", frame.width,
            frame.height};
}

// Width and height of a PNG stand in its first chunk (PNG specification, 11.2.2); 0 where there is none.
int png_number(const AnnotatedPicture& png, std::size_t at) {
    if (png.size() < at + 4) return 0;
    unsigned value = 0;
    for (std::size_t i = 0; i < 4; ++i) value = value << 8 | std::to_integer<unsigned>(png[at + i]);
    return static_cast<int>(std::min(value, 1000000U));
}

KeptReading to_kept(const ReadingRecord& record, const std::string& place) {
    KeptReading kept;
    kept.number = record.number;
    kept.taken = record.taken, kept.picture = record.picture;
    kept.original = record.original, kept.repair = record.repair;
    kept.de2000 = record.de2000, kept.u95 = record.u95, kept.tolerance = record.tolerance;
    kept.verdict = record.verdict, kept.unfit = record.unfit;
    kept.has_source = !record.source.empty();
    kept.place = place;
    return kept;
}

// What a reading is held against when it is kept.
std::vector<ComparisonRecord> comparisons_with(JobStore& store, const ReadingRecord& kept,
                                               const std::optional<PairUnderLights>& lights) {
    std::vector<ComparisonRecord> made;
    if (kept.role == ReadingRole::after)
        if (const auto pair = find_before_after(store.readings(kept.area)))
            made.push_back(to_comparison_record(*pair));
    if (lights)
        made.push_back({.uid = {},
                        .area = kept.area,
                        .kind = ComparisonKind::second_light,
                        .first = {},
                        .second = kept.uid,
                        .made = kept.taken,
                        .text = to_json(*lights).dump(-1, ' ', false,
                                                      nlohmann::ordered_json::error_handler_t::replace)});
    return made;
}

std::string place_of(const Job& job, int number) {
    return fmt::format("job {} ('{}') as reading {}", job.number, job.name, number);
}

}  // namespace

std::string software_name() {
    return "tonemend " TONEMEND_VERSION;
}

KeptReading keep_in_area(JobStore& store, const std::string& area, ReadingRole role,
                         const ReadingToKeep& reading, const std::string& light_name) {
    const Comparison& comparison = reading.comparison;
    ReadingForStore wanted;
    ReadingRecord& record = wanted.record;
    record.area = area, record.role = role;
    record.taken = reading.taken, record.picture = reading.picture;
    record.original = comparison.original.lab, record.repair = comparison.repair.lab;
    record.de2000 = comparison.difference.de2000, record.u95 = comparison.difference.de2000_u95;
    record.tolerance = comparison.tolerance, record.verdict = comparison.verdict;
    record.unfit = comparison.unfit();
    record.software = software_name();
    if (const auto& light = reading.calibration.stated.light) {
        record.light = light->text;
        wanted.kelvin = light->kelvin;
        wanted.light_name = light_name;
    }
    if (reading.source) wanted.source = encode_source(*reading.source);
    wanted.annotated = PictureToKeep{reading.annotated, "png", png_number(reading.annotated, 16),
                                     png_number(reading.annotated, 20)};
    wanted.text = reading_json(reading, reading.source ? "source." + wanted.source->kind : "")
                      .dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
    wanted.compare = [&](const ReadingRecord& kept) { return comparisons_with(store, kept, reading.lights); };
    const ReadingRecord kept = store.add_reading(wanted);
    KeptReading listed = to_kept(kept, place_of(store.job_of_area(area), kept.number));
    listed.light = reading.light;
    return listed;
}

std::shared_ptr<JobStore> AreaReadings::find() const {
    const auto store = door_.look();
    if (store) find_area(*store, false);
    return area_.empty() ? nullptr : store;
}

std::shared_ptr<JobStore> AreaReadings::make() {
    auto store = door_.keep();
    find_area(*store, true);
    return store;
}

void AreaReadings::find_area(JobStore& store, bool make) const {
    if (!area_.empty()) return;
    if (choice_.area.empty()) {
        area_ = store.standing_area(choice_.standing_job, make);
        return;
    }
    if (!store.area(choice_.area))
        throw InputError(
            fmt::format("{}: the area is not there any more; choose another job", store.place()));
    area_ = choice_.area;
}

KeptReading AreaReadings::keep(const ReadingToKeep& reading) {
    const std::lock_guard lock(mutex_);
    const auto store = make();
    const bool first = store->readings(area_).empty();
    const ReadingRole role = reading.role.value_or(first ? ReadingRole::before : ReadingRole::during);
    return keep_in_area(*store, area_, role, reading);
}

FinishingStep AreaReadings::add_step(const FinishingStep& wanted) {
    const std::lock_guard lock(mutex_);
    const auto store = make();
    FinishingStep step = wanted;
    step.area = area_;
    return store->add_step(step);
}

void AreaReadings::add_steps(std::vector<FinishingStep> steps) {
    const std::lock_guard lock(mutex_);
    const auto store = make();
    for (FinishingStep& step : steps) step.area = area_;
    (void)store->add_steps(std::move(steps));
}

std::string AreaReadings::begin_piece() {
    const std::lock_guard lock(mutex_);
    const auto store = make();
    const Job job = store->job_of_area(area_);
    const std::size_t pieces = store->pieces(job.uid).size();
    const Piece piece = store->add_piece({.job = job.uid, .name = fmt::format("Piece {}", pieces + 1)});
    return store->add_area({.piece = piece.uid, .name = "Repair"}).uid;
}

namespace {

KeptReading to_listed(JobStore& store, const Job& job, const ReadingRecord& record) {
    KeptReading kept = to_kept(record, place_of(job, record.number));
    try {
        if (const auto text = kept_reading(store.reading_text(record.uid))) kept.light = text->light;
    } catch (const InputError&) {
        // Its numbers are there all the same; verify tells what is not.
        kept.has_source = false;
    }
    return kept;
}

}  // namespace

std::vector<KeptReading> list_readings(JobStore& store, const std::string& area) {
    const Job job = store.job_of_area(area);
    std::vector<KeptReading> all;
    for (const ReadingRecord& record : store.readings(area)) all.push_back(to_listed(store, job, record));
    return all;
}

std::optional<KeptReading> newest_reading(JobStore& store, const std::string& area) {
    const std::vector<ReadingRecord> readings = store.readings(area);
    if (readings.empty()) return std::nullopt;
    return to_listed(store, store.job_of_area(area), readings.back());
}

std::vector<KeptReading> AreaReadings::list() const {
    const std::lock_guard lock(mutex_);
    const auto store = find();
    return store ? list_readings(*store, area_) : std::vector<KeptReading>{};
}

ReadingRecord AreaReadings::record_of(int number) const {
    if (const auto store = find())
        for (const ReadingRecord& record : store->readings(area_))
            if (record.number == number) return record;
    throw InputError(fmt::format("the job holds no reading {}; is it undone already?", number));
}

void AreaReadings::undo(int number) {
    const std::lock_guard lock(mutex_);
    (void)record_of(number);
    const auto store = make();
    store->undo_reading(store->job_of_area(area_).uid, number);
}

ReopenedReading AreaReadings::reopen(int number) const {
    const std::lock_guard lock(mutex_);
    const ReadingRecord record = record_of(number);
    const auto store = find();
    if (record.source.empty())
        throw InputError(
            fmt::format("reading {}: was kept without its picture and cannot be shown again", number));
    const std::string text = store->reading_text(record.uid);
    const std::string name = fmt::format("reading {}", number);
    Frame frame = read_picture(store->picture(record.source), name);
    try {
        ReopenedReading reopened{to_kept(record, place_of(store->job_of_area(area_), number)),
                                 to_source(text, std::move(frame))};
        if (const auto kept = kept_reading(text)) reopened.reading.light = kept->light;
        return reopened;
    } catch (const InputError& error) {
        throw InputError(fmt::format("{}: {}", name, error.what()));
    }
}

std::shared_ptr<JobStore> AreaReadings::store() const {
    const std::lock_guard lock(mutex_);
    return find();
}

std::string AreaReadings::area() const {
    const std::lock_guard lock(mutex_);
    (void)find();
    return area_;
}

}  // namespace tonemend
