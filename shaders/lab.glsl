// Twin: src/colour/lab.h

const vec3 d50 = vec3(0.9642, 1.0, 0.8249);  // ICC.1:2022, 7.2.16
const float knee = 6.0 / 29.0;

float lab_f(float t) {
    return t > knee * knee * knee ? cube_root(t) : t * (841.0 / 108.0) + 4.0 / 29.0;
}

float lab_f_inverse(float s) {
    return s > knee ? s * s * s : (s - 4.0 / 29.0) * (108.0 / 841.0);
}

vec3 to_lab(vec3 xyz) {
    vec3 f = vec3(lab_f(xyz.x / d50.x), lab_f(xyz.y), lab_f(xyz.z / d50.z));
    return vec3(116.0 * f.y - 16.0, 500.0 * (f.x - f.y), 200.0 * (f.y - f.z));
}

vec3 to_xyz(vec3 lab) {
    float y = (lab.x + 16.0) / 116.0;
    return d50 * vec3(lab_f_inverse(y + lab.y / 500.0), lab_f_inverse(y), lab_f_inverse(y - lab.z / 200.0));
}
