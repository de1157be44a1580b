// Twin: src/live/overlay_pixel.h

const int overlay_none = 0;
const int overlay_difference = 1;
const int overlay_clipping = 2;
const int overlay_glare = 3;
const int overlay_evenness = 4;
const int overlay_figure = 5;

uniform int overlay;
uniform float overlay_strength;
uniform vec3 reference_lab;
uniform float difference_span;
uniform float evenness_span;

vec3 overlay_colour(int clipping, vec3 light, vec3 xyz, float Y_around, vec2 at) {
    switch (overlay) {
        case overlay_difference:
            return amount_colour(ciede2000(reference_lab, to_lab(xyz)) / difference_span);
        case overlay_clipping:
            if (clipping == clipping_bright) return clipped_bright_colour;
            if (clipping == clipping_dark) return clipped_dark_colour;
            return d50 * xyz.y;
        case overlay_glare:
            return amount_colour(neutral_excess(light));
        case overlay_evenness:
            return departure_colour(light_departure(Y_around, at) / evenness_span);
        case overlay_figure:
            return is_figure(light) ? figure_colour() : ground_colour();
        default:
            return xyz;
    }
}

vec3 paint_overlay(int clipping, vec3 light, vec3 xyz, float Y_around, vec2 at) {
    return mix(xyz, overlay_colour(clipping, light, xyz, Y_around, at), overlay_strength);
}
