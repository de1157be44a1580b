// Twin: FlatGrid of src/calibrate/flat/flat_grid.h
// EVENED_OUT is defined by whoever makes the program: false for a picture without a flat field and for one that is light already,
// evened out where it was made.

const bool evened_out = EVENED_OUT;

uniform sampler2D flat_gains;    // nodes over the picture, the outer ones on its edges: what light is multiplied by
uniform vec2 flat_node_spacing;  // picture pixels

// Interpolated here: the filter of the hardware keeps eight bits of the share only.
vec3 flat_gain(vec2 at) {
    ivec2 last = textureSize(flat_gains, 0) - 1;
    vec2 place = clamp(at / flat_node_spacing, vec2(0.0), vec2(last));
    ivec2 low = min(ivec2(place), last - 1);
    vec2 share = place - vec2(low);
    vec3 a = texelFetch(flat_gains, low, 0).rgb, b = texelFetch(flat_gains, low + ivec2(1, 0), 0).rgb;
    vec3 c = texelFetch(flat_gains, low + ivec2(0, 1), 0).rgb, d = texelFetch(flat_gains, low + ivec2(1, 1), 0).rgb;
    return mix(mix(a, b, share.x), mix(c, d, share.x), share.y);
}

// `light` of the picture at `at`, in picture pixels, as if it had fallen evenly.
vec3 even_out_light(vec3 light, vec2 at) {
    return evened_out ? light * flat_gain(at) : light;
}
