// Runs a fuzz target without libFuzzer: its seeds, then deterministic mutations of them for a number of
// seconds. Every mutation depends on its number alone, so that a failure can be run again by that number.
//   fuzz_picture [--seconds 5] [--only NUMBER] [--write-seeds FOLDER]
#include <sys/resource.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>

#include "mutate.h"
#include "target.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend::testing;
using Clock = std::chrono::steady_clock;

namespace {

constexpr double slowest_allowed_s = 20;  // under the sanitizers, on a busy machine: anything near it hangs

/// What is being tried, told when the process dies.
char current[64] = "nothing yet";

void tell_what_was_tried() {
    const char words[] = "fuzz: while trying mutation ";
    [[maybe_unused]] ssize_t ignored = write(STDERR_FILENO, words, sizeof words - 1);
    ignored = write(STDERR_FILENO, current, std::strlen(current));
    ignored = write(STDERR_FILENO, "\n", 1);
}

void on_signal(int) {
    tell_what_was_tried();
    _exit(1);
}

double try_input(const std::string& input, const std::string& what) {
    std::snprintf(current, sizeof current, "%s", what.c_str());
    alarm(static_cast<unsigned>(slowest_allowed_s));
    const auto start = Clock::now();
    // A copy of exact size, so that the address sanitizer sees a read past its end.
    const std::vector<std::uint8_t> bytes(input.begin(), input.end());
    LLVMFuzzerTestOneInput(bytes.data(), bytes.size());
    alarm(0);
    return std::chrono::duration<double>(Clock::now() - start).count();
}

long peak_memory_mib() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss / 1024;
}

}  // namespace

#if defined(__SANITIZE_ADDRESS__)
extern "C" void __sanitizer_set_death_callback(void (*callback)());
#endif

int main(int argc, char** argv) {
    double seconds = 5;
    long only = -1;
    const std::vector<std::string> seeds = fuzz_seeds();
    for (int i = 1; i + 1 < argc; i += 2) {
        const std::string option = argv[i];
        if (option == "--seconds") seconds = std::atof(argv[i + 1]);
        if (option == "--only") only = std::atol(argv[i + 1]);
        if (option == "--write-seeds") {
            std::filesystem::create_directories(argv[i + 1]);
            for (std::size_t k = 0; k < seeds.size(); ++k)
                put_content(std::filesystem::path(argv[i + 1]) / ("seed-" + std::to_string(k)), seeds[k]);
            return 0;
        }
    }
#if defined(__SANITIZE_ADDRESS__)
    __sanitizer_set_death_callback(tell_what_was_tried);
#endif
    for (const int signal : {SIGABRT, SIGALRM}) std::signal(signal, on_signal);
    if (only >= 0) {
        const std::string input = mutate(seeds, static_cast<std::uint64_t>(only));
        put_content("fuzz-input", input);
        std::printf("%zu bytes, also in the file fuzz-input: ", input.size());
        std::fflush(stdout);
        std::printf("%.3f s\n", try_input(input, std::to_string(only)));
        return 0;
    }
    for (std::size_t k = 0; k < seeds.size(); ++k) try_input(seeds[k], "seed " + std::to_string(k));
    double slowest = 0;
    std::uint64_t slowest_number = 0, number = 0;
    for (const auto start = Clock::now();
         std::chrono::duration<double>(Clock::now() - start).count() < seconds; ++number) {
        const double took = try_input(mutate(seeds, number), std::to_string(number));
        if (took > slowest) slowest = took, slowest_number = number;
    }
    std::printf("%zu seeds and %llu mutations; the slowest, %llu, took %.3f s; peak memory %ld MiB\n",
                seeds.size(), static_cast<unsigned long long>(number),
                static_cast<unsigned long long>(slowest_number), slowest, peak_memory_mib());
    return number > 0 ? 0 : 1;
}
