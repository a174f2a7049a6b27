// SPDX-License-Identifier: Apache-2.0
#include "study/brightness.hpp"

#include <algorithm>
#include <numbers>

namespace duskwire::study {
namespace {

BrightnessRole role_of(double ratio) {
  if (ratio >= focal_from) return BrightnessRole::focal;
  if (ratio >= support_from) return BrightnessRole::support;
  return ratio >= background_from ? BrightnessRole::background : BrightnessRole::dark;
}

}  // namespace

double usual_reflectance(LitPlace place) {
  switch (place) {
    case LitPlace::facade:
      return 0.35;
    case LitPlace::background:
      return 0.3;
    case LitPlace::path:
    case LitPlace::steps:
    case LitPlace::drive:
    case LitPlace::terrace:
      return 0.25;
    case LitPlace::tree:
      return 0.15;
    default:
      return 0.1;
  }
}

std::vector<BrightnessRow> brightness_order(const std::vector<PlaceLevels>& places) {
  std::vector<BrightnessRow> rows;
  double brightest = 0;
  for (const PlaceLevels& place : places) {
    BrightnessRow row;
    row.id = place.id;
    row.name = place.name;
    row.place = place.place;
    row.average_lx = place.lit.average_lx;
    row.reflectance = usual_reflectance(place.place);
    row.luminance_cd_m2 = row.average_lx * row.reflectance / std::numbers::pi;
    brightest = std::max(brightest, row.luminance_cd_m2);
    rows.push_back(std::move(row));
  }
  for (BrightnessRow& row : rows) {
    row.ratio = brightest > 0 ? row.luminance_cd_m2 / brightest : 0;
    row.role = brightest > 0 ? role_of(row.ratio) : BrightnessRole::dark;
  }
  std::stable_sort(rows.begin(), rows.end(), [](const BrightnessRow& p, const BrightnessRow& q) {
    return p.luminance_cd_m2 > q.luminance_cd_m2;
  });
  return rows;
}

}  // namespace duskwire::study
