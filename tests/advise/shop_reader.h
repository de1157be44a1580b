#pragma once

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "advise/model/colourant_model.h"
#include "practice/wood_shop.h"

namespace tonemend::testing {

/// Works in a simulated shop as a person with a camera would: puts coats on strips and reads them, with
/// noise.
class ShopReader {
  public:
    struct Strip {
        ShopBoard board;
        std::string wood, name;
        std::vector<std::size_t> jars;  // put on so far
    };

    ShopReader(WoodShop& shop, std::uint64_t seed, double noise = 0.2)
        : shop_(&shop), random_(seed, "shop reader"), noise_(noise) {}

    bool is_dye(std::size_t jar) const { return shop_->jars()[jar].colourant.kind == ColourantKind::dye; }
    std::vector<ColourantModel::Colourant> colourants() const {
        std::vector<ColourantModel::Colourant> list;
        for (std::size_t i = 0; i < shop_->jars().size(); ++i)
            list.push_back({is_dye(i) ? ColourantGroup::dye : ColourantGroup::pigment, std::nullopt});
        return list;
    }

    /// On a board of its own.
    Strip new_strip(std::size_t wood) {
        Strip strip{shop_->board(wood), shop_->woods()[wood].kind.name, {}, {}};
        strip.name = strip.wood + " " + std::to_string(++boards_);
        return strip;
    }
    CoatPlace place(const Strip& strip) const { return {strip.wood, strip.name, 180}; }
    void put_on(Strip& strip, const AppliedCoat& coat) const {
        strip.board.put_on(coat.colourant, coat.concentration, 180);
        strip.jars.push_back(coat.colourant);
    }
    ReadLook read(const Strip& strip) { return noisy(strip.board.look()); }
    ReadLook read_finished(const Strip& strip) { return noisy(strip.board.finished_look()); }

    /// `count` readings of coats of one jar, in the order of the guide: full strength, a second coat on the
    /// same strip, then thinner strips, all side by side on one board.
    void make_strips(std::size_t jar, std::size_t wood, std::size_t count,
                     std::vector<CoatObservation>& seen) {
        const std::array concentrations{1.0, 0.33, 0.5, 0.2, 0.75};
        std::size_t made = 0;
        const Strip board = new_strip(wood);
        for (std::size_t i = 0; made < count; ++i) {
            Strip strip = board;
            for (int earlier = 0; earlier < 2 && made < count; ++earlier, ++made)
                seen.push_back(apply(strip, {jar, concentrations[i % concentrations.size()], earlier}));
        }
    }
    CoatObservation apply(Strip& strip, const AppliedCoat& coat) {
        CoatObservation observation;
        observation.before = read(strip), observation.place = place(strip);
        put_on(strip, coat);
        observation.coats = {coat}, observation.after = read(strip);
        return observation;
    }

  private:
    Lab shaken(const Lab& lab) {
        return {lab.L + noise_ * random_.normal(), lab.a + noise_ * random_.normal(),
                lab.b + noise_ * random_.normal()};
    }
    ReadLook noisy(const ShopLook& look) {
        ReadLook read;
        read.u = noise_;
        read.look = {shaken(look.ground), {}, look.figure_share};
        read.look.figure = read.look.plain() ? read.look.ground : shaken(look.figure);
        return read;
    }

    WoodShop* shop_;
    Random random_;
    double noise_;
    int boards_ = 0;
};

}  // namespace tonemend::testing
