#include "live/desk/job_desk.h"

#include <fmt/format.h>

#include "record/utc_time.h"

namespace tonemend {
namespace {

constexpr std::size_t most_lines = 200;

}  // namespace

void JobDesk::open(const StoreLocation& store, const std::string& current) {
    if (!(door_.location() == store)) door_ = StoreDoor(store);
    current_ = current;
    field_.set("");
    look();
    select_area(current);
}

void JobDesk::look() {
    lines_.clear();
    selected_ = 0;
    const auto kept = door_.look();
    if (!kept) return;
    for (const JobSummary& summary : kept->search({.anywhere = field_.text()})) {
        for (const Piece& piece : kept->pieces(summary.job.uid))
            for (const Area& area : kept->areas(piece.uid)) {
                if (lines_.size() >= most_lines) return;
                DeskLine& line = lines_.emplace_back();
                line.job = summary.job, line.area = area;
                line.piece = piece.name, line.wood = piece.wood;
                const auto readings = kept->readings(area.uid);
                line.readings = static_cast<int>(readings.size());
                if (!readings.empty()) line.de2000 = readings.back().de2000;
            }
    }
}

void JobDesk::select_area(const std::string& area) {
    for (std::size_t i = 0; i < lines_.size(); ++i)
        if (lines_[i].area.uid == area) selected_ = i;
}

void JobDesk::type(char32_t point) {
    field_.type(point);
    look();
}

void JobDesk::select(std::size_t line) {
    if (line < lines_.size()) selected_ = line;
}

const DeskLine& JobDesk::line() const {
    if (lines_.empty()) throw InputError("no job is here; type a name and press Ctrl N to start one");
    return lines_.at(selected_);
}

JobDesk::Outcome JobDesk::press(DeskKey key) {
    switch (key) {
        case DeskKey::earlier:
            if (selected_ > 0) --selected_;
            return {};
        case DeskKey::later:
            if (selected_ + 1 < lines_.size()) ++selected_;
            return {};
        case DeskKey::rub_out:
            field_.take_back();
            look();
            return {};
        case DeskKey::leave:
            return {"", "", true};
        case DeskKey::enter:
            current_ = line().area.uid;
            return {current_,
                    fmt::format("Readings go to job {}: {}, {}.", line().job.number, line().piece,
                                line().area.name),
                    true};
        case DeskKey::start:
            return start_job();
        case DeskKey::add:
            return add_area();
        case DeskKey::close:
            return close_or_open();
        case DeskKey::copy:
            return copy_recipe();
        case DeskKey::undo:
            return take_back_newest();
        case DeskKey::left:
        case DeskKey::right:
            return {};
    }
    return {};
}

JobDesk::Outcome JobDesk::start_job() {
    if (field_.text().empty()) throw InputError("type the new job's name first");
    JobStore& kept = *door_.keep();
    const StartedJob started = kept.start_job({.name = field_.text()}, {}, {});
    const Job& job = started.job;
    current_ = started.area.uid;
    field_.set("");
    look();
    select_area(current_);
    return {current_, fmt::format("Job {} '{}' is started; readings go to it.", job.number, job.name), false};
}

JobDesk::Outcome JobDesk::add_area() {
    const DeskLine chosen = line();
    if (field_.text().empty()) throw InputError("type the new area's name first; arrows choose the job");
    const Area area = door_.keep()->add_area({.piece = chosen.area.piece, .name = field_.text()});
    current_ = area.uid;
    field_.set("");
    look();
    select_area(current_);
    return {current_,
            fmt::format("Area '{}' is added to job {}; readings go to it.", area.name, chosen.job.number),
            false};
}

JobDesk::Outcome JobDesk::close_or_open() {
    const DeskLine chosen = line();
    JobStore& kept = *door_.keep();
    const bool open = chosen.job.closed.empty();
    if (open)
        kept.close_job(chosen.job.uid, utc_now());
    else
        kept.reopen_job(chosen.job.uid);
    look();
    select_area(chosen.area.uid);
    return {"",
            fmt::format("Job {} is {}.", chosen.job.number,
                        open ? "closed; nothing in it is lost" : "open again"),
            false};
}

JobDesk::Outcome JobDesk::copy_recipe() {
    const DeskLine chosen = line();
    if (current_.empty() || chosen.area.uid == current_)
        throw InputError("choose another area to copy from; its recipe goes to where readings go");
    const auto steps = door_.keep()->copy_recipe(chosen.area.uid, current_);
    return {"", fmt::format("{} steps of job {} are planned here too.", steps.size(), chosen.job.number),
            false};
}

JobDesk::Outcome JobDesk::take_back_newest() {
    const DeskLine chosen = line();
    const std::string words = door_.keep()->undo(chosen.job.uid);
    look();
    select_area(chosen.area.uid);
    return {"", fmt::format("Job {}: {} is taken back.", chosen.job.number, words), false};
}

}  // namespace tonemend
