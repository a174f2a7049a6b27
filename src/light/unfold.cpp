// SPDX-License-Identifier: Apache-2.0
// Mirrored planes and mirrored rows; light/unfold.hpp says what for.
#include "light/unfold.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::light {
namespace {

// A plane (or row) of the whole table and the listed one it repeats.
struct Image {
  double angle_deg = 0;
  std::size_t source = 0;
};

double within_turn(double angle_deg) {
  const double turned = angle_deg - 360 * std::floor(angle_deg / 360);
  return turned < 360 ? turned : 0;
}

void sort_and_drop_twins(std::vector<Image>& images) {
  std::stable_sort(images.begin(), images.end(),
                   [](const Image& a, const Image& b) { return a.angle_deg < b.angle_deg; });
  const auto twin = [](const Image& a, const Image& b) { return a.angle_deg == b.angle_deg; };
  images.erase(std::unique(images.begin(), images.end(), twin), images.end());
}

// Every plane at every turn its symmetry shows it, within 0 to 360 (without 360).
std::vector<Image> planes_of(const ListedTable& listed) {
  std::vector<Image> images;
  for (std::size_t i = 0; i < listed.horizontal_deg.size(); ++i) {
    const double c = listed.horizontal_deg[i];
    const auto add = [&](double angle_deg) { images.push_back({within_turn(angle_deg), i}); };
    add(c);
    if (listed.symmetry == IntensitySymmetry::mirror_0_180) add(-c);
    if (listed.symmetry == IntensitySymmetry::mirror_90_270) add(180 - c);
    if (listed.symmetry == IntensitySymmetry::quadrants) {
      add(180 - c);
      add(180 + c);
      add(-c);
    }
  }
  sort_and_drop_twins(images);
  return images;
}

std::vector<Image> mirrored(const std::vector<double>& angles_deg, bool both_ways) {
  std::vector<Image> images;
  for (std::size_t i = 0; i < angles_deg.size(); ++i) {
    images.push_back({angles_deg[i], i});
    if (both_ways && angles_deg[i] != 0) images.push_back({-angles_deg[i], i});
  }
  sort_and_drop_twins(images);
  return images;
}

Distribution from_images(const ListedTable& listed, const std::vector<Image>& planes, const std::vector<Image>& rows) {
  Distribution whole;
  whole.type = listed.type;
  for (const Image& row : rows) whole.vertical_deg.push_back(row.angle_deg);
  whole.intensity_cd.reserve(planes.size() * rows.size());
  for (const Image& plane : planes) {
    whole.horizontal_deg.push_back(plane.angle_deg);
    const std::size_t start = plane.source * listed.vertical_deg.size();
    for (const Image& row : rows) whole.intensity_cd.push_back(listed.intensity_cd[start + row.source]);
  }
  return whole;
}

// The same plane at 0 and at 360, where the listed ones leave a gap: on the straight line across it.
void close_turn(Distribution& d) {
  const std::size_t rows = d.vertical_deg.size();
  std::vector<double> seam(d.intensity_cd.begin(), d.intensity_cd.begin() + static_cast<std::ptrdiff_t>(rows));
  if (d.horizontal_deg.front() != 0) {
    const double before_deg = d.horizontal_deg.back() - 360;
    const double share = -before_deg / (d.horizontal_deg.front() - before_deg);
    const std::size_t last = d.intensity_cd.size() - rows;
    for (std::size_t v = 0; v < rows; ++v) seam[v] = (1 - share) * d.intensity_cd[last + v] + share * seam[v];
    d.horizontal_deg.insert(d.horizontal_deg.begin(), 0);
    d.intensity_cd.insert(d.intensity_cd.begin(), seam.begin(), seam.end());
  }
  d.horizontal_deg.push_back(360);
  d.intensity_cd.insert(d.intensity_cd.end(), seam.begin(), seam.end());
}

}  // namespace

Distribution unfold(const ListedTable& listed) {
  if (listed.type == PhotometricType::c) {
    const std::vector<Image> rows = mirrored(listed.vertical_deg, false);
    if (listed.symmetry == IntensitySymmetry::axial || listed.horizontal_deg.size() == 1) {
      return from_images(listed, {{0, 0}}, rows);
    }
    Distribution whole = from_images(listed, planes_of(listed), rows);
    close_turn(whole);
    return whole;
  }
  const bool quarters = listed.symmetry == IntensitySymmetry::quarters;
  const bool left_right = quarters || listed.symmetry == IntensitySymmetry::left_right;
  const bool up_down = quarters || listed.symmetry == IntensitySymmetry::up_down;
  return from_images(listed, mirrored(listed.horizontal_deg, left_right), mirrored(listed.vertical_deg, up_down));
}

ListedTable listed_from(const Distribution& d) {
  const bool one_plane = d.type == PhotometricType::c && d.horizontal_deg.size() == 1;
  return {d.type, one_plane ? IntensitySymmetry::axial : IntensitySymmetry::none, d.horizontal_deg, d.vertical_deg,
          d.intensity_cd};
}

}  // namespace duskwire::light
