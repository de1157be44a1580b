#include "practice/wood_shop.h"

#include <algorithm>
#include <cmath>

#include "colour/kubelka_munk.h"

namespace tonemend {
namespace {

// Pigment stain that was wiped off leaves some of the wood as it was.
constexpr double covered_by_pigment = 0.92;

ShopJar draw_jar(const Colourant& like, Random& random) {
    ShopJar jar{like, 1, 1};
    const bool dye = like.kind == ColourantKind::dye;
    const double strength = std::exp(0.3 * random.normal());
    // Tilted a little towards blue or red: no two makers' browns are one.
    const double tilt = 0.25 * random.normal();
    for (std::size_t i = 0; i < band_count; ++i)
        jar.colourant.absorption[i] *= strength * std::exp(tilt * (band_nm(i) - 550) / 150);
    const double body = std::exp(0.3 * random.normal());
    for (double& s : jar.colourant.scattering) s *= body;
    jar.thinning = random.uniform(0.85, 1.02);
    jar.next_coat = dye ? random.uniform(0.55, 0.85) : random.uniform(0.4, 0.9);
    return jar;
}

ShopWood draw_wood(const WoodKind& kind, Random& random) {
    ShopWood wood;
    wood.kind = kind;
    GrainStyle grain;
    grain.figure_share = kind.figure_share, grain.pore_share = kind.pore_share;
    const LongRunWeights weights = long_run_weights(grain);
    wood.all = weights.all, wood.ground = weights.ground, wood.figure = weights.figure;
    wood.figure_share = weights.figure_share;
    wood.dye_uptake = std::exp(0.25 * random.normal());
    wood.pigment_uptake = wood.dye_uptake * std::exp(0.15 * random.normal());
    return wood;
}

}  // namespace

WoodShop::WoodShop(std::uint64_t seed, std::size_t jars) : seed_(seed), lamp_(make_lamp("daylight:5003")) {
    Random random(seed, "wood shop");
    std::vector<const Colourant*> dyes, pigments;
    for (const Colourant* colourant : earth_shelf())
        (colourant->kind == ColourantKind::dye ? dyes : pigments).push_back(colourant);
    for (std::size_t i = 0; i < jars; ++i) {
        auto& shelf = i % 2 == 0 ? dyes : pigments;
        const auto chosen = shelf.begin() + random.below(static_cast<int>(shelf.size()));
        jars_.push_back(draw_jar(**chosen, random));
        shelf.erase(chosen);
    }
    for (const WoodKind& kind : wood_kinds()) woods_.push_back(draw_wood(kind, random));
    finish_.index = random.uniform(1.47, 1.53);
    finish_.filled = 1, finish_.covered = 1;
    finish_.scattering_lost = random.uniform(0.02, 0.18);
    finish_.amber = 0.04 * std::exp(0.4 * random.normal());
    finish_.haze = random.uniform(0.002, 0.006);
}

ShopBoard WoodShop::board(std::size_t wood) {
    return {*this, woods_[wood], seed_ * 1000003 + ++boards_};
}

ShopBoard::ShopBoard(const WoodShop& shop, const ShopWood& wood, std::uint64_t number)
    : shop_(&shop), wood_(&wood), random_(number, "shop board") {
    darkness_ = std::exp(0.12 * random_.normal());
    uptake_ = std::exp(0.07 * random_.normal());
    film_ = shop.finish();
    film_.amber *= std::exp(0.1 * random_.normal());
    film_.scattering_lost *= std::exp(0.15 * random_.normal());
}

std::string ShopBoard::wood() const {
    return wood_->kind.name;
}

void ShopBoard::put_on(std::size_t jar, double concentration, double grit) {
    add(jar, concentration, grit, std::exp(0.1 * random_.normal()));
}

void ShopBoard::put_on_exactly(std::size_t jar, double concentration, double grit) {
    add(jar, concentration, grit, 1);
}

void ShopBoard::add(std::size_t jar, double concentration, double grit, double hand) {
    const ShopJar& chosen = shop_->jars()[jar];
    const bool pigment = chosen.colourant.kind == ColourantKind::pigment;
    const auto before =
        std::count_if(coats_.begin(), coats_.end(), [&](const Layer& layer) { return layer.jar == &chosen; });
    // Coarse scratches hold pigment, the more so in soft wood; see uptake.
    const double grit_power = pigment ? 0.1 + 0.4 * wood_->kind.softness : 0.02;
    const double amount = std::pow(concentration, chosen.thinning) * std::pow(grit / 180, -grit_power) *
                          (pigment ? wood_->pigment_uptake : wood_->dye_uptake) * uptake_ *
                          std::pow(chosen.next_coat, static_cast<double>(before)) * hand;
    coats_.push_back({&chosen, amount});
}

ShopLook ShopBoard::look_of(const SurfaceFill* fill) const {
    std::array<XYZ, 3> sums{};
    const std::array<const NodeWeights*, 3> weights{&wood_->all, &wood_->ground, &wood_->figure};
    for (std::size_t node = 0; node < darkness_nodes; ++node) {
        if (wood_->all[node] < 1e-6) continue;
        const double darkness = node_darkness(node), figure = std::clamp(darkness, 0.0, 1.0);
        Bands body = wood_k_over_s(wood_->kind, darkness);
        for (double& k : body) k *= darkness_;
        for (const Layer& coat : coats_)
            if (coat.jar->colourant.kind == ColourantKind::dye)
                for (std::size_t i = 0; i < band_count; ++i)
                    body[i] += coat.amount * (1 + 0.05 * figure) * coat.jar->colourant.absorption[i];
        for (double& r : body) r = infinite_reflectance(r);
        for (const Layer& coat : coats_)
            if (coat.jar->colourant.kind == ColourantKind::pigment)
                for (std::size_t i = 0; i < band_count; ++i) {
                    const double amount = coat.amount * (1 + 0.5 * figure) / covered_by_pigment;
                    const KubelkaMunkLayer layer{amount * coat.jar->colourant.absorption[i],
                                                 amount * coat.jar->colourant.scattering[i]};
                    body[i] = covered_by_pigment * layer_reflectance(layer, body[i]) +
                              (1 - covered_by_pigment) * body[i];
                }
        if (fill != nullptr) body = surface_reflectance(body, *fill);
        const XYZ xyz = shop_->lamp().xyz(body);
        for (std::size_t i = 0; i < sums.size(); ++i) {
            const double weight = (*weights[i])[node];
            sums[i].X += weight * xyz.X, sums[i].Y += weight * xyz.Y, sums[i].Z += weight * xyz.Z;
        }
    }
    const Lamp& lamp = shop_->lamp();
    ShopLook look{lamp.lab(sums[0]), lamp.lab(sums[1]), {}, wood_->figure_share};
    look.figure = wood_->figure_share > 0 ? lamp.lab(sums[2]) : look.ground;
    return look;
}

ShopLook ShopBoard::look() const {
    return look_of(nullptr);
}

ShopLook ShopBoard::finished_look() const {
    return look_of(&film_);
}

}  // namespace tonemend
