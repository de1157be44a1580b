#pragma once

#include <vector>

#include <Eigen/Core>

#include "advise/model/wood_look.h"

namespace tonemend {

/// L*, a*, b* of the ground, then of the figure.
using LookVector = Eigen::Matrix<double, 6, 1>;
LookVector to_vector(const WoodLook& look);
/// Of two such vectors' elements.
using LookCovariance = Eigen::Matrix<double, 6, 6>;

/// What CIELAB after all coats changes by with one of them: by the logarithms of its absorption in each
/// channel, of its scattering, and of its amount.
struct CoatSlopes {
    Eigen::Matrix3d absorption;
    Eigen::Vector3d scattering, amount;
};

/// Of one surface, ground or figure.
struct SurfaceSlopes {
    Lab after;
    std::vector<CoatSlopes> coats;
    Eigen::Matrix3d before;  ///< by CIELAB before
};

struct LookSlopes {
    WoodLook after;
    SurfaceSlopes ground, figure;

    LookVector amount(std::size_t coat) const {
        LookVector both;
        both << ground.coats[coat].amount, figure.coats[coat].amount;
        return both;
    }
};

/// What a look after coats changes by with each unknown that it depends on.
struct UnknownSlopes {
    std::vector<Eigen::Index> places;  ///< among all unknowns
    Eigen::Matrix<double, 6, Eigen::Dynamic> slopes;
};

}  // namespace tonemend
