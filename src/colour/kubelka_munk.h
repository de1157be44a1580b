#pragma once

namespace tonemend {

/// A Kubelka–Munk layer at one wavelength. `absorption` and `scattering` are K·X and S·X: the coefficients
/// times the layer's thickness, both at least 0 and without unit.
struct KubelkaMunkLayer {
    double absorption = 0;
    double scattering = 0;
};

/// Diffuse reflectance of the layer over a backing of reflectance `backing` (0..1), no interface between air
/// and layer: R = (1 − Rg·(a − b·coth bSX)) / (a − Rg + b·coth bSX), a = 1 + K/S, b = √(a² − 1). No
/// absorption gives R = (SX·(1 − Rg) + Rg) / (SX·(1 − Rg) + 1); no scattering gives R = Rg·exp(−2KX); no
/// thickness gives Rg. Source: P. Kubelka, "New contributions to the optics of intensely light-scattering
/// materials, part I", J. Opt. Soc. Am. 38 (1948).
double layer_reflectance(const KubelkaMunkLayer& layer, double backing);

/// Diffuse transmittance of the layer alone: T = b / (a·sinh bSX + b·cosh bSX). No absorption gives 1/(1 +
/// SX), no scattering exp(−KX). Source: as above.
double layer_transmittance(const KubelkaMunkLayer& layer);

/// R∞, the reflectance of a layer so thick that its backing does not matter, from K/S (at least 0; 0 gives
/// 1): 1 + K/S − √((K/S)² + 2·K/S).
double infinite_reflectance(double k_over_s);

/// K/S of a thick layer of reflectance `reflectance` in (0, 1]: (1 − R)²/(2R), the inverse of
/// infinite_reflectance.
double k_over_s(double reflectance);

}  // namespace tonemend
