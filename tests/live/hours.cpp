// A working day at the bench, as fast as it can go: does it keep its memory, and every reading?
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>

#include "camera/capture_loop.h"
#include "camera/practice_lens.h"
#include "camera/practice_stage.h"
#include "live/measure_loop.h"
#include "live/reading_keeper.h"
#include "picture/input_error.h"
#include "practice/truth.h"
#include "record/utc_time.h"
#include "tests/catch.h"
#include "tests/support/scratch_area.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;
using namespace std::chrono_literals;

namespace {

using Clock = std::chrono::steady_clock;

// 15 frames/s; a reading every ten minutes, and between two readings one of each event.
constexpr std::uint64_t frames_a_second = 15, frames_a_reading = 600 * frames_a_second;
constexpr std::uint64_t lamp_changes = 1000, card_moves = 2500, stalls = 4000, breaks = 5500,
                        source_changes = 7000, coat_dries = 8000;
// So many frames come for one that is measured; measuring takes longest by far.
constexpr std::uint64_t frames_a_measurement = 45;

struct Situation {
    std::vector<std::shared_ptr<const Frame>> frames;
    double known = 0;  // ΔE2000
};

// Two lamps, two places of the card, two coats.
class Day {
  public:
    Day() {
        PracticeStage stage;
        Random random(8, "hours");
        for (std::size_t i = 0; i < 8; ++i) {
            PracticeSettings settings;
            settings.bench.width = 640;
            settings.bench.height = 360;
            settings.bench.lamp = i & 1U ? "led:4000" : "CIE-D65";
            settings.card_right = i & 2U ? 8 : 0;
            settings.bench.difference = i & 4U ? 1.5 : 5;
            const PracticeScene scene = make_live_scene(settings);
            const PracticeLens lens(scene, stage.render(scene));
            Situation& situation = situations_.emplace_back();
            situation.known = truth(scene).de2000;
            for (int k = 0; k < 4; ++k) {
                situation.frames.push_back(std::make_shared<const Frame>(lens.take(random)));
                known_of_[situation.frames.back().get()] = situation.known;
            }
            regions_ = {rectangle(scene.original.region), rectangle(scene.repair.region), {}};
        }
    }

    std::shared_ptr<const Frame> frame(std::uint64_t number) const {
        const std::uint64_t part = number % frames_a_reading, whole = number / frames_a_reading;
        const auto changed = [&](std::uint64_t at) { return (whole + (part >= at ? 1 : 0)) % 2; };
        const Situation& situation =
            situations_[changed(lamp_changes) + 2 * changed(card_moves) + 4 * changed(coat_dries)];
        return situation.frames[number % situation.frames.size()];
    }
    double known(const Frame& frame) const { return known_of_.at(&frame); }
    const BenchRegions& regions() const { return regions_; }

  private:
    std::vector<Situation> situations_;
    std::map<const Frame*, double> known_of_;
    BenchRegions regions_;
};

// What one source after the other plays.
struct Script {
    Day day;
    std::uint64_t end = 0;
    std::atomic<std::uint64_t> next = 0, allowed = frames_a_measurement, stalled = 0, broken = 0;
};

class ScriptedSource : public Source {
  public:
    explicit ScriptedSource(std::shared_ptr<Script> script) : script_(std::move(script)) {}
    std::string name() const override { return "script"; }
    bool live() const override { return true; }
    std::shared_ptr<const Frame> next(std::chrono::milliseconds patience) override {
        Script& script = *script_;
        const std::uint64_t number = script.next;
        const std::uint64_t part = number % frames_a_reading, reading = number / frames_a_reading + 1;
        if (part == stalls && script.stalled.exchange(reading) != reading) {
            std::this_thread::sleep_for(500ms);
            return nullptr;
        }
        if (part == breaks && script.broken.exchange(reading) != reading)
            throw InputError("script: unplugged; plug it in");
        const auto end = Clock::now() + patience;
        while (number >= script.allowed) {
            if (Clock::now() > end) return nullptr;
            std::this_thread::sleep_for(50us);
        }
        if (number >= script.end) {
            std::this_thread::sleep_for(patience);
            return nullptr;
        }
        ++script.next;
        return script.day.frame(number);
    }

  private:
    std::shared_ptr<Script> script_;
};

double resident_megabytes() {
    std::ifstream file("/proc/self/statm");
    double all = 0, resident = 0;
    file >> all >> resident;
    return resident * static_cast<double>(sysconf(_SC_PAGESIZE)) / 1e6;
}

// TONEMEND_SIMULATED_HOURS; without it as many as take less than a minute.
double hours_wanted() {
    const char* wanted = std::getenv("TONEMEND_SIMULATED_HOURS");
    return wanted ? std::atof(wanted) : 1;
}

}  // namespace

TEST_CASE("A working day keeps its memory flat within 5 % and drops no reading", "[.shown][hours]") {
    const double hours = hours_wanted();
    const auto readings = static_cast<std::uint64_t>(std::lround(hours * 6));
    REQUIRE(readings >= 6);
    const auto script = std::make_shared<Script>();
    script->end = readings * frames_a_reading;
    const ScratchFolder job;

    CapturePatience patience;
    patience.frame = 20ms;
    patience.least_silence = 300ms;
    patience.first_retry = 5ms;
    CaptureLoop capture(patience);
    const auto store = area_in(job.path());
    ReadingKeeper keeper([] {});
    std::atomic<std::uint64_t> states = 0;
    std::atomic<double> worst_miss = 0;
    MeasureLoop measure([&] { return *capture.latest(); }, [&] { ++states; });
    MeasureRequest request;
    request.regions = script->day.regions();
    measure.ask(request);
    capture.watch(std::make_shared<ScriptedSource>(script));

    std::uint64_t taken = 0, kept = 0, lost = 0, measured = 0, seen = 0, seen_frame = 0, sources = 1,
                  stale = 0, restarts = 0;
    int longest_mean = 0;
    std::vector<double> memory;
    const auto start = Clock::now();
    const auto collect = [&] {
        for (const KeepingOutcome& outcome : keeper.finished()) ++(outcome.trouble.empty() ? kept : lost);
    };
    while (taken < readings) {
        measure.wake();
        std::this_thread::sleep_for(500us);
        const auto state = measure.state();
        if (state->revision != seen) {
            seen = state->revision;
            if (state->stale) ++stale;
            if (state->frame_number != seen_frame) {
                seen_frame = state->frame_number;
                ++measured;
                if (state->frames_averaged == 1) ++restarts;
                longest_mean = std::max(longest_mean, state->frames_averaged);
            }
        }
        // The loop is ahead of the script when it has measured all that came, stale or not.
        if (seen_frame == capture.latest()->number) script->allowed = script->next + frames_a_measurement;
        const std::uint64_t now = script->next;
        if (now % frames_a_reading >= source_changes && sources == now / frames_a_reading + 1) {
            capture.watch(std::make_shared<ScriptedSource>(script));
            ++sources;
        }
        if (now < (taken + 1) * frames_a_reading || !state->comparison) continue;
        keeper.keep(store, state, "six-step-card", utc_now());
        ++taken;
        const Comparison& comparison = *state->comparison;
        worst_miss = std::max(worst_miss.load(),
                              std::abs(comparison.difference.de2000 - script->day.known(*state->frame)) /
                                  comparison.difference.de2000_u95);
        while (kept + lost < taken) {
            collect();
            std::this_thread::sleep_for(1ms);
        }
        memory.push_back(resident_megabytes());
    }
    const double seconds = std::chrono::duration<double>(Clock::now() - start).count();
    capture.stop();

    const std::size_t warm = memory.size() / 4;
    const double first = memory[warm], last = memory.back();
    const auto [least, most] =
        std::minmax_element(memory.begin() + static_cast<std::ptrdiff_t>(warm), memory.end());
    const std::size_t files = store->list().size();
    fmt::print(
        "{} simulated hours in {:.0f} s: {} frames of 640 x 360 captured, {} measured, {} means begun "
        "(longest {} "
        "frames), {} stale spells, {} sources; {} readings taken, {} dropped, worst miss {:.2f} of its u95\n"
        "resident memory: first {:.1f} MB, last {:.1f}, least {:.1f}, most {:.1f}\n",
        hours, seconds, script->next.load(), measured, restarts, longest_mean, stale, sources, taken,
        taken - files, worst_miss.load(), first, last, *least, *most);
    CHECK(lost == 0);
    CHECK(files == taken);
    CHECK(worst_miss < 1.3);
    CHECK(longest_mean == 16);
    CHECK(stale >= 2 * readings);  // the silence and the break
    CHECK(*most < 1.05 * first);
    CHECK(last < 1.05 * first);
}
