#include "calibrate/flat/paper_fit.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

namespace tonemend {

PaperFit fit_paper(const std::vector<PaperSpot>& spots, const SpotValue& value,
                   const std::vector<SpotValue>& extra) {
    const auto rows = static_cast<Eigen::Index>(spots.size());
    const auto columns = static_cast<Eigen::Index>(3 + extra.size());
    Eigen::MatrixXd design(rows, columns);
    Eigen::VectorXd target(rows);
    double middle_x = 0, middle_y = 0;
    for (const PaperSpot& spot : spots) {
        middle_x += spot.place.x / static_cast<double>(rows);
        middle_y += spot.place.y / static_cast<double>(rows);
    }
    for (Eigen::Index i = 0; i < rows; ++i) {
        const PaperSpot& spot = spots[static_cast<std::size_t>(i)];
        design(i, 0) = 1;
        design(i, 1) = spot.place.x - middle_x;
        design(i, 2) = spot.place.y - middle_y;
        for (std::size_t k = 0; k < extra.size(); ++k)
            design(i, static_cast<Eigen::Index>(3 + k)) = extra[k](spot);
        target[i] = value(spot);
    }
    const Eigen::VectorXd solution = design.colPivHouseholderQr().solve(target);
    const Eigen::VectorXd residual = target - design * solution;
    PaperFit fit;
    fit.coefficients.assign(solution.begin(), solution.end());
    fit.residuals.assign(residual.begin(), residual.end());
    fit.squares = residual.squaredNorm();
    return fit;
}

double log_brightness(const PaperSpot& spot) {
    return std::log(std::max(spot.brightness(), 1e-6));
}

}  // namespace tonemend
