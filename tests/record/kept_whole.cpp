// Whatever happens while a reading is being kept, a reading that was acknowledged is whole and the earlier
// ones are as they were.
#include <fcntl.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <set>
#include <vector>

#include "picture/input_error.h"
#include "record/store/store_check.h"
#include "tests/catch.h"
#include "tests/record/kept_area.h"
#include "tests/record/practice_reading.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

/// A process of its own that does `action` and then leaves at once.
template <typename Action>
pid_t start_process(Action action) {
    std::fflush(stdout);
    const pid_t child = fork();
    if (child == 0) {
        action();
        _exit(0);
    }
    return child;
}

/// Keeps readings until it is killed, writing the number of each into `said` when the store has acknowledged
/// it.
pid_t keep_until_killed(const AreaChoice& choice, const ReadingToKeep& reading, int said) {
    return start_process([&] {
        AreaReadings readings(choice);
        while (true) {
            const int number = readings.keep(reading).number;
            if (write(said, &number, sizeof number) != sizeof number) _exit(1);
        }
    });
}

/// The numbers that a reader of the pipe was told.
std::vector<int> all_said(int pipe_end) {
    std::vector<int> numbers;
    for (int number = 0; read(pipe_end, &number, sizeof number) == sizeof number;) numbers.push_back(number);
    return numbers;
}

/// From the start of a writer to its first acknowledgement, on this machine as it is now; microseconds.
useconds_t time_of_a_writer(const AreaChoice& choice, const ReadingToKeep& reading) {
    int ends[2], number = 0;
    REQUIRE(pipe2(ends, O_CLOEXEC) == 0);
    const auto start = std::chrono::steady_clock::now();
    const pid_t child = keep_until_killed(choice, reading, ends[1]);
    close(ends[1]);
    REQUIRE(read(ends[0], &number, sizeof number) == sizeof number);
    const auto taken = std::chrono::steady_clock::now() - start;
    kill(child, SIGKILL);
    waitpid(child, nullptr, 0);
    close(ends[0]);
    return static_cast<useconds_t>(std::chrono::duration_cast<std::chrono::microseconds>(taken).count());
}

/// Kills that many writers at random moments; after each, the store opens and holds what it acknowledged.
void kill_writers(int times) {
    KeptArea area;
    ReadingToKeep reading{"bench", "2026-11-25T12:00:00Z", {}, {}, {}, std::nullopt};
    reading.comparison.original.lab = {50, 10, 30}, reading.comparison.repair.lab = {52, 11, 29};
    std::set<int> acknowledged;
    std::size_t kept = 0;
    reading.annotated.resize(19999);
    useconds_t usual = 0;
    for (int i = 0; i < 3; ++i) usual = time_of_a_writer(area.choice, reading);  // the first makes the store
    for (int i = 0; i < times; ++i) {
        // Another picture each time, so that its file is in the making too.
        reading.annotated.resize(20000 + static_cast<std::size_t>(i));
        int ends[2];
        REQUIRE(pipe2(ends, O_CLOEXEC) == 0);
        const pid_t child = keep_until_killed(area.choice, reading, ends[1]);
        close(ends[1]);
        usleep(static_cast<useconds_t>(std::rand()) % (3 * usual));
        kill(child, SIGKILL);
        waitpid(child, nullptr, 0);
        for (const int number : all_said(ends[0])) REQUIRE(acknowledged.insert(number).second);  // each once
        close(ends[0]);
        if (acknowledged.empty()) continue;
        JobStore store(area.choice.store, StoreUse::keeping);  // opens each time
        const auto found = store.readings(store.standing_area("Bench", false));
        REQUIRE(found.size() >= kept);
        kept = found.size();
        REQUIRE(found.back().number == static_cast<int>(kept));  // none is missing between
        REQUIRE(*acknowledged.rbegin() <= found.back().number);  // and none behind
        if (i % 50 == 0 || i + 1 == times) REQUIRE(check_store(store.parts()).faults.empty());
    }
    std::printf("killed %d times: %zu readings kept, all %zu that were acknowledged among them\n", times,
                kept, acknowledged.size());
    CHECK(acknowledged.size() > static_cast<std::size_t>(times) / 4);
    JobStore store(area.choice.store, StoreUse::keeping);
    CHECK(check_store(store.parts()).faults.empty());
}

}  // namespace

TEST_CASE("Killed at any moment, no reading that was acknowledged is lost, and the store is whole") {
    kill_writers(40);
}

TEST_CASE(
    "A thousand times killed while writing: nothing acknowledged is lost, the store opens, verify is clean",
    "[.shown][kills]") {
    kill_writers(1000);
}

TEST_CASE("On a full disk one line says so, and the earlier readings are as they were") {
    KeptArea area;
    const PracticeReading bench(8, 480, 360);
    ReadingToKeep reading = bench.to_keep(bench.frame);
    (void)area.readings.keep(reading);
    const std::string text = area.text(1);
    // A limit on a file's size stands in for the full disk: write fails in the middle.
    const auto picture = static_cast<std::size_t>(std::filesystem::file_size(area.source_file(1)));
    reading.annotated.resize(picture + 5000);
    const std::filesystem::path said = area.folder / "said";
    const pid_t child = start_process([&] {
        signal(SIGXFSZ, SIG_IGN);
        const rlimit most{picture + 2000, picture + 2000};
        setrlimit(RLIMIT_FSIZE, &most);
        try {
            (void)AreaReadings(area.choice).keep(reading);
        } catch (const InputError& error) {
            put_content(said, error.what());
        }
    });
    waitpid(child, nullptr, 0);
    const std::string line = content_of(said);
    INFO(line);
    CHECK_THAT(line, contains("free space"));
    CHECK(line.find('\n') == std::string::npos);
    CHECK(area.readings.list().size() == 1);
    CHECK(area.text(1) == text);
    CHECK(check_store(area.store()->parts()).faults.empty());
    CHECK(area.readings.reopen(1).source.frame->samples == bench.frame.samples);
}
