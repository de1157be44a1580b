#include <fmt/format.h>

#include <cmath>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "calibrate/card/card_location.h"
#include "calibrate/model/characterisation_prior.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

using nlohmann::json;

constexpr const char* schema = "tonemend.characterisation-prior/1";

// Five digits: more than the ensemble of cameras is good for.
double rounded(double value) {
    return std::stod(fmt::format("{:.5g}", value));
}

json to_json(const Eigen::VectorXd& vector) {
    json array = json::array();
    for (const double value : vector) array.push_back(rounded(value));
    return array;
}

// A symmetric matrix as its lower triangle, row by row.
json to_json(const Eigen::MatrixXd& matrix, bool) {
    json array = json::array();
    for (Eigen::Index row = 0; row < matrix.rows(); ++row)
        for (Eigen::Index column = 0; column <= row; ++column) array.push_back(rounded(matrix(row, column)));
    return array;
}

Eigen::VectorXd read_vector(const json& array, Eigen::Index size) {
    if (array.size() != static_cast<std::size_t>(size))
        throw json::other_error::create(501, "length", &array);
    Eigen::VectorXd vector(size);
    for (Eigen::Index i = 0; i < size; ++i) vector[i] = array.at(static_cast<std::size_t>(i)).get<double>();
    return vector;
}

Eigen::MatrixXd read_triangle(const json& array, Eigen::Index size) {
    const Eigen::VectorXd values = read_vector(array, size * (size + 1) / 2);
    Eigen::MatrixXd matrix(size, size);
    Eigen::Index at = 0;
    for (Eigen::Index row = 0; row < size; ++row)
        for (Eigen::Index column = 0; column <= row; ++column)
            matrix(row, column) = matrix(column, row) = values[at++];
    return matrix;
}

constexpr std::array kind_names{"same", "earth", "other"};
constexpr std::array stated_names{"d50", "temperature", "family"};

json to_json(const StatedPrior& prior) {
    return {{"mean", to_json(prior.mean)},
            {"covariance", to_json(prior.covariance, true)},
            {"cross", to_json(Eigen::VectorXd(prior.cross.reshaped<Eigen::RowMajor>()))}};
}

StatedPrior read_stated(const json& object, Eigen::Index size) {
    const Eigen::VectorXd cross = read_vector(object.at("cross"), size * size);
    return {read_vector(object.at("mean"), size), read_triangle(object.at("covariance"), size),
            cross.reshaped<Eigen::RowMajor>(size, size)};
}

json to_json(const FormPrior& prior) {
    json difference;
    for (std::size_t kind = 0; kind < repair_colourants_count; ++kind)
        difference[kind_names[kind]] = {{"residual", to_json(prior.residual[kind], true)},
                                        {"always", to_json(prior.difference[kind].always, true)},
                                        {"share", to_json(prior.difference[kind].share, true)}};
    json stated;
    for (std::size_t k = 0; k < stated_for_count; ++k) stated[stated_names[k]] = to_json(prior.stated[k]);
    return {{"mean", to_json(prior.mean)},
            {"covariance", to_json(prior.covariance, true)},
            {"stated", stated},
            {"residual_other", to_json(prior.residual_other, true)},
            {"colourants", difference}};
}

FormPrior read_form(const json& object, ModelForm form) {
    FormPrior prior;
    const Eigen::Index size = 3 * term_count(form);
    prior.mean = read_vector(object.at("mean"), size);
    prior.covariance = read_triangle(object.at("covariance"), size);
    for (std::size_t k = 0; k < stated_for_count; ++k)
        prior.stated[k] = read_stated(object.at("stated").at(stated_names[k]), size);
    prior.residual_other = read_triangle(object.at("residual_other"), 3);
    for (std::size_t kind = 0; kind < repair_colourants_count; ++kind) {
        const json& scatter = object.at("colourants").at(kind_names[kind]);
        prior.residual[kind] = read_triangle(scatter.at("residual"), 3);
        prior.difference[kind] = {read_triangle(scatter.at("always"), 3),
                                  read_triangle(scatter.at("share"), 3)};
    }
    return prior;
}

}  // namespace

std::string to_json_text(const CharacterisationPrior& prior) {
    json lights = json::array();
    for (const LightPrior& light : prior.lights)
        lights.push_back({{"family", light.family == LampFamily::led ? "led" : "thermal"},
                          {"kelvin", light.kelvin},
                          {"linear", to_json(light.linear)},
                          {"root", to_json(light.root)}});
    std::string text = fmt::format("{{\"schema\": \"{}\",\n \"lights\": [\n", schema);
    for (std::size_t i = 0; i < lights.size(); ++i)
        text += lights[i].dump() + (i + 1 < lights.size() ? ",\n" : "\n");
    return text + "]}\n";
}

CharacterisationPrior parse_prior(const std::string& text, const std::string& name) {
    try {
        const json object = json::parse(text);
        CharacterisationPrior prior;
        if (object.at("schema") != schema) throw json::other_error::create(501, "schema", &object);
        for (const json& light : object.at("lights"))
            prior.lights.push_back({light.at("family") == "led" ? LampFamily::led : LampFamily::thermal,
                                    light.at("kelvin").get<double>(),
                                    read_form(light.at("linear"), ModelForm::linear),
                                    read_form(light.at("root"), ModelForm::root)});
        if (prior.lights.empty()) throw json::other_error::create(501, "lights", &object);
        return prior;
    } catch (const json::exception&) {
        throw InputError(fmt::format(
            "{}: not a characterisation prior of schema {}; put the file that came with the program back",
            one_line(name), schema));
    }
}

const CharacterisationPrior& characterisation_prior() {
    static const CharacterisationPrior prior = [] {
        const std::filesystem::path path = locate_calibration_file("characterisation-prior.json");
        std::ifstream in(path, std::ios::binary);
        return parse_prior({std::istreambuf_iterator<char>(in), {}}, path.string());
    }();
    return prior;
}

}  // namespace tonemend
