#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>

#include "calibrate/card/card_frame.h"
#include "cli/commands.h"
#include "cli/new_file.h"
#include "cli/output.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

struct CardFrameOptions {
    std::string size = "medium";
    std::string out = "card-frame.pdf";
    bool force = false;
};

const CardFrame& frame_of_size(const std::string& size) {
    const std::vector<CardFrame>& frames = card_frames();
    return size == "small" ? frames[0] : size == "medium" ? frames[1] : frames[2];
}

void write_card_frame(const CardFrameOptions& options) {
    const CardFrame& frame = frame_of_size(options.size);
    const std::filesystem::path path = options.out;
    const std::string extension = path.extension().string();
    if (extension != ".svg" && extension != ".pdf") {
        throw InputError(
            fmt::format("{}: a card frame is written as .pdf or .svg; choose such a name", options.out));
    }
    require_new(path, options.force ? Replace::yes : Replace::no);
    if (extension == ".svg") {
        write_card_frame_svg(frame, path);
    } else {
        write_card_frame_pdf(frame, path);
    }
    print_out(fmt::format(
        "{}: {:.0f} × {:.0f} mm with a window of {:.0f} × {:.0f} mm; print it at 100 %, on matt paper\n",
        options.out, frame.sheet_width, frame.sheet_height, frame.window_width, frame.window_height));
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
    command->add_flag("--force", options->force, "Replace a file that exists");
    command->callback([options, &status] {
        write_card_frame(*options);
        status = ExitStatus::measured;
    });
}

}  // namespace tonemend
