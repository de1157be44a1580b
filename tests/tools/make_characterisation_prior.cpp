// Writes calibration/characterisation-prior.json anew: make_characterisation_prior FILE
#include <cstdio>
#include <fstream>

#include "practice/prior_ensemble.h"

int main(int count, char** arguments) {
    if (count != 2) {
        std::fputs("usage: make_characterisation_prior FILE\n", stderr);
        return 2;
    }
    const std::string text = tonemend::to_json_text(tonemend::learn_prior());
    std::ofstream out(arguments[1], std::ios::binary);
    out << text << std::flush;
    if (!out) std::fprintf(stderr, "%s: cannot be written\n", arguments[1]);
    return out ? 0 : 1;
}
