// Twin: std::isfinite and std::cbrt, as src/live/overlay_math.cpp and src/colour/lab.cpp use them.

// By the bits of the exponent, since compilers may take it that no number is infinite.
bool is_number(float x) {
    return (floatBitsToUint(x) & 0x7f800000u) != 0x7f800000u;
}

bool has_value(vec3 v) {
    return is_number(v.x) && is_number(v.y) && is_number(v.z);
}

// For x > 0. The built-in power may be off by a few units in the last place; one Newton step mends it.
float cube_root(float x) {
    float y = exp2(log2(x) * (1.0 / 3.0));
    return y - (y * y * y - x) / (3.0 * y * y);
}
