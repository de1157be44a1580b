// The tick as samples, and as what a sound device of the test's own was handed. Pitches are those of equal
// temperament on A = 440 Hz (ISO 16).
#include "live/tick.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <numbers>

#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

using Clock = std::chrono::steady_clock;

// Measured 0.1; a busy machine may take the processor away meanwhile. Opening the device takes longer.
constexpr double most_milliseconds = 5;

/// How strong one frequency is in the first `count` samples, as an amplitude (Goertzel's sum, 1958).
double strength(const std::vector<std::int16_t>& samples, std::size_t count, double hertz) {
    double cosine = 0, sine = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double angle = 2 * std::numbers::pi * hertz * static_cast<double>(i) / tick_rate;
        cosine += samples[i] * std::cos(angle), sine += samples[i] * std::sin(angle);
    }
    return std::hypot(cosine, sine) / static_cast<double>(count);
}

double strongest(const std::vector<std::int16_t>& samples, std::size_t count) {
    double best = 0;
    for (double hertz = 200; hertz < 4000; hertz += 5)
        if (strength(samples, count, hertz) > strength(samples, count, best)) best = hertz;
    return best;
}

/// ALSA with nothing but what `text` says, for as long as it lives; what is written to stderr is caught.
class SoundSetup {
  public:
    explicit SoundSetup(const std::string& text) {
        put_content(folder_ / "asound.conf", text);
        setenv("ALSA_CONFIG_PATH", (folder_ / "asound.conf").c_str(), 1);
        std::fflush(stderr);
        before_ = dup(STDERR_FILENO);
        const int caught = open((folder_ / "stderr").c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
        dup2(caught, STDERR_FILENO);
        close(caught);
    }
    ~SoundSetup() {
        dup2(before_, STDERR_FILENO);
        close(before_);
        unsetenv("ALSA_CONFIG_PATH");
    }
    SoundSetup(const SoundSetup&) = delete;
    SoundSetup& operator=(const SoundSetup&) = delete;

    std::string said_on_stderr() const { return content_of(folder_ / "stderr"); }

  private:
    ScratchFolder folder_;
    int before_ = -1;
};

std::string file_device(const std::filesystem::path& file) {
    return fmt::format(
        "pcm.!default {{ type file slave.pcm \"null\" file \"{}\" format raw }}\npcm.null {{ type null }}\n",
        file.string());
}

template <typename Condition>
bool await(Condition condition) {
    for (int i = 0; i < 1000 && !condition(); ++i) std::this_thread::sleep_for(std::chrono::milliseconds(5));
    return condition();
}

double milliseconds_of(Ticker& ticker, Tick tick) {
    const auto start = Clock::now();
    ticker.tick(tick);
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

}  // namespace

TEST_CASE("What has settled is said by five high ticks, which no reading makes") {
    const auto settled = tick_samples(Tick::settled);
    CHECK(settled.size() == 4 * 4320 + 1440);
    CHECK(strongest(settled, 1440) == Approx(440 * std::pow(2.0, 2)).margin(20));
}

TEST_CASE("A kept reading ticks once and high, a doubtful one twice and low, each 30 ms") {
    const auto kept = tick_samples(Tick::kept), doubtful = tick_samples(Tick::doubtful);
    CHECK(kept.size() == 1440);      // 30 ms at 48 kHz
    CHECK(doubtful.size() == 5760);  // 90 ms and 30 ms
    CHECK(strongest(kept, kept.size()) == Approx(440 * std::pow(2.0, 2)).margin(20));
    CHECK(strongest(doubtful, 1440) == Approx(440 * std::pow(2.0, 5.0 / 12)).margin(20));
    for (const auto& samples : {kept, doubtful}) {
        CHECK(samples.front() == 0);
        const auto [low, high] = std::minmax_element(samples.begin(), samples.end());
        CHECK(*high < 16384);
        CHECK(*high > 8192);
        CHECK(*low > -16384);
        // Gone at the end, so that no step is heard: 60 dB under half of full scale is 16.
        CHECK(std::abs(samples.back()) <= 17);
    }
    CHECK(std::all_of(doubtful.begin() + 1440, doubtful.begin() + 4320, [](auto s) { return s == 0; }));
    CHECK(std::equal(doubtful.begin(), doubtful.begin() + 1440, doubtful.begin() + 4320));
}

TEST_CASE("Every sample of a tick reaches the sound device, and the window never waits for it") {
    const ScratchFolder folder;
    const auto file = folder / "heard.raw";
    const SoundSetup sound(file_device(file));
    double slowest = 0;
    {
        Ticker ticker;
        for (const Tick tick : {Tick::kept, Tick::doubtful}) {
            std::filesystem::remove(file);
            const std::size_t bytes = 2 * tick_samples(tick).size();
            slowest = std::max(slowest, milliseconds_of(ticker, tick));
            REQUIRE(await([&] { return content_of(file).size() >= bytes; }));
            const std::string heard = content_of(file);
            std::vector<std::int16_t> samples(tick_samples(tick).size());
            std::memcpy(samples.data(), heard.data(), bytes);
            CHECK(samples == tick_samples(tick));
            CHECK(ticker.trouble().empty());
        }
    }
    fmt::print("tick() returned within {:.3f} ms, the thread's start with it\n", slowest);
    CHECK(slowest < most_milliseconds);
    CHECK(sound.said_on_stderr().empty());
}

TEST_CASE("Without a sound device there is one line for the person, nothing on stderr, and no waiting") {
    for (const std::string& text :
         {std::string("pcm.other { type null }\n"), std::string("pcm.!default { type hw card 31 }\n"),
          std::string("pcm.!default { type no_such_kind }\n"), std::string("pcm.!default { type file")}) {
        INFO(text);
        const SoundSetup sound(text);
        Ticker ticker;
        const double took = milliseconds_of(ticker, Tick::kept);
        REQUIRE(await([&] { return !ticker.trouble().empty(); }));
        CHECK(took < most_milliseconds);
        CHECK(ticker.trouble().starts_with("No tick can be heard ("));
        CHECK(ticker.trouble().find('\n') == std::string::npos);
        CHECK(ticker.trouble().find("switch the tick off") != std::string::npos);
        CHECK(sound.said_on_stderr().empty());
    }
}

TEST_CASE("A device that comes later is found, and the line about it goes") {
    const ScratchFolder folder;
    Ticker ticker;
    {
        const SoundSetup nothing("pcm.other { type null }\n");
        ticker.tick(Tick::kept);
        REQUIRE(await([&] { return !ticker.trouble().empty(); }));
    }
    const SoundSetup sound(file_device(folder / "heard.raw"));
    ticker.tick(Tick::kept);
    CHECK(await([&] { return ticker.trouble().empty(); }));
    CHECK(content_of(folder / "heard.raw").size() >= 2880);
}

TEST_CASE("Ticks that come faster than they sound are dropped, not queued") {
    const ScratchFolder folder;
    const SoundSetup sound(file_device(folder / "heard.raw"));
    Ticker ticker;
    std::vector<double> took;
    for (int i = 0; i < 1000; ++i) took.push_back(milliseconds_of(ticker, Tick::kept));
    std::sort(took.begin(), took.end());
    fmt::print("1000 ticks: 990 returned within {:.4f} ms, the slowest within {:.3f} ms\n", took[989],
               took[999]);
    CHECK(took[989] < 0.1);
    // One at a time they would sound for 30 s; the destructor waits for the one that sounds.
}
