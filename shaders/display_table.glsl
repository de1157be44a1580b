// Twin: src/live/display_table.h

uniform mat3 display_from_xyz;
uniform vec3 display_black;
uniform sampler2D display_shaper;  // entries × 1
uniform sampler3D display_nodes;

// The nodes of red are neighbours in the texture's x, of green in y, of blue in z.
vec3 display_node(ivec3 at) {
    return texelFetch(display_nodes, at, 0).rgb;
}

float shape(float linear, int channel) {
    float root = linear > 0.0 ? min(cube_root(linear), 1.0) : 0.0;
    int last = textureSize(display_shaper, 0).x - 1;
    float at = root * float(last);
    int low = min(int(at), last - 1);
    float below = texelFetch(display_shaper, ivec2(low, 0), 0)[channel];
    float above = texelFetch(display_shaper, ivec2(low + 1, 0), 0)[channel];
    return below + (at - float(low)) * (above - below);
}

vec3 encode_for_display(vec3 xyz) {
    vec3 linear = display_from_xyz * (xyz - display_black);
    int last = textureSize(display_nodes, 0).x - 1;
    vec3 at = clamp(vec3(shape(linear.r, 0), shape(linear.g, 1), shape(linear.b, 2)), 0.0, 1.0) * float(last);
    ivec3 low = min(ivec3(at), last - 1);
    vec3 share = at - vec3(low);

    // Tetrahedra along the grey diagonal: from black's corner along the largest share first, the smallest last.
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
