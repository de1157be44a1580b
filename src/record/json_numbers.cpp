#include "record/json_numbers.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace tonemend {

double rounded(double value) {
    return std::round(value * 1e4) / 1e4 + 0.0;
}

nlohmann::ordered_json numbers_json(const std::array<double, 3>& values) {
    return {rounded(values[0]), rounded(values[1]), rounded(values[2])};
}

nlohmann::ordered_json lab_json(const Lab& lab) {
    return numbers_json({lab.L, lab.a, lab.b});
}

}  // namespace tonemend
