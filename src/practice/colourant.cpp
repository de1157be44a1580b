#include "practice/colourant.h"

#include <cmath>

#include <fmt/format.h>

#include "picture/input_error.h"

namespace tonemend {

namespace {

// One smooth absorption band: a Gaussian in wavelength.
struct Peak {
    double height, centre_nm, width_nm;
};

double peaks_at(const std::vector<Peak>& peaks, double nm) {
    double sum = 0;
    for (const Peak& peak : peaks) {
        const double u = (nm - peak.centre_nm) / peak.width_nm;
        sum += peak.height * std::exp(-0.5 * u * u);
    }
    return sum;
}

Colourant dye(std::string name, ColourantFamily family, const std::vector<Peak>& peaks, double grey) {
    return {std::move(name), ColourantKind::dye, family,
            make_bands([&](double nm) { return peaks_at(peaks, nm) + grey; }), Bands{}};
}

// An earth's absorption falls like a step from blue to red: `edge_nm` is where it is half gone.
Colourant pigment(std::string name, ColourantFamily family, double absorption, double edge_nm,
                  double edge_width_nm, double grey, double scattering) {
    return {std::move(name), ColourantKind::pigment, family, make_bands([&](double nm) {
                return absorption / (1 + std::exp((nm - edge_nm) / edge_width_nm)) + grey;
            }),
            // Fine particles scatter blue a little more than red.
            make_bands([&](double nm) { return scattering * std::pow(550 / nm, 0.6); })};
}

std::vector<Colourant> make_colourants() {
    using enum ColourantFamily;
    return {
        dye("Walnut Dusk dye", earth, {{2.2, 400, 80}, {0.8, 520, 80}}, 0.12),
        dye("Honey Lane dye", earth, {{2.0, 405, 70}, {0.15, 500, 70}}, 0.01),
        dye("Red Barn dye", earth, {{0.9, 420, 60}, {1.2, 520, 60}}, 0.03),
        dye("Amber Mill dye", earth, {{2.0, 420, 60}, {0.55, 505, 50}}, 0.02),
        dye("Old Cellar dye", earth, {{1.6, 400, 100}, {0.9, 560, 110}}, 0.20),
        pigment("Umber Yard stain", earth, 0.60, 560, 50, 0.10, 0.06),
        pigment("Sienna Gate stain", earth, 0.55, 545, 32, 0.03, 0.08),
        pigment("Ochre Field stain", earth, 0.50, 515, 32, 0.02, 0.10),
        pigment("Rust Wharf stain", earth, 0.60, 572, 26, 0.04, 0.08),
        pigment("Bog Oak stain", earth, 0.55, 570, 70, 0.25, 0.03),
        dye("Blue Shutter dye", other, {{1.0, 610, 50}, {0.25, 560, 50}}, 0.02),
        dye("Green Door dye", other, {{0.9, 650, 45}, {1.0, 430, 40}}, 0.02),
        dye("Plum Jar dye", other, {{1.2, 560, 40}, {0.3, 610, 40}}, 0.02),
        dye("Soot dye", other, {}, 0.45),
    };
}

}  // namespace

const std::vector<Colourant>& colourants() {
    static const std::vector<Colourant> all = make_colourants();
    return all;
}

std::vector<const Colourant*> earth_shelf() {
    std::vector<const Colourant*> shelf;
    for (const Colourant& colourant : colourants())
        if (colourant.family == ColourantFamily::earth) shelf.push_back(&colourant);
    return shelf;
}

const Colourant& find_colourant(std::string_view name) {
    std::string names;
    for (const Colourant& colourant : colourants()) {
        if (colourant.name == name) return colourant;
        names += (names.empty() ? "" : ", ") + colourant.name;
    }
    throw InputError(
        fmt::format("colourant '{}' is not known to the practice bench; choose one of {}", name, names));
}

}  // namespace tonemend
