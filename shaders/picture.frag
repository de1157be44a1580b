// Twin: src/live/overlay_pixel.h
// Each program is made for one combination of OVERLAY and these constants, so that no driver computes what is not shown.
// Several picture pixels under one of the screen are averaged in light, never in codes.

const bool spread_clipping = SPREAD_CLIPPING;        // raw: a clipped pixel spoils the eight around it
const bool use_difference_map = USE_DIFFERENCE_MAP;  // ΔE2000 made elsewhere
const int samples_per_side = SAMPLES_PER_SIDE;       // of the square that a pixel averages

uniform vec2 view_corner;       // framebuffer pixel of the view's top left corner, counted from the bottom left
uniform vec2 view_origin;       // picture position there
uniform float texels_per_pixel;
uniform float sample_spacing;   // picture pixels
uniform sampler2D even_light;    // see luminance_around
uniform float even_light_step;  // picture pixels; 0: there is none, and a pixel stands for itself
uniform vec3 surround;          // encoded for the display already
uniform sampler2D difference_map;  // as large as the picture

out vec4 shown;

int clipping_at(ivec2 at) {
    vec4 t = texel(at);
    if (!picture_is_light) return clipping_of(t.rgb);
    return t.a < 0.5 ? (max(t.r, max(t.g, t.b)) > 0.5 ? clipping_bright : clipping_dark) : clipping_none;
}

int clipping_around(ivec2 at) {
    int worst = clipping_none;
    for (int y = -1; y <= 1; ++y)
        for (int x = -1; x <= 1; ++x) worst = max(worst, clipping_at(at + ivec2(x, y)));
    return worst;
}

bool valued = true;  // until a texel is met that has no value

// The mean over a square of n × n samples around `at`.
vec3 mean_light(vec2 at, int n, float spacing) {
    vec3 sum = vec3(0.0);
    float middle = 0.5 * float(n - 1);
    for (int j = 0; j < n; ++j) {
        for (int i = 0; i < n; ++i) {
            vec4 t = texel(ivec2(floor(at + (vec2(i, j) - middle) * spacing)));
            valued = valued && has_value(t.rgb);
            sum += light_of_texel(t);
        }
    }
    return sum / float(n * n);
}

// The luminance of the square around `at`: between the four nearest places of the small picture that even_light.frag made.
float luminance_around(vec2 at) {
    vec2 place = at / even_light_step - 0.5;
    ivec2 low = ivec2(floor(place)), last = textureSize(even_light, 0) - 1;
    vec2 share = place - vec2(low);
    float a = texelFetch(even_light, clamp(low, ivec2(0), last), 0).r;
    float b = texelFetch(even_light, clamp(low + ivec2(1, 0), ivec2(0), last), 0).r;
    float c = texelFetch(even_light, clamp(low + ivec2(0, 1), ivec2(0), last), 0).r;
    float d = texelFetch(even_light, clamp(low + ivec2(1, 1), ivec2(0), last), 0).r;
    return mix(mix(a, b, share.x), mix(c, d, share.x), share.y);
}

int worst_clipping(vec2 at) {
    int worst = clipping_none;
    float middle = 0.5 * float(samples_per_side - 1);
    for (int j = 0; j < samples_per_side; ++j) {
        for (int i = 0; i < samples_per_side; ++i) {
            ivec2 place = ivec2(floor(at + (vec2(i, j) - middle) * sample_spacing));
            worst = max(worst, spread_clipping ? clipping_around(place) : clipping_at(place));
        }
    }
    return worst;
}

vec3 pixel_colour(vec2 at) {
    vec3 light = even_out_light(mean_light(at, samples_per_side, sample_spacing), at);
    if (!valued) return no_value_colour();
    vec3 xyz = xyz_of(light);
    if (overlay == overlay_difference && use_difference_map) {
        float difference = texelFetch(difference_map, ivec2(floor(at)), 0).r;
        if (!is_number(difference)) return no_value_colour();
        return mix(xyz, amount_colour(difference / difference_span), overlay_strength);
    }
    int clipping = overlay == overlay_clipping ? worst_clipping(at) : clipping_none;
    float Y_around = xyz.y;
    if ((overlay == overlay_evenness || overlay == overlay_blend) && even_light_step > 0.0) Y_around = luminance_around(at);
    return paint_overlay(clipping, light, xyz, Y_around, at);
}

void main() {
    vec2 down = vec2(gl_FragCoord.x - view_corner.x, view_corner.y - gl_FragCoord.y);
    vec2 at = view_origin + down * texels_per_pixel;
    bool outside = any(lessThan(at, vec2(0.0))) || any(greaterThanEqual(at, vec2(picture_size())));
    shown = vec4(outside ? surround : encode_for_display(pixel_colour(at)), 1.0);
}
