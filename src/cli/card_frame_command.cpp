#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>

#include "calibrate/card_frame.h"
#include "cli/commands.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

struct CardFrameOptions {
    std::string size = "medium";
    std::string out = "card-frame.pdf";
};

const CardFrame& frame_of_size(const std::string& size) {
    const std::vector<CardFrame>& frames = card_frames();
    return size == "small" ? frames[0] : size == "medium" ? frames[1] : frames[2];
}

void write_card_frame(const CardFrameOptions& options) {
    const CardFrame& frame = frame_of_size(options.size);
    const std::filesystem::path path = options.out;
    const std::string extension = path.extension().string();
    if (extension == ".svg") {
        write_card_frame_svg(frame, path);
    } else if (extension == ".pdf") {
        write_card_frame_pdf(frame, path);
    } else {
        throw InputError(
            fmt::format("{}: a card frame is written as .pdf or .svg; choose such a name", options.out));
    }
    fmt::print(
        "{}: {:.0f} × {:.0f} mm with a window of {:.0f} × {:.0f} mm; print it at 100 %, on matt paper\n",
        options.out, frame.sheet_width, frame.sheet_height, frame.window_width, frame.window_height);
}

}  // namespace

void add_card_frame_command(CLI::App& app, ExitStatus& status) {
    auto options = std::make_shared<CardFrameOptions>();
    CLI::App* command =
        app.add_subcommand("card-frame", "Write the printable frame by which the card is found in a picture");
    command->add_option("--size", options->size, "Window for the card: small, medium or large")
        ->check(CLI::IsMember({"small", "medium", "large"}))
        ->capture_default_str();
    command->add_option("--out", options->out, "File to write, .pdf or .svg")->capture_default_str();
    command->callback([options, &status] {
        write_card_frame(*options);
        status = ExitStatus::measured;
    });
}

}  // namespace tonemend
