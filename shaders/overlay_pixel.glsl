// Twin: src/live/overlay_pixel.h
// OVERLAY is defined as one of these: software drivers run every side of a branch, so each overlay is a program of its own.

const int overlay_none = 0;
const int overlay_difference = 1;
const int overlay_clipping = 2;
const int overlay_glare = 3;
const int overlay_evenness = 4;
const int overlay_figure = 5;
const int overlay_blend = 6;

const int overlay = OVERLAY;
uniform float overlay_strength;
uniform vec3 reference_lab;
uniform float difference_span;
uniform float evenness_span;
uniform float blend_span;

vec3 overlay_colour(int clipping, vec3 light, vec3 xyz, float Y_around, vec2 at) {
    if (overlay == overlay_difference) return amount_colour(ciede2000(reference_lab, to_lab(xyz)) / difference_span);
    if (overlay == overlay_clipping) {
        return clipping == clipping_bright ? clipped_bright_colour
               : clipping == clipping_dark ? clipped_dark_colour
                                           : d50 * xyz.y;
    }
    if (overlay == overlay_glare) return amount_colour(neutral_excess(light));
    if (overlay == overlay_evenness) return departure_colour(light_departure(Y_around, at) / evenness_span);
    if (overlay == overlay_figure) return is_figure(light) ? figure_colour() : ground_colour();
    if (overlay == overlay_blend) return departure_colour(lightness_over(Y_around) / blend_span);
    return xyz;
}

vec3 paint_overlay(int clipping, vec3 light, vec3 xyz, float Y_around, vec2 at) {
    return mix(xyz, overlay_colour(clipping, light, xyz, Y_around, at), overlay_strength);
}
