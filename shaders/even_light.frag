// Twin: mean_luminance in tests/live/shader_view.cpp, which takes every picture pixel of the square where this takes some
// The luminance of the square of `reach` around places `map_step` picture pixels apart, as a small picture: evens out the grain.
// The places fall in no step with any pattern of rows or columns: the additive recurrence of the plastic number's powers
// (M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018). A texel without a value counts for nothing.

const int places_around = PLACES_AROUND;

uniform float map_step;  // picture pixels
uniform float reach;     // picture pixels

out vec4 mean;

void main() {
    vec2 at = gl_FragCoord.xy * map_step;
    vec3 sum = vec3(0.0);
    float counted = 0.0;
    for (int i = 0; i < places_around; ++i) {
        vec2 place = fract(vec2(0.7548776662, 0.5698402910) * float(i)) - 0.5;
        vec4 t = texel(ivec2(floor(at + place * reach)));
        if (!has_value(t.rgb)) continue;
        sum += even_out_light(light_of_texel(t), at + place * reach);
        counted += 1.0;
    }
    mean = vec4(xyz_of(sum / max(counted, 1.0)).y, 0.0, 0.0, 1.0);
}
