// Twin: src/live/overlay_calibration.h
// CODES_OF_8_BITS is defined for pictures of 8 bits: every code meets an entry of the curves.

uniform sampler2D code_curves;  // entries × 1, calibrated light of R, G, B
uniform mat3 to_working;
uniform mat3 from_working;
uniform mat3 from_roots;  // of √(RG), √(GB), √(RB); zero for a plain matrix

#ifdef CODES_OF_8_BITS
vec3 light_of(vec3 code) {
    ivec3 at = ivec3(code * 255.0 + 0.5) * ((textureSize(code_curves, 0).x - 1) / 255);
    return vec3(texelFetch(code_curves, ivec2(at.r, 0), 0).r, texelFetch(code_curves, ivec2(at.g, 0), 0).g,
                texelFetch(code_curves, ivec2(at.b, 0), 0).b);
}
#else
// Interpolated here: the filter of the hardware keeps eight bits of the share only.
vec3 light_of(vec3 code) {
    int last = textureSize(code_curves, 0).x - 1;
    vec3 at = clamp(code, 0.0, 1.0) * float(last);
    ivec3 low = min(ivec3(at), last - 1);
    vec3 share = at - vec3(low);
    vec3 below = vec3(texelFetch(code_curves, ivec2(low.r, 0), 0).r, texelFetch(code_curves, ivec2(low.g, 0), 0).g,
                      texelFetch(code_curves, ivec2(low.b, 0), 0).b);
    vec3 above = vec3(texelFetch(code_curves, ivec2(low.r + 1, 0), 0).r, texelFetch(code_curves, ivec2(low.g + 1, 0), 0).g,
                      texelFetch(code_curves, ivec2(low.b + 1, 0), 0).b);
    return below + share * (above - below);
}
#endif

vec3 xyz_of(vec3 light) {
    vec3 working = to_working * light;
    return from_working * working + from_roots * sqrt(max(working.rgr * working.gbb, 0.0));
}
