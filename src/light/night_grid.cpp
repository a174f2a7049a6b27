// SPDX-License-Identifier: Apache-2.0
// Where the elements of a band lie, which way they face, what they throw back.
#include <algorithm>
#include <cmath>

#include "light/colour.hpp"
#include "light/night.hpp"

namespace duskwire::light {
namespace {

using geometry::Point3;
using geometry::Vec3;

// No matt surface outdoors throws back more; leaves less (fresh snow apart; common practice, no source).
constexpr double most_reflectance = 0.9;
constexpr double most_leaf_reflectance = 0.5;
// Of the leaves' mean: an element with some sky in it is no bright leaf (own choice).
constexpr double most_of_leaf_mean = 2.2;

// Nothing is known of what no piece holds: taken for upright and as bright as it is photographed, within this.
constexpr double most_unknown_reflectance = 0.35;

// A night sky without a lamp: brighter towards the horizon (own choice), its clouds hinted at.
constexpr double sky_at_horizon = 1.5;
constexpr double sky_at_zenith = 0.5;
constexpr double sky_pattern = 0.35;

// A window's bars are brighter by day than its panes: from this on, in shares of the piece's mean, an element is taken
// for one and shows this share of the light (own choice).
constexpr double bar_at = 1.3;
constexpr float bar_share = 0.12F;

// Of a uniform sky, a plane with this facing sees (1 + n_z) / 2: the form factor of a tilted plane.
double sky_seen(Vec3 normal) { return 0.5 * (1 + normal.z); }

// Looks at elements of one piece along their rays.
class Looker {
 public:
  explicit Looker(const Camera& camera) : camera_(camera) {}

  [[nodiscard]] Vec3 way(double x_px, double y_px) const {
    return ((x_px - camera_.principal.x_px) / camera_.focal_px) * camera_.axes[0] +
           ((y_px - camera_.principal.y_px) / camera_.focal_px) * camera_.axes[1] + camera_.axes[2];
  }

  [[nodiscard]] std::optional<Point3> place(const NightPiece& piece, double x_px, double y_px) const {
    const Vec3 seen = way(x_px, y_px);
    const double t = dot(piece.on_plane - camera_.position, piece.normal) / dot(seen, piece.normal);
    // A plane seen from its edge, or behind: such an element is left dark.
    if (!(t > 0) || t > 1e4) return std::nullopt;
    return camera_.position + t * seen;
  }

 private:
  const Camera& camera_;
};

std::array<float, 3> scaled(const std::array<float, 3>& rgb, double factor, double most) {
  const double y = luminance({rgb[0], rgb[1], rgb[2]}) * factor;
  const auto f = static_cast<float>(y > most ? factor * most / y : factor);
  // A saturated colour may pass 1 in one part only: no surface does.
  return {std::min(1.0F, rgb[0] * f), std::min(1.0F, rgb[1] * f), std::min(1.0F, rgb[2] * f)};
}

double most_of(const NightPiece& piece) {
  if (piece.kind != NightPieceKind::foliage) return most_reflectance;
  return std::min(most_leaf_reflectance, most_of_leaf_mean * piece.reflectance);
}

}  // namespace

NightGrid night_grid(const Photograph& photograph, const NightPlate& plate, const DaylightReading& reading,
                     std::uint32_t from_row, std::uint32_t row_count) {
  NightGrid grid;
  grid.width_px = photograph.width_px;
  grid.from_row = from_row;
  grid.row_count = row_count;
  const std::size_t elements = std::size_t{row_count} * grid.width_px;
  const std::size_t first = std::size_t{from_row} * grid.width_px;
  grid.reflectance.resize(elements);
  grid.ambient_share.assign(elements, 0.5F);
  grid.piece.assign(reading.piece.begin() + static_cast<std::ptrdiff_t>(first),
                    reading.piece.begin() + static_cast<std::ptrdiff_t>(first + elements));
  grid.receivers.reserve(elements);
  grid.element.reserve(elements);
  grid.is_foliage.reserve(elements);
  const Looker looker(plate.camera);
  const auto& linear = srgb_decoded_bytes();
  for (std::size_t i = 0; i < elements; ++i) {
    const std::uint8_t* bytes = &photograph.rgb[3 * (first + i)];
    const std::array<float, 3> rgb{linear[bytes[0]], linear[bytes[1]], linear[bytes[2]]};
    if (grid.piece[i] == no_piece || plate.pieces[grid.piece[i]].kind == NightPieceKind::dark) {
      grid.reflectance[i] = scaled(rgb, 1, most_unknown_reflectance);
      continue;
    }
    const NightPiece& piece = plate.pieces[grid.piece[i]];
    const DaylightReading::Piece& read = reading.pieces[grid.piece[i]];
    const double x_px = static_cast<double>(i % grid.width_px) + 0.5;
    const auto row = from_row + i / grid.width_px;
    const double y_px = static_cast<double>(row) + 0.5;
    const double factor = read.scale / shade_at(read, x_px, y_px);
    if (piece.kind == NightPieceKind::glow) {
      // Bars and frames stand before the light.
      const float pattern = luminance({rgb[0], rgb[1], rgb[2]}) * factor > bar_at ? bar_share : 1.0F;
      grid.reflectance[i] = {pattern, pattern, pattern};
      continue;
    }
    if (piece.kind == NightPieceKind::sky) {
      const Vec3 way = unit(looker.way(x_px, y_px));
      const double up = std::clamp(way.z, 0.0, 1.0);
      grid.ambient_share[i] = static_cast<float>(sky_at_horizon + (sky_at_zenith - sky_at_horizon) * up);
      const double y = luminance({rgb[0], rgb[1], rgb[2]}) * factor;
      const auto pattern = static_cast<float>(1 + sky_pattern * (std::min(2.0, y) - 1));
      grid.reflectance[i] = {pattern, pattern, pattern};
      continue;
    }
    grid.reflectance[i] = scaled(rgb, factor, most_of(piece));
    const bool is_foliage = piece.kind == NightPieceKind::foliage;
    grid.ambient_share[i] = static_cast<float>(is_foliage ? 0.5 : sky_seen(piece.normal));
    if (const auto place = looker.place(piece, x_px, y_px)) {
      grid.receivers.push_back({*place, is_foliage ? Vec3{0, 0, 0} : piece.normal});
      grid.element.push_back(static_cast<std::uint32_t>(i));
      grid.is_foliage.push_back(is_foliage ? 1 : 0);
    }
  }
  grid.blocks = blocks_of(grid.receivers);
  return grid;
}

}  // namespace duskwire::light
