// How long a whole comparison of a 12-megapixel JPEG takes beside OpenCV's decoding of the same file alone,
// in one run, interleaved; and how much memory it needs. Prints the ratio, and
// how much of it goes into looking for faults; fails on memory, which does not
// depend on the clock.
#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <opencv2/imgcodecs.hpp>
#include <vector>

#include "calibrate/card/find_card.h"
#include "calibrate/preflight/card_focus.h"
#include "calibrate/preflight/card_frame_warnings.h"
#include "calibrate/preflight/card_warnings.h"
#include "measure/comparison.h"
#include "picture/read_picture.h"
#include "picture/write_picture.h"
#include "practice/render.h"

using namespace tonemend;

namespace {

constexpr int rounds = 15;
constexpr double most_bytes_a_pixel = 12, most_bytes_besides = 100.0 * 1024 * 1024;

struct Subject {
    std::filesystem::path picture;
    Region original, repair;
    double pixels = 0;
};

Subject make_subject() {
    PracticeOptions options = accuracy_study(12);
    options.width = 4000, options.height = 3000, options.bits = 8;
    const PracticeScene scene = make_scene(options);
    Subject subject;
    subject.picture = std::filesystem::temp_directory_path() / fmt::format("tonemend-bench-{}.jpg", getpid());
    write_picture(render(scene), subject.picture, {.jpeg_quality = 90});
    subject.original = rectangle(scene.original.region), subject.repair = rectangle(scene.repair.region);
    subject.pixels = 4000.0 * 3000.0;
    return subject;
}

double compare_once(const Subject& subject, const Card& card) {
    const Frame frame = read_picture(subject.picture);
    const auto found = find_card(frame);
    if (!found) return -1;
    const Calibration calibration = calibrate_on_card(frame, card, *found);
    return compare_regions(frame, calibration, subject.original, subject.repair).difference.de2000;
}

template <typename Work>
double seconds(Work work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

// Peak resident memory of a child that does `work` and nothing else. `work` says whether it succeeded.
template <typename Work>
double peak_bytes(Work work) {
    const pid_t child = fork();
    if (child == 0) _exit(work() ? 0 : 1);
    int status = 0;
    rusage usage{};
    wait4(child, &status, 0, &usage);
    return status == 0 ? static_cast<double>(usage.ru_maxrss) * 1024.0 : 1e18;
}

// A picture of 100 megapixels, made in a child of its own so that its making leaves no memory behind here.
std::filesystem::path make_largest() {
    const std::filesystem::path path =
        std::filesystem::temp_directory_path() / fmt::format("tonemend-bench-{}-large.jpg", getpid());
    (void)peak_bytes([&] {
        Frame frame;
        frame.width = 11600, frame.height = 8700, frame.type = SampleType::uint8;
        frame.samples.resize(3U * 11600U * 8700U);
        for (std::size_t i = 0; i < frame.samples.size(); ++i)
            frame.samples[i] = static_cast<std::byte>(90 + i / 3 % 61 + i % 3);
        write_picture(frame, path, {.jpeg_quality = 90});
        return true;
    });
    return path;
}

}  // namespace

int main() {
    cv::setNumThreads(1);
    const Card card = read_card(locate_card("six-step-card"));
    const Subject subject = make_subject();
    const double peak = peak_bytes([&] { return compare_once(subject, card) >= 0; });
    const std::filesystem::path largest = make_largest();
    const double largest_peak = peak_bytes([&] { return read_picture(largest).width > 0; });
    std::filesystem::remove(largest);
    std::vector<double> ours, decoding, reading, finding, looking;
    Frame frame;
    for (int i = 0; i < rounds; ++i) {
        decoding.push_back(seconds([&] { (void)cv::imread(subject.picture.string(), cv::IMREAD_COLOR); }));
        ours.push_back(seconds([&] { (void)compare_once(subject, card); }));
        reading.push_back(seconds([&] { frame = read_picture(subject.picture); }));
        std::optional<FoundCard> found;
        finding.push_back(seconds([&] { found = find_card(frame); }));
        const Calibration calibration = calibrate_on_card(frame, card, *found);
        looking.push_back(seconds([&] {
            (void)warn_of_card(frame, calibration);
            (void)warn_of_blur(frame, card, calibration.card_corners);
            (void)warn_of_card_frame(frame, *found, calibration);
        }));
    }
    std::filesystem::remove(subject.picture);
    const double allowed = most_bytes_a_pixel * subject.pixels + most_bytes_besides;
    fmt::print("12-megapixel JPEG, medians of {} interleaved rounds\n", rounds);
    fmt::print("  OpenCV imread alone        {:7.1f} ms\n", 1e3 * median(decoding));
    fmt::print("  whole comparison           {:7.1f} ms   ratio {:.2f} (promised: under 1.5)\n",
               1e3 * median(ours), median(ours) / median(decoding));
    fmt::print("    of it reading the file   {:7.1f} ms, finding the card {:.1f} ms\n", 1e3 * median(reading),
               1e3 * median(finding));
    fmt::print("    looking for faults       {:7.1f} ms   {:.1f} % of it (promised: under 15)\n",
               1e3 * median(looking), 100 * median(looking) / median(ours));
    fmt::print("  peak memory                {:7.1f} MiB  ({:.1f} bytes a pixel; allowed {:.0f} MiB)\n",
               peak / 1048576, peak / subject.pixels, allowed / 1048576);
    const double largest_allowed = most_bytes_a_pixel * 11600.0 * 8700.0 + most_bytes_besides;
    fmt::print(
        "100-megapixel JPEG, read\n  peak memory                {:7.1f} MiB  ({:.1f} bytes a pixel; allowed "
        "{:.0f} MiB)\n",
        largest_peak / 1048576, largest_peak / (11600.0 * 8700.0), largest_allowed / 1048576);
    return peak <= allowed && largest_peak <= largest_allowed ? 0 : 1;
}
