// SPDX-License-Identifier: Apache-2.0
#include "light/colour.hpp"

#include <cmath>
#include <cstddef>

namespace duskwire::light {
namespace {

using Three = std::array<double, 3>;

constexpr double observer_from_nm = 360;
constexpr double observer_step_nm = 5;

// CIE 1931 2 degree colour matching functions x, y, z, 360 to 780 nm by 5 nm (CIE 015, table 6; the public tables of
// several colour libraries agree to all digits shown). What lies beyond changes no digit of a chromaticity here.
constexpr Three observer[] = {
    {0.0001299, 0.000003917, 0.0006061},
    {0.0002321, 0.000006965, 0.001086},
    {0.0004149, 0.00001239, 0.001946},
    {0.0007416, 0.00002202, 0.003486},
    {0.001368, 0.000039, 0.00645},
    {0.002236, 0.000064, 0.01055},
    {0.004243, 0.00012, 0.02005},
    {0.00765, 0.000217, 0.03621},
    {0.01431, 0.000396, 0.06785},
    {0.02319, 0.00064, 0.1102},
    {0.04351, 0.00121, 0.2074},
    {0.07763, 0.00218, 0.3713},
    {0.13438, 0.004, 0.6456},
    {0.21477, 0.0073, 1.03905},
    {0.2839, 0.0116, 1.3856},
    {0.3285, 0.01684, 1.62296},
    {0.34828, 0.023, 1.74706},
    {0.34806, 0.0298, 1.7826},
    {0.3362, 0.038, 1.77211},
    {0.3187, 0.048, 1.7441},
    {0.2908, 0.06, 1.6692},
    {0.2511, 0.0739, 1.5281},
    {0.19536, 0.09098, 1.28764},
    {0.1421, 0.1126, 1.0419},
    {0.09564, 0.13902, 0.81295},
    {0.05795, 0.1693, 0.6162},
    {0.03201, 0.20802, 0.46518},
    {0.0147, 0.2586, 0.3533},
    {0.0049, 0.323, 0.272},
    {0.0024, 0.4073, 0.2123},
    {0.0093, 0.503, 0.1582},
    {0.0291, 0.6082, 0.1117},
    {0.06327, 0.71, 0.07825},
    {0.1096, 0.7932, 0.05725},
    {0.1655, 0.862, 0.04216},
    {0.22575, 0.91485, 0.02984},
    {0.2904, 0.954, 0.0203},
    {0.3597, 0.9803, 0.0134},
    {0.43345, 0.99495, 0.00875},
    {0.51205, 1, 0.00575},
    {0.5945, 0.995, 0.0039},
    {0.6784, 0.9786, 0.00275},
    {0.7621, 0.952, 0.0021},
    {0.8425, 0.9154, 0.0018},
    {0.9163, 0.87, 0.00165},
    {0.9786, 0.8163, 0.0014},
    {1.0263, 0.757, 0.0011},
    {1.0567, 0.6949, 0.001},
    {1.0622, 0.631, 0.0008},
    {1.0456, 0.5668, 0.0006},
    {1.0026, 0.503, 0.00034},
    {0.9384, 0.4412, 0.00024},
    {0.85445, 0.381, 0.00019},
    {0.7514, 0.321, 0.0001},
    {0.6424, 0.265, 0.00005},
    {0.5419, 0.217, 0.00003},
    {0.4479, 0.175, 0.00002},
    {0.3608, 0.1382, 0.00001},
    {0.2835, 0.107, 0},
    {0.2187, 0.0816, 0},
    {0.1649, 0.061, 0},
    {0.1212, 0.04458, 0},
    {0.0874, 0.032, 0},
    {0.0636, 0.0232, 0},
    {0.04677, 0.017, 0},
    {0.0329, 0.01192, 0},
    {0.0227, 0.00821, 0},
    {0.01584, 0.005723, 0},
    {0.01135916, 0.004102, 0},
    {0.008110916, 0.002929, 0},
    {0.005790346, 0.002091, 0},
    {0.004109457, 0.001484, 0},
    {0.002899327, 0.001047, 0},
    {0.00204919, 0.00074, 0},
    {0.001439971, 0.00052, 0},
    {0.0009999493, 0.0003611, 0},
    {0.0006900786, 0.0002492, 0},
    {0.0004760213, 0.0001719, 0},
    {0.0003323011, 0.00012, 0},
    {0.0002348261, 0.0000848, 0},
    {0.0001661505, 0.00006, 0},
    {0.000117413, 0.0000424, 0},
    {0.0000830753, 0.00003, 0},
    {0.0000587065, 0.0000212, 0},
    {0.0000415099, 0.00001499, 0},
};

// c2 of Planck's law as the Planckian locus of colorimetry takes it, m K (values differ by edition; CIE 015
// has 1.4388e-2).
constexpr double second_radiation_constant_m_k = 0.014388;

// IEC 61966-2-1: linear sRGB from XYZ, white D65.
constexpr std::array<Three, 3> srgb_from_xyz{Three{3.2404542, -1.5371385, -0.4985314},
                                             Three{-0.9692660, 1.8760108, 0.0415560},
                                             Three{0.0556434, -0.2040259, 1.0572252}};

// Cone-like responses in which the eye adapts: Bradford (Lam 1985, as ICC profiles use it) and its inverse.
constexpr std::array<Three, 3> cone_from_xyz{Three{0.8951, 0.2664, -0.1614}, Three{-0.7502, 1.7135, 0.0367},
                                             Three{0.0389, -0.0685, 1.0296}};
constexpr std::array<Three, 3> xyz_from_cone{Three{0.9869929, -0.1470543, 0.1599627},
                                             Three{0.4323053, 0.5183603, 0.0492912},
                                             Three{-0.0085287, 0.0400428, 0.9684867}};

constexpr Chromaticity d65{0.3127, 0.3290};

Three times(const std::array<Three, 3>& rows, const Three& v) {
  Three out{};
  for (std::size_t i = 0; i < 3; ++i) out[i] = rows[i][0] * v[0] + rows[i][1] * v[1] + rows[i][2] * v[2];
  return out;
}

// Of luminance 1.
Three xyz_of(Chromaticity at) { return {at.x / at.y, 1, (1 - at.x - at.y) / at.y}; }

}  // namespace

Chromaticity planckian(double temperature_k) {
  Three sum{};
  double wavelength_nm = observer_from_nm;
  for (const Three& response : observer) {
    const double wavelength_m = wavelength_nm * 1e-9;
    const double power =
        std::pow(wavelength_nm / 560, -5) / std::expm1(second_radiation_constant_m_k / (wavelength_m * temperature_k));
    for (std::size_t i = 0; i < 3; ++i) sum[i] += power * response[i];
    wavelength_nm += observer_step_nm;
  }
  const double all = sum[0] + sum[1] + sum[2];
  return {sum[0] / all, sum[1] / all};
}

// CIE 015: two cubics, joined at 7000 K.
Chromaticity daylight(double temperature_k) {
  const double t = 1 / temperature_k;
  const double x = temperature_k <= 7000 ? ((-4.6070e9 * t + 2.9678e6) * t + 0.09911e3) * t + 0.244063
                                         : ((-2.0064e9 * t + 1.9018e6) * t + 0.24748e3) * t + 0.237040;
  return {x, (-3 * x + 2.87) * x - 0.275};
}

LinearRgb linear_srgb(Chromaticity at) { return times(srgb_from_xyz, xyz_of(at)); }

Chromaticity chromaticity_of_light(double temperature_k) {
  return temperature_k < 5000 ? planckian(temperature_k) : daylight(temperature_k);
}

LinearRgb light_colour(double temperature_k, double white_k) {
  const Three cones_of_white = times(cone_from_xyz, xyz_of(chromaticity_of_light(white_k)));
  const Three cones_of_display = times(cone_from_xyz, xyz_of(d65));
  Three cones = times(cone_from_xyz, xyz_of(chromaticity_of_light(temperature_k)));
  for (std::size_t i = 0; i < 3; ++i) cones[i] *= cones_of_display[i] / cones_of_white[i];
  const Three xyz = times(xyz_from_cone, cones);
  LinearRgb rgb = times(srgb_from_xyz, xyz);
  // The adapted light keeps its luminance.
  for (double& part : rgb) part /= xyz[1];
  return rgb;
}

double srgb_encoded(double linear) {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
}

double srgb_decoded(double encoded) {
  return encoded <= 0.04045 ? encoded / 12.92 : std::pow((encoded + 0.055) / 1.055, 2.4);
}

const std::array<float, 256>& srgb_decoded_bytes() {
  static const std::array<float, 256> table = [] {
    std::array<float, 256> made{};
    for (std::size_t i = 0; i < made.size(); ++i)
      made[i] = static_cast<float>(srgb_decoded(static_cast<double>(i) / 255));
    return made;
  }();
  return table;
}

}  // namespace duskwire::light
