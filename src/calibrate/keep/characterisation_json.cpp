#include "calibrate/keep/characterisation_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;

// No sound camera needs coefficients beyond.
constexpr double most_coefficient = 1000;
constexpr std::size_t most_residuals = 2000, most_doubts = 200;

Json change_json(const ModelChange& change) {
    return {{"linear", matrix_json(change.linear)}, {"roots", matrix_json(change.roots)}};
}

ModelChange to_change(const JsonPart& json) {
    return {to_matrix(json.at("linear"), most_coefficient), to_matrix(json.at("roots"), most_coefficient)};
}

void require_white(const ColourModel& model, const JsonPart& json) {
    const XYZ white = model.to_xyz({1, 1, 1});
    constexpr double near = 0.05;
    for (const double off : {white.X / d50_icc.X - 1, white.Y / d50_icc.Y - 1, white.Z / d50_icc.Z - 1})
        if (!(std::abs(off) < near)) json.refuse("does not see white as white");
}

PatchFit to_patch_fit(const JsonPart& json) {
    constexpr double most_difference = 1000;
    PatchFit fit;
    fit.name = json.at("name").text();
    fit.residual_de2000 = json.at("residual_de2000").number(0, most_difference);
    if (const auto left_out = json.find("leave_one_out_de2000"))
        fit.leave_one_out_de2000 = left_out->number(0, most_difference);
    return fit;
}

// A covariance: symmetric, and no axis varies by less than nothing.
Matrix3 to_covariance(const JsonPart& json) {
    const Matrix3 matrix = to_matrix(json, 1e4);
    for (std::size_t i = 0; i < 3; ++i) {
        if (matrix.m[i][i] < 0) json.refuse("has a variance below 0");
        for (std::size_t k = 0; k < i; ++k)
            if (std::abs(matrix.m[i][k] - matrix.m[k][i]) > 1e-6) json.refuse("is not symmetric");
    }
    return matrix;
}

Unexplained to_unexplained(const JsonPart& json) {
    return {to_covariance(json.at("common")), to_covariance(json.at("apart")),
            to_covariance(json.at("apart_share"))};
}

}  // namespace

Json matrix_json(const Matrix3& matrix) {
    Json list = Json::array();
    for (const auto& row : matrix.m)
        for (const double value : row) list.push_back(value);
    return list;
}

Matrix3 to_matrix(const JsonPart& json, double most) {
    const auto values = json.numbers<9>(-most, most);
    Matrix3 matrix;
    for (std::size_t i = 0; i < values.size(); ++i) matrix.m[i / 3][i % 3] = values[i];
    return matrix;
}

Json characterisation_json(const Characterisation& characterisation) {
    Json doubt = Json::array(), patches = Json::array();
    for (const ModelChange& change : characterisation.doubt) doubt.push_back(change_json(change));
    for (const PatchFit& fit : characterisation.patches) {
        Json patch{{"name", fit.name}, {"residual_de2000", fit.residual_de2000}};
        if (fit.leave_one_out_de2000) patch["leave_one_out_de2000"] = *fit.leave_one_out_de2000;
        patches.push_back(patch);
    }
    const ColourModel& model = characterisation.model;
    return {{"description", characterisation.description},
            {"model",
             {{"to_working", matrix_json(model.to_working)},
              {"linear", matrix_json(model.from_working.linear)},
              {"roots", matrix_json(model.from_working.roots)}}},
            {"doubt", doubt},
            {"contrast", characterisation.contrast},
            {"unexplained",
             {{"common", matrix_json(characterisation.unexplained.common)},
              {"apart", matrix_json(characterisation.unexplained.apart)},
              {"apart_share", matrix_json(characterisation.unexplained.apart_share)}}},
            {"light_kelvin",
             characterisation.light_kelvin ? Json(*characterisation.light_kelvin) : Json(nullptr)},
            {"patches", patches}};
}

Characterisation to_characterisation(const JsonPart& json) {
    Characterisation result;
    result.description = json.at("description").text();
    const JsonPart model = json.at("model");
    result.model.to_working = to_matrix(model.at("to_working"), most_coefficient);
    result.model.from_working = to_change(model);
    require_white(result.model, model);
    for (const JsonPart& change : json.at("doubt").list(most_doubts))
        result.doubt.push_back(to_change(change));
    result.contrast = json.at("contrast").number(0, 1);
    if (const auto unexplained = json.find("unexplained")) result.unexplained = to_unexplained(*unexplained);
    if (const auto kelvin = json.find("light_kelvin")) result.light_kelvin = kelvin->number(1000, 1e5);
    for (const JsonPart& patch : json.at("patches").list(most_residuals))
        result.patches.push_back(to_patch_fit(patch));
    return result;
}

}  // namespace tonemend
