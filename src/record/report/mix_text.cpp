#include "record/report/mix_text.h"

#include <fmt/format.h>

#include "picture/input_error.h"
#include "record/store/dilution.h"

namespace tonemend {
namespace {

std::string parts_text(double parts) {
    return fmt::format("{:g} {}", parts, parts == 1 ? "part" : "parts");
}

// `share` of a batch, 0 to 1. Small amounts keep three figures, so that a drop more or less shows.
std::string amount_text(double share, Units units) {
    const auto millilitres = [](double ml) { return fmt::format("{:.{}f} ml", ml, ml < 10 ? 2 : 1); };
    if (units == Units::metric) return millilitres(share * metric_batch_ml);
    const double ounces = share * us_batch_fluid_ounces;
    return fmt::format("{:.{}f} fl oz ({})", ounces, ounces < 1 ? 3 : 2,
                       millilitres(ounces * ml_in_us_fluid_ounce));
}

}  // namespace

std::string mix_text(const FinishingStep& step, Units units) {
    if (step.dilution.empty()) return {};
    try {
        const Dilution dilution = parse_dilution(step.dilution);
        if (dilution.thinner == 0) return "undiluted";
        const std::string thinner = step.carrier.empty() ? "thinner" : step.carrier;
        const std::string colourant = step.colourant.empty() ? "colourant" : step.colourant;
        const double all = dilution.thinner + dilution.colourant;
        return fmt::format("{} {} to {} {}. For {}: {} {}, {} {}", parts_text(dilution.thinner), thinner,
                           parts_text(dilution.colourant), colourant,
                           units == Units::metric ? fmt::format("{:g} ml", metric_batch_ml)
                                                  : fmt::format("{:g} fl oz", us_batch_fluid_ounces),
                           amount_text(dilution.thinner / all, units), thinner,
                           amount_text(dilution.colourant / all, units), colourant);
    } catch (const InputError&) {
        return step.dilution;
    }
}

}  // namespace tonemend
