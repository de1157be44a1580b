// Twin: src/live/display_table.h
// DISPLAY_BY_LAB is defined for displays whose table is addressed by CIELAB.

uniform mat3 display_from_xyz;
uniform vec3 display_black;
uniform vec3 display_lab_scale;
uniform vec3 display_lab_offset;
uniform sampler2D display_shaper;  // entries × 1
uniform sampler3D display_nodes;

vec3 display_node(ivec3 at) {
    return texelFetch(display_nodes, at, 0).rgb;
}

vec3 display_address(vec3 xyz) {
#ifdef DISPLAY_BY_LAB
    return (to_lab(xyz) + display_lab_offset) * display_lab_scale;
#else
    return sqrt(sqrt(max(display_from_xyz * (xyz - display_black), 0.0)));
#endif
}

float shape(float address, int channel) {
    int last = textureSize(display_shaper, 0).x - 1;
    float at = clamp(address, 0.0, 1.0) * float(last);
    int low = min(int(at), last - 1);
    float below = texelFetch(display_shaper, ivec2(low, 0), 0)[channel];
    float above = texelFetch(display_shaper, ivec2(low + 1, 0), 0)[channel];
    return below + (at - float(low)) * (above - below);
}

#ifdef DISPLAY_BY_LAB
vec3 between_nodes(ivec3 low, vec3 share) {
    vec3 sum = vec3(0.0);
    for (int corner = 0; corner < 8; ++corner) {
        ivec3 step = ivec3(corner & 1, (corner >> 1) & 1, corner >> 2);
        vec3 weight = mix(1.0 - share, share, vec3(step));
        sum += weight.x * weight.y * weight.z * display_node(low + step);
    }
    return sum;
}
#else
// Along the diagonal from the low corner: along the largest share first, the smallest last.
vec3 between_nodes(ivec3 low, vec3 share) {
    ivec3 largest = share.r >= share.g ? (share.r >= share.b ? ivec3(1, 0, 0) : ivec3(0, 0, 1))
                                       : (share.g >= share.b ? ivec3(0, 1, 0) : ivec3(0, 0, 1));
    ivec3 smallest = share.b <= share.g ? (share.b <= share.r ? ivec3(0, 0, 1) : ivec3(1, 0, 0))
                                        : (share.g <= share.r ? ivec3(0, 1, 0) : ivec3(1, 0, 0));
    float large = max(share.r, max(share.g, share.b));
    float small = min(share.r, min(share.g, share.b));
    float middle = share.r + share.g + share.b - large - small;
    return (1.0 - large) * display_node(low) + (large - middle) * display_node(low + largest) +
           (middle - small) * display_node(low + ivec3(1) - smallest) + small * display_node(low + ivec3(1));
}
#endif

vec3 encode_for_display(vec3 xyz) {
    vec3 address = display_address(xyz);
    int last = textureSize(display_nodes, 0).x - 1;
    vec3 at = clamp(vec3(shape(address.x, 0), shape(address.y, 1), shape(address.z, 2)), 0.0, 1.0) * float(last);
    ivec3 low = min(ivec3(at), last - 1);
    return between_nodes(low, at - vec3(low));
}
