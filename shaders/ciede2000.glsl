// Twin: src/colour/difference.h
// CIEDE2000 (Sharma, Wu, Dalal, Color Res. Appl. 30 (2005); the numbers in brackets are theirs) without angles: in single
// precision differences of angles and of squares would lose the digits that matter near the reference.

float seventh_power_share(float c) {
    float x = min(c * (1.0 / 25.0), 1e4);
    float x2 = x * x;
    float x7 = x2 * x2 * x2 * x;
    return sqrt(x7 / (x7 + 1.0));
}

// The arc tangent for |t| ≤ 1, off by at most 2e-8 (Abramowitz and Stegun, 4.4.49).
float small_arc_tangent(float t) {
    float s = t * t;
    float p = 0.0028662257;
    p = p * s - 0.0161657367;
    p = p * s + 0.0429096138;
    p = p * s - 0.0752896400;
    p = p * s + 0.1065626393;
    p = p * s - 0.1420889944;
    p = p * s + 0.1999355085;
    p = p * s - 0.3333314528;
    return t + t * s * p;
}

// sin(2Δθ) of (16) and (21) for the mean hue's unit vector.
float rotation_sine(vec2 m) {
    const vec2 blue = vec2(0.0871557427, -0.9961946981);  // 275°
    float cosine = dot(m, blue);
    if (cosine <= 0.0) return 0.0;  // more than 90° away the true value is below 3e-6
    float sine = blue.x * m.y - blue.y * m.x;
    float away = 2.0 * small_arc_tangent(sine / (1.0 + cosine)) * (57.2957795 / 25.0);
    float twice = 1.0471975512 * exp(-away * away);
    float s = twice * twice;  // at most 60°: the series is good to 4e-8
    return twice * (1.0 + s * (-1.0 / 6.0 + s * (1.0 / 120.0 + s * (-1.0 / 5040.0 + s * (1.0 / 362880.0)))));
}

float ciede2000(vec3 reference, vec3 sampled) {
    float G = 0.5 * (1.0 - seventh_power_share(0.5 * (length(reference.yz) + length(sampled.yz))));  // (2) to (4)
    vec2 v1 = vec2((1.0 + G) * reference.y, reference.z);                                           // (5)
    vec2 v2 = vec2((1.0 + G) * sampled.y, sampled.z);
    float C1 = length(v1);  // (6)
    float C2 = length(v2);
    float dL = sampled.x - reference.x;  // (8)
    float dC = C2 - C1;                  // (9)

    // Unit vectors in place of (7); a hueless colour has none, and adding nothing is what (14) asks for.
    vec2 u1 = C1 > 0.0 ? v1 / C1 : vec2(0.0);
    vec2 u2 = C2 > 0.0 ? v2 / C2 : vec2(0.0);
    float product = C1 * C2;
    float cross = v1.x * (v2.y - v1.y) - (v2.x - v1.x) * v1.y;  // |v1 × v2| without cancellation when they are close
    float inner = dot(v1, v2);
    float dH = 0.0;  // (11)
    vec2 m = u1 + u2;
    if (inner >= 0.0) {
        if (product > 0.0) dH = 1.4142135624 * cross / sqrt(product + inner);
    } else {
        // Which way round the shorter arc goes. Opposite hues have none: (10) and (14) then go up from the lower angle.
        float turn = cross != 0.0 ? sign(cross) : (v1.y > 0.0 || (v1.y == 0.0 && v1.x > 0.0) ? 1.0 : -1.0);
        dH = turn * sqrt(2.0 * (product - inner));
        m = turn * vec2(u2.y - u1.y, u1.x - u2.x);
    }
    float size = length(m);
    m = size > 0.0 ? m / size : vec2(1.0, 0.0);

    float L = 0.5 * (reference.x + sampled.x) - 50.0;  // (12)
    float C = 0.5 * (C1 + C2);                         // (13)
    float c1 = m.x, s1 = m.y;
    float c2 = 2.0 * c1 * c1 - 1.0, s2 = 2.0 * s1 * c1;
    float c3 = c2 * c1 - s2 * s1, s3 = s2 * c1 + c2 * s1;
    float c4 = 2.0 * c2 * c2 - 1.0, s4 = 2.0 * s2 * c2;
    float T = 1.0 - 0.17 * (0.8660254038 * c1 + 0.5 * s1) + 0.24 * c2 + 0.32 * (0.9945218954 * c3 - 0.1045284633 * s3) -
              0.20 * (0.4539904997 * c4 + 0.8910065242 * s4);  // (15)
    float RT = -2.0 * seventh_power_share(C) * rotation_sine(m);  // (17), (21)
    float l = dL / (1.0 + 0.015 * L * L / sqrt(20.0 + L * L));    // (18)
    float c = dC / (1.0 + 0.045 * C);                             // (19)
    float h = dH / (1.0 + 0.015 * C * T);                         // (20)
    return sqrt(max(l * l + c * c + h * h + RT * c * h, 0.0));    // (22)
}
