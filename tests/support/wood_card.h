#pragma once

#include <fmt/format.h>

#include <string>
#include <vector>

#include "practice/lamp.h"
#include "practice/light_ensemble.h"
#include "tests/support/scratch_folder.h"

namespace tonemend::testing {

/// A card of six neutral steps and so many (up to six) stained woods with their spectra, as a file of its
/// own.
class WoodCard {
  public:
    explicit WoodCard(int woods) {
        constexpr double steps[] = {96, 79.04, 64.96, 49.5, 35, 21.94};
        std::string rows;
        int place = 0;
        const auto add = [&](const std::string& name, const Lab& lab, const Bands& reflectance) {
            const double x = place % 4 * 0.25, y = place / 4 / 3.0;
            ++place;
            rows += fmt::format("{} {:.4f} {:.4f} {:.4f} {:.4f} {:.4f} {:.4f} {:.4f}", name, x + 0.03,
                                y + 0.04, x + 0.22, y + 0.29, lab.L, lab.a, lab.b);
            for (const double value : reflectance) rows += fmt::format(" {:.5f}", value);
            rows += "\n";
        };
        const Lamp d50 = make_lamp("CIE-D50");
        // Light and dark take turns along the card.
        for (const int step : {0, 3, 1, 4, 2, 5}) {
            Bands grey;
            grey.fill(to_xyz({steps[step], 0, 0}, d50_icc).Y);
            add(fmt::format("step-{}", step + 1), {steps[step], 0, 0}, grey);
        }
        int number = 0;
        for (const Bands& wood : draw_stained_woods(99, woods))
            add(fmt::format("wood-{}", ++number), d50.lab(wood), wood);
        std::string fields = "SAMPLE_NAME X0 Y0 X1 Y1 LAB_L LAB_A LAB_B";
        for (std::size_t band = 0; band < band_count; ++band)
            fields += fmt::format(" SPECTRAL_NM_{:.0f}", band_nm(band));
        put_content(path(), fmt::format("CGATS.17\nORIGINATOR \"Practice\"\nNUMBER_OF_FIELDS "
                                        "{}\nBEGIN_DATA_FORMAT\n{}\nEND_DATA_FORMAT\n"
                                        "NUMBER_OF_SETS {}\nBEGIN_DATA\n{}END_DATA\n",
                                        8 + band_count, fields, place, rows));
    }
    std::string path() const { return (folder_ / "wood-card.txt").string(); }

  private:
    ScratchFolder folder_;
};

}  // namespace tonemend::testing
