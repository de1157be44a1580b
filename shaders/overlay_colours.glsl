// Twin: src/live/overlay_colours.h

vec3 no_value_colour() {
    return to_xyz(vec3(50.0, 0.0, 0.0));
}

vec3 amount_colour(float t) {
    return to_xyz(mix(vec3(22.0, 10.0, -36.0), vec3(92.0, -4.0, 50.0), clamp(t, 0.0, 1.0)));
}

vec3 departure_colour(float t) {
    vec3 end = t < 0.0 ? vec3(40.0, -2.0, -40.0) : vec3(40.0, 18.0, 42.0);
    return to_xyz(mix(vec3(88.0, 0.0, 0.0), end, min(abs(t), 1.0)));
}

uniform vec3 clipped_bright_colour;
uniform vec3 clipped_dark_colour;

vec3 ground_colour() {
    return amount_colour(0.85);
}

vec3 figure_colour() {
    return amount_colour(0.15);
}
