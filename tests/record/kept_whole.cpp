// Whatever happens while a reading is being kept, a reading that is listed is whole and the earlier ones are
// as they were.
#include <fcntl.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <map>

#include "picture/input_error.h"
#include "record/job_folder.h"
#include "tests/catch.h"
#include "tests/record/practice_reading.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

std::map<std::string, std::string> contents(const std::filesystem::path& folder) {
    std::map<std::string, std::string> found;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        found[entry.path().filename()] = content_of(entry.path());
    return found;
}

/// A process of its own that does `action` and then leaves at once.
template <typename Action>
pid_t start(Action action) {
    std::fflush(stdout);
    const pid_t child = fork();
    if (child == 0) {
        action();
        _exit(0);
    }
    return child;
}

}  // namespace

TEST_CASE("Killed at any moment, the program leaves no half reading on the list and none damaged") {
    const ScratchFolder folder;
    const PracticeReading bench(8, 480, 360);
    const ReadingToKeep reading = bench.to_keep(bench.frame);
    JobFolder job(folder.path());
    int unfinished = 0;
    std::size_t before = 0;
    int kills = 0;
    for (; kills < 40 || before < 20; ++kills) {
        REQUIRE(kills < 400);
        const pid_t child = start([&] {
            while (true) (void)JobFolder(folder.path()).keep(reading);
        });
        // Later and later, by steps that are no multiple of what one reading takes.
        usleep(static_cast<useconds_t>(3000 + 1370 * kills));
        kill(child, SIGKILL);
        waitpid(child, nullptr, 0);
        const auto readings = job.list();
        CHECK(readings.size() >= before);
        before = readings.size();
        unfinished = 0;
        for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
            unfinished += entry.path().filename().string().ends_with(".claim");
    }
    const auto readings = job.list();
    std::size_t texts = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
        texts += entry.path().extension() == ".json";
    CHECK(texts == readings.size());  // none was passed over as damaged
    for (const KeptReading& kept : readings) {
        INFO(kept.place);
        const ReopenedReading back = job.reopen(kept.number);
        CHECK(back.source.frame->samples == bench.frame.samples);
    }
    std::printf("killed %d times: %zu readings whole, %d broken off\n", kills, readings.size(), unfinished);
    CHECK(unfinished >= 20);
}

TEST_CASE("On a full disk one line says so, nothing of the reading stays, and the earlier ones do") {
    const ScratchFolder folder;
    const PracticeReading bench(8, 480, 360);
    ReadingToKeep reading = bench.to_keep(bench.frame);
    JobFolder job(folder.path());
    (void)job.keep(reading);
    const auto before = contents(folder.path());
    // A limit on a file's size stands in for the full disk: write fails in the middle. The annotated copy is
    // made the larger one in turn, so that each of the two is the one that fails.
    const auto picture =
        static_cast<std::size_t>(std::filesystem::file_size(folder / "0001-bench.frame.png"));
    for (const std::size_t annotated : {std::size_t{100}, picture + 5000}) {
        reading.annotated.resize(annotated);
        const rlim_t limit = annotated == 100 ? picture / 2 : picture + 2000;
        const std::filesystem::path said = folder / "said";
        const pid_t child = start([&] {
            signal(SIGXFSZ, SIG_IGN);
            const rlimit most{limit, limit};
            setrlimit(RLIMIT_FSIZE, &most);
            try {
                (void)JobFolder(folder.path()).keep(reading);
            } catch (const InputError& error) {
                put_content(said, error.what());
            }
        });
        waitpid(child, nullptr, 0);
        const std::string line = content_of(said);
        INFO(line);
        CHECK_THAT(line, contains(annotated == 100 ? "0002-bench.frame.png: " : "0002-bench.png: "));
        CHECK_THAT(line, contains("free space"));
        CHECK(line.find('\n') == std::string::npos);
        std::filesystem::remove(said);
        CHECK(contents(folder.path()) == before);
    }
    CHECK(job.reopen(1).source.frame->samples == bench.frame.samples);
}
