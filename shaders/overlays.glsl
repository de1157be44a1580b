// Twin: src/live/overlay_math.h

const int clipping_none = 0;
const int clipping_dark = 1;
const int clipping_bright = 2;

int clipping_of(vec3 code) {
    if (max(code.r, max(code.g, code.b)) >= 1.0) return clipping_bright;
    if (min(code.r, min(code.g, code.b)) <= 0.0) return clipping_dark;
    return clipping_none;
}

uniform vec3 glare_weights;
uniform float glare_centre;
uniform float glare_limit;
uniform float glare_brightness;

float neutral_excess(vec3 light) {
    if (light.r + light.g + light.b <= glare_brightness) return 0.0;
    return max(0.0, (dot(glare_weights, light) - glare_centre) / (glare_limit - glare_centre));
}

uniform float plane_level;
uniform vec2 plane_at;
uniform vec2 plane_slope;

float light_departure(float Y, vec2 at) {
    float light = plane_level * (1.0 + dot(plane_slope, at - plane_at));
    return light > 1e-6 ? Y / light - 1.0 : 0.0;
}

uniform float blend_level;

float lightness_over(float Y) {
    return 116.0 * lab_f(Y) - 16.0 - blend_level;
}

uniform vec3 figure_axis;
uniform float figure_boundary;

bool is_figure(vec3 light) {
    return dot(figure_axis, light) < figure_boundary;
}
