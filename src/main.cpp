#include "cli/command_line.h"

int main(int argc, char** argv) {
    return tonemend::run_command_line(argc, argv);
}
