// SPDX-License-Identifier: Apache-2.0
#include "light/lookup_grid.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

namespace duskwire::light {
namespace {

// Steps that tables come in, coarsest first, so that the grid is as small as can be.
constexpr std::array<double, 10> usual_steps_deg{30, 22.5, 15, 10, 7.5, 5, 2.5, 2, 1, 0.5};
constexpr double fine_gamma_step_deg = 0.25;
constexpr double fine_c_step_deg = 2.5;

double even_step_deg(std::span<const double> angles_deg, double otherwise_deg) {
  for (const double step_deg : usual_steps_deg) {
    const bool fits = std::all_of(angles_deg.begin(), angles_deg.end(), [&](double angle_deg) {
      const double steps = (angle_deg - angles_deg[0]) / step_deg;
      return std::abs(steps - std::round(steps)) < 1e-6;
    });
    if (fits) return step_deg;
  }
  return otherwise_deg;
}

struct Sampling {
  double first_gamma_deg = 0;
  double gamma_step_deg = 0;
  int gammas = 0;
  double c_step_deg = 0;
  int planes = 1;
};

int steps_over(double range_deg, double& step_deg) {
  const int steps = std::max(1, static_cast<int>(std::ceil(range_deg / step_deg - 1e-6)));
  step_deg = range_deg / steps;
  return steps;
}

Sampling sampling_of(const Distribution& d) {
  Sampling s;
  double last_gamma_deg = 180;
  s.gamma_step_deg = fine_gamma_step_deg;
  s.c_step_deg = fine_c_step_deg;
  bool all_round = false;
  if (d.type == PhotometricType::c) {
    s.first_gamma_deg = d.vertical_deg.front();
    last_gamma_deg = d.vertical_deg.back();
    s.gamma_step_deg = even_step_deg(d.vertical_deg, fine_gamma_step_deg);
    all_round = d.horizontal_deg.size() == 1;
    if (!all_round) s.c_step_deg = even_step_deg(d.horizontal_deg, fine_c_step_deg);
  }
  s.gammas =
      last_gamma_deg > s.first_gamma_deg ? 1 + steps_over(last_gamma_deg - s.first_gamma_deg, s.gamma_step_deg) : 1;
  if (!all_round) s.planes = 1 + steps_over(360, s.c_step_deg);
  return s;
}

// A table at even steps needs no reading anew.
bool is_the_table_itself(const Distribution& d, const Sampling& s) {
  return d.type == PhotometricType::c && d.horizontal_deg.size() == static_cast<std::size_t>(s.planes) &&
         d.vertical_deg.size() == static_cast<std::size_t>(s.gammas) && even_step_deg(d.vertical_deg, 0) > 0 &&
         (s.planes == 1 || even_step_deg(d.horizontal_deg, 0) > 0);
}

double read_cd(const Distribution& d, double c_deg, double gamma_deg) {
  if (d.type == PhotometricType::c) return intensity_cd(d, c_deg, gamma_deg);
  return direction_cd(d, way_from_angles(PhotometricType::c, {c_deg, gamma_deg}));
}

void fill_most(LookupGrid& grid) {
  grid.most_cd.assign(180, 0.0F);
  for (int i = 0; i < grid.gammas; ++i) {
    float most_cd = 0;
    for (int plane = 0; plane < grid.planes; ++plane) {
      most_cd = std::max(most_cd, grid.intensity_cd[static_cast<std::size_t>(plane * grid.gammas + i)]);
    }
    // An entry counts until the next one on either side.
    const float step_deg = 1 / grid.gammas_per_deg;
    const float at_deg = grid.first_gamma_deg + static_cast<float>(i) * step_deg;
    const int from = std::clamp(static_cast<int>(std::floor(at_deg - step_deg - 0.001F)), 0, 179);
    const int to = std::clamp(static_cast<int>(std::floor(at_deg + step_deg + 0.001F)), 0, 179);
    for (int bin = from; bin <= to; ++bin) {
      float& here_cd = grid.most_cd[static_cast<std::size_t>(bin)];
      here_cd = std::max(here_cd, most_cd);
    }
  }
}

}  // namespace

LookupGrid lookup_grid(const Distribution& d) {
  LookupGrid grid;
  if (d.horizontal_deg.empty() || d.vertical_deg.empty()) {
    grid.gammas = grid.planes = 1;
    grid.intensity_cd.assign(2, 0.0F);
    fill_most(grid);
    return grid;
  }
  const Sampling s = sampling_of(d);
  grid.first_gamma_deg = static_cast<float>(s.first_gamma_deg);
  grid.last_gamma_deg = static_cast<float>(s.first_gamma_deg + s.gamma_step_deg * (s.gammas - 1));
  grid.gammas_per_deg = static_cast<float>(1 / s.gamma_step_deg);
  grid.planes_per_deg = s.planes > 1 ? static_cast<float>(1 / s.c_step_deg) : 0.0F;
  grid.gammas = s.gammas;
  grid.planes = s.planes;
  grid.intensity_cd.reserve(static_cast<std::size_t>(s.gammas * s.planes + 1));
  if (is_the_table_itself(d, s)) {
    grid.intensity_cd.assign(d.intensity_cd.begin(), d.intensity_cd.end());
    grid.intensity_cd.push_back(0);
    fill_most(grid);
    return grid;
  }
  const double last_gamma_deg = d.type == PhotometricType::c ? d.vertical_deg.back() : 180;
  for (int plane = 0; plane < s.planes; ++plane) {
    for (int i = 0; i < s.gammas; ++i) {
      const double gamma_deg = std::min(last_gamma_deg, s.first_gamma_deg + i * s.gamma_step_deg);
      const double c_deg = plane + 1 == s.planes ? 0 : plane * s.c_step_deg;
      grid.intensity_cd.push_back(static_cast<float>(read_cd(d, c_deg, gamma_deg)));
    }
  }
  grid.intensity_cd.push_back(0);
  fill_most(grid);
  return grid;
}

float intensity_cd(const LookupGrid& grid, float c_deg, float gamma_deg) {
  if (!(gamma_deg >= grid.first_gamma_deg && gamma_deg <= grid.last_gamma_deg)) return 0;
  const auto along = [&](int plane) {
    const float at = (gamma_deg - grid.first_gamma_deg) * grid.gammas_per_deg;
    const int index = std::min(static_cast<int>(at), std::max(0, grid.gammas - 2));
    const float* entry = grid.intensity_cd.data() + plane * grid.gammas + index;
    const float share = at - static_cast<float>(index);
    return grid.gammas == 1 ? entry[0] : entry[0] + share * (entry[1] - entry[0]);
  };
  if (grid.planes == 1) return along(0);
  const float at = c_deg * grid.planes_per_deg;
  const int plane = std::min(static_cast<int>(at), grid.planes - 2);
  const float here_cd = along(plane);
  return here_cd + (at - static_cast<float>(plane)) * (along(plane + 1) - here_cd);
}

float most_cd_between(const LookupGrid& grid, float from_deg, float to_deg) {
  const int from = std::clamp(static_cast<int>(std::floor(from_deg)), 0, 179);
  const int to = std::clamp(static_cast<int>(std::floor(to_deg)), 0, 179);
  return *std::max_element(grid.most_cd.begin() + from, grid.most_cd.begin() + to + 1);
}

}  // namespace duskwire::light
