#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "practice/colourant.h"
#include "practice/grain.h"
#include "practice/lamp.h"
#include "practice/random.h"
#include "practice/wet_surface.h"
#include "practice/wood.h"

namespace tonemend {

/// What stained wood looks like: CIELAB (D50), the long-run mean of all of it, of its ground and its figure.
struct ShopLook {
    Lab whole, ground, figure;
    double figure_share = 0;  ///< 0: plain wood, the figure then repeats the ground
};

/// A jar on the shelf.
struct ShopJar {
    Colourant colourant;
    double thinning = 1;   ///< power of the concentration that the amount taken follows
    double next_coat = 1;  ///< what each further coat adds, relative to the one before
};

/// What one wood does in this shop.
struct ShopWood {
    WoodKind kind;
    NodeWeights all{}, ground{}, figure{};
    double figure_share = 0;
    double dye_uptake = 1, pigment_uptake = 1;
};

class WoodShop;

/// A board that coats are put on.
class ShopBoard {
  public:
    /// A coat of the jar at `concentration` (share of it in the mixture, over 0 to 1), sanded to `grit`
    /// before. How much is taken differs from coat to coat by 10 % (one standard deviation).
    void put_on(std::size_t jar, double concentration, double grit);
    /// The same by a hand that never errs: for who looks for what could be had.
    void put_on_exactly(std::size_t jar, double concentration, double grit);
    /// Bare, dry.
    ShopLook look() const;
    /// Under the shop's finish, of which every board has its own thickness.
    ShopLook finished_look() const;
    std::string wood() const;

  private:
    friend class WoodShop;
    struct Layer {
        const ShopJar* jar = nullptr;
        double amount = 0;
    };
    ShopBoard(const WoodShop& shop, const ShopWood& wood, std::uint64_t number);
    void add(std::size_t jar, double concentration, double grit, double hand);
    ShopLook look_of(const SurfaceFill* fill) const;

    const WoodShop* shop_;
    const ShopWood* wood_;
    Random random_;
    double darkness_ = 1, uptake_ = 1;  // this board's own
    SurfaceFill film_;
    std::vector<Layer> coats_;
};

/// A simulated wood shop, to try predictions and plans on: the practice bench's spectral woods, dyes that add
/// to the wood's absorption, pigment layers that scatter and lodge in the figure and leave some of the wood
/// bare, and a finish reckoned by Fresnel's equations. What no model is told is drawn from the seed:
/// strengths of the jars (by e^0.3), their thinning and coats, how much each wood takes (by e^0.25), its
/// boards' own colour (12 %) and uptake (7 %), and each coat's (10 %). All numbers are guesses, from memory.
class WoodShop {
  public:
    /// `jars`: how many, 1 to 10, dyes and pigments in turn.
    WoodShop(std::uint64_t seed, std::size_t jars);
    WoodShop(const WoodShop&) = delete;
    WoodShop& operator=(const WoodShop&) = delete;

    const std::vector<ShopJar>& jars() const { return jars_; }
    const std::vector<ShopWood>& woods() const { return woods_; }
    /// Each call is another board.
    ShopBoard board(std::size_t wood);
    const Lamp& lamp() const { return lamp_; }
    const SurfaceFill& finish() const { return finish_; }

  private:
    std::uint64_t seed_ = 0, boards_ = 0;
    Lamp lamp_;
    std::vector<ShopJar> jars_;
    std::vector<ShopWood> woods_;
    SurfaceFill finish_;
};

}  // namespace tonemend
