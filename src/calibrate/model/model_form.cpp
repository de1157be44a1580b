#include "calibrate/model/model_form.h"

namespace tonemend {

Eigen::Index term_count(ModelForm form) {
    return form == ModelForm::linear ? 2 : 5;
}

Eigen::VectorXd departure_terms(ModelForm form, const Vector3& working) {
    const auto& [r, g, b] = working;
    Eigen::VectorXd terms(term_count(form));
    terms[0] = r - g, terms[1] = b - g;
    if (form == ModelForm::root) {
        const Vector3 roots = root_terms(working);
        terms[2] = roots[0] - (r + g) / 2, terms[3] = roots[1] - (g + b) / 2,
        terms[4] = roots[2] - (r + b) / 2;
    }
    return terms;
}

ModelChange change_of(ModelForm form, const Eigen::VectorXd& theta) {
    const Eigen::Index n = term_count(form);
    ModelChange change;
    for (std::size_t out = 0; out < 3; ++out) {
        const Eigen::VectorXd t = theta.segment(static_cast<Eigen::Index>(out) * n, n);
        change.linear.m[out] = {t[0], -t[0] - t[1], t[1]};
        if (form == ModelForm::linear) continue;
        change.linear.m[out][0] -= (t[2] + t[4]) / 2;
        change.linear.m[out][1] -= (t[2] + t[3]) / 2;
        change.linear.m[out][2] -= (t[3] + t[4]) / 2;
        change.roots.m[out] = {t[2], t[3], t[4]};
    }
    return change;
}

ColourModel changed(ColourModel model, const ModelChange& change) {
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column) {
            model.from_working.linear.m[row][column] += change.linear.m[row][column];
            model.from_working.roots.m[row][column] += change.roots.m[row][column];
        }
    return model;
}

}  // namespace tonemend
