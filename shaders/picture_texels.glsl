// Twin: CodeCurves of src/live/overlay_calibration.h for the light of a texel
// PICTURE_IS_LIGHT is defined by whoever makes the program, so that no driver computes what is not shown.

const bool picture_is_light = PICTURE_IS_LIGHT;  // calibrated light already, clipped where alpha is 0; else codes 0..1

uniform sampler2D picture;

ivec2 picture_size() {
    return textureSize(picture, 0);
}

vec4 texel(ivec2 at) {
    return texelFetch(picture, clamp(at, ivec2(0), picture_size() - 1), 0);
}

vec3 light_of_texel(vec4 t) {
    return picture_is_light ? t.rgb : light_of(t.rgb);
}
