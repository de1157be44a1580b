#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "colour/matrix3.h"
#include "picture/frame.h"
#include "picture/geometry.h"

namespace tonemend {

/// What showed how the light falls.
enum class FlatSource {
    grey_sheet,  ///< a picture of an even sheet that fills it
    card_places  ///< pictures of the card at several places
};

/// How the light falls across the pictures of one set-up of lamp and camera: for each channel the natural
/// logarithm of light as a smooth surface (see SurfaceTerms), 0 at `middle`.
struct FlatField {
    FlatSource source = FlatSource::grey_sheet;
    int width = 0, height = 0;  ///< of the pictures that it serves, pixels
    int places = 1;             ///< pictures that it was made from
    int degree = 1;             ///< 1..most_surface_degree
    std::array<std::vector<double>, 3> terms;
    /// Covariance of the terms, the same for the three channels: lower triangle by rows. Empty: as good as
    /// known.
    std::vector<double> doubt;
    double misfit = 0;        ///< standard uncertainty of the light at a place beyond that, relative
    double colour_share = 0;  ///< a channel's own error besides the one that it has in common with the
                              ///< others, as a share of that
    double residual = 0;      ///< rms distance of what was pictured from the surface, relative
    Point middle;             ///< where light counts as 1: the middle of the card, picture pixels
    CaptureFacts facts;       ///< of the pictures that it was made from, or of the first of them
    std::string encoding;     ///< their encoding's description
    /// The camera's white at the card, divided by exposure seconds × ISO / f-number²; absent unless all three
    /// are known.
    std::optional<double> card_light;

    /// Relative light of R, G, B; 1 at `middle`.
    Vector3 light_at(const Point& place) const;
    /// Covariance of the relative errors of the light at two places, each compared with `middle`: the part
    /// that is common to the channels.
    double covariance(const Point& p, const Point& q) const;
    /// Standard uncertainty of the correction between two places, relative, of one channel.
    double u_between(const Point& p, const Point& q) const;
    /// One line for people.
    std::string description() const;
};

}  // namespace tonemend
