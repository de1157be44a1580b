#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "colour/difference.h"
#include "tests/catch.h"
#include "tests/colour/random_pairs.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

TEST_CASE(
    "Colour differences agree with scikit-image, an implementation of other hands in another language") {
    const auto folder =
        std::filesystem::temp_directory_path() / ("tonemend-colour-" + std::to_string(getpid()));
    std::filesystem::create_directories(folder);
    const auto pairs = make_random_pairs(1000);
    {
        std::ofstream file(folder / "pairs.txt");
        file.precision(17);
        for (const auto& [first, second] : pairs) {
            file << first.L << ' ' << first.a << ' ' << first.b << ' ' << second.L << ' ' << second.a << ' '
                 << second.b << '\n';
        }
    }
    // The system's own Python: the package is installed for that one.
    const std::string command =
        "/usr/bin/python3 '" TONEMEND_SOURCE_DIR "/tests/colour/second_opinion.py' '" +
        (folder / "pairs.txt").string() + "' > '" + (folder / "answers.txt").string() + "'";
    const int status = std::system(command.c_str());
    INFO("this test needs the packages python3 and python3-skimage (apt install python3-skimage)");
    REQUIRE(status == 0);

    std::ifstream answers(folder / "answers.txt");
    double worst_00 = 0;
    double worst_76 = 0;
    double worst_94 = 0;
    for (const auto& [first, second] : pairs) {
        double dE00 = 0;
        double dE76 = 0;
        double dE94 = 0;
        REQUIRE(answers >> dE00 >> dE76 >> dE94);
        worst_00 = std::fmax(worst_00, std::abs(dE00 - ciede2000(first, second).value));
        worst_76 = std::fmax(worst_76, std::abs(dE76 - delta_e_76(first, second)));
        worst_94 = std::fmax(worst_94, std::abs(dE94 - delta_e_94(first, second)));
    }
    check_tight("ΔE00 against scikit-image", worst_00, 1e-12);
    std::printf("  ΔE*ab against scikit-image: worst %.3g, bound 6e-14 (two roundings)\n", worst_76);
    CHECK(worst_76 <= 6e-14);
    check_tight("ΔE*94 against scikit-image", worst_94, 1e-13);
    std::filesystem::remove_all(folder);
}
