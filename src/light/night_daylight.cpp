// SPDX-License-Identifier: Apache-2.0
// Reflectance out of a photograph by daylight: its drawing is kept, its level comes from the piece's mean reflectance,
// and most of the slow change of light over a piece (sun and shade) is divided out. docs/algorithms/night.md.
#include <algorithm>
#include <cmath>

#include "light/colour.hpp"
#include "light/night.hpp"
#include "light/night_pieces.hpp"

namespace duskwire::light {
namespace {

// Cells across the longer side of a piece, and how far a cell's mean reaches in cells (own choice: wide enough to keep
// courses, boards and leaves, narrow enough to lose the shadow of an eave).
constexpr int cells_across = 24;
constexpr int reach_cells = 2;

// Of the slow change, this exponent is divided out; the rest is taken for a change of the surface (own choice).
constexpr double shade_share = 0.7;

// Elements looked at for a piece's figures: every one of a small picture, every n-th of a large one.
constexpr double most_looked_at = 400'000;

class Looked {
 public:
  Looked(const Photograph& photograph, const DaylightReading& reading) : photograph_(photograph), reading_(reading) {
    const double elements = static_cast<double>(photograph.width_px) * photograph.height_px;
    step_ = std::max(1, static_cast<int>(std::sqrt(elements / most_looked_at)));
  }

  // Calls with column, row, piece and linear luminance.
  template <class Look>
  void for_each(Look look) const {
    const auto& linear = srgb_decoded_bytes();
    for (std::uint32_t row = 0; row < photograph_.height_px; row += step_) {
      for (std::uint32_t column = 0; column < photograph_.width_px; column += step_) {
        const std::size_t i = std::size_t{row} * photograph_.width_px + column;
        if (reading_.piece[i] == no_piece) continue;
        const std::uint8_t* rgb = &photograph_.rgb[3 * i];
        look(column, row, reading_.piece[i], luminance({linear[rgb[0]], linear[rgb[1]], linear[rgb[2]]}));
      }
    }
  }

 private:
  const Photograph& photograph_;
  const DaylightReading& reading_;
  std::uint32_t step_ = 1;
};

// Sky that shows between leaves belongs to the sky: brighter than half way from the leaves' mean to the sky's, or
// bluish and a good part of the way (own choice; elements that show some of both are many).
bool is_sky(const std::array<float, 3>& rgb, double leaf, double sky) {
  constexpr double part_of_the_way = 0.2;
  const double y = luminance({rgb[0], rgb[1], rgb[2]});
  return y > 0.5 * (leaf + sky) || (rgb[2] > 0.95F * rgb[1] && y > leaf + part_of_the_way * (sky - leaf));
}

void give_gaps_to_sky(const Photograph& photograph, const NightPlate& plate, const std::vector<std::uint16_t>& behind,
                      DaylightReading& reading) {
  std::vector<double> sum(plate.pieces.size());
  std::vector<double> count(plate.pieces.size());
  Looked(photograph, reading).for_each([&](std::uint32_t, std::uint32_t, std::uint16_t piece, double y) {
    sum[piece] += y;
    count[piece] += 1;
  });
  const auto& linear = srgb_decoded_bytes();
  for (std::size_t i = 0; i < reading.piece.size(); ++i) {
    const std::uint16_t front = reading.piece[i];
    const std::uint16_t back = behind[i];
    if (front == back || front == no_piece || back == no_piece) continue;
    if (plate.pieces[front].kind != NightPieceKind::foliage || count[back] == 0) continue;
    const std::uint8_t* rgb = &photograph.rgb[3 * i];
    if (is_sky({linear[rgb[0]], linear[rgb[1]], linear[rgb[2]]}, sum[front] / count[front], sum[back] / count[back])) {
      reading.piece[i] = back;
    }
  }
}

void mark_pieces(const Photograph& photograph, const NightPlate& plate, DaylightReading& reading) {
  const std::size_t elements = std::size_t{photograph.width_px} * photograph.height_px;
  reading.piece.assign(elements, no_piece);
  std::vector<std::uint16_t> sky(elements, no_piece);
  for (std::size_t k = 0; k < plate.pieces.size(); ++k) {
    const NightPiece& piece = plate.pieces[k];
    const auto mark = static_cast<std::uint16_t>(k);
    for_each_run(piece.outline, photograph.width_px, photograph.height_px,
                 [&](std::uint32_t row, std::uint32_t first, std::uint32_t last) {
                   const std::size_t start = std::size_t{row} * photograph.width_px;
                   const auto fill = [&](std::vector<std::uint16_t>& marks, std::uint16_t value) {
                     std::fill(marks.begin() + static_cast<std::ptrdiff_t>(start + first),
                               marks.begin() + static_cast<std::ptrdiff_t>(start + last), value);
                   };
                   fill(reading.piece, mark);
                   // What a crown covers stays the sky's; anything else hides it.
                   if (piece.kind != NightPieceKind::foliage) {
                     fill(sky, piece.kind == NightPieceKind::sky ? mark : no_piece);
                   }
                 });
  }
  give_gaps_to_sky(photograph, plate, sky, reading);
}

void size_map(const NightPiece& piece, const Photograph& photograph, DaylightReading::Piece& map) {
  double to_x_px = 0;
  double to_y_px = 0;
  map.from_x_px = photograph.width_px;
  map.from_y_px = photograph.height_px;
  for (const geometry::PixelPoint& p : piece.outline) {
    map.from_x_px = std::min(map.from_x_px, std::max(0.0, p.x_px));
    map.from_y_px = std::min(map.from_y_px, std::max(0.0, p.y_px));
    to_x_px = std::max(to_x_px, std::min(static_cast<double>(photograph.width_px), p.x_px));
    to_y_px = std::max(to_y_px, std::min(static_cast<double>(photograph.height_px), p.y_px));
  }
  const double across_px = std::max({1.0, to_x_px - map.from_x_px, to_y_px - map.from_y_px});
  map.cell_px = across_px / cells_across;
  map.columns = static_cast<std::uint32_t>(std::max(0.0, to_x_px - map.from_x_px) / map.cell_px) + 1;
  map.rows = static_cast<std::uint32_t>(std::max(0.0, to_y_px - map.from_y_px) / map.cell_px) + 1;
}

struct Cells {
  std::vector<double> sum;
  std::vector<double> count;
};

std::size_t cell_of(const DaylightReading::Piece& map, double x_px, double y_px) {
  const auto index = [&](double at_px, std::uint32_t count) {
    const double cell = at_px / map.cell_px;
    return static_cast<std::size_t>(std::clamp(cell, 0.0, static_cast<double>(count - 1)));
  };
  return index(y_px - map.from_y_px, map.rows) * map.columns + index(x_px - map.from_x_px, map.columns);
}

// Means over neighbouring cells, as shares of the piece's mean, with the exponent applied. Cells without an element
// take from their neighbours, so that the map goes on past the outline.
void spread(const Cells& cells, double mean, DaylightReading::Piece& map) {
  map.shade.assign(cells.sum.size(), 1);
  const int columns = static_cast<int>(map.columns);
  const int rows = static_cast<int>(map.rows);
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      double sum = 0;
      double count = 0;
      for (int r = std::max(0, row - reach_cells); r <= std::min(rows - 1, row + reach_cells); ++r) {
        for (int c = std::max(0, column - reach_cells); c <= std::min(columns - 1, column + reach_cells); ++c) {
          const auto at = static_cast<std::size_t>(r * columns + c);
          const double weight = 1.0 / (1 + (r - row) * (r - row) + (c - column) * (c - column));
          sum += weight * cells.sum[at];
          count += weight * cells.count[at];
        }
      }
      if (count > 0 && sum > 0) {
        map.shade[static_cast<std::size_t>(row * columns + column)] =
            static_cast<float>(std::pow(sum / count / mean, shade_share));
      }
    }
  }
}

// The piece's mean reflectance is what was asked for, over what is left when the shade is divided out.
void measure(const Photograph& photograph, const NightPlate& plate, DaylightReading& reading) {
  const Looked looked(photograph, reading);
  std::vector<Cells> cells(plate.pieces.size());
  reading.pieces.resize(plate.pieces.size());
  for (std::size_t k = 0; k < cells.size(); ++k) {
    size_map(plate.pieces[k], photograph, reading.pieces[k]);
    cells[k].sum.resize(std::size_t{reading.pieces[k].columns} * reading.pieces[k].rows);
    cells[k].count.resize(cells[k].sum.size());
  }
  std::vector<double> sum(cells.size());
  std::vector<double> count(cells.size());
  looked.for_each([&](std::uint32_t x, std::uint32_t y, std::uint16_t piece, double value) {
    const std::size_t at = cell_of(reading.pieces[piece], x, y);
    cells[piece].sum[at] += value;
    cells[piece].count[at] += 1;
    sum[piece] += value;
    count[piece] += 1;
  });
  for (std::size_t k = 0; k < cells.size(); ++k)
    spread(cells[k], std::max(1e-6, sum[k] / std::max(1.0, count[k])), reading.pieces[k]);
  std::vector<double> evened(cells.size());
  looked.for_each([&](std::uint32_t x, std::uint32_t y, std::uint16_t piece, double value) {
    evened[piece] += value / shade_at(reading.pieces[piece], x + 0.5, y + 0.5);
  });
  for (std::size_t k = 0; k < cells.size(); ++k) {
    const NightPiece& piece = plate.pieces[k];
    const bool is_pattern = piece.kind == NightPieceKind::sky || piece.kind == NightPieceKind::glow;
    const double wanted = is_pattern ? 1 : piece.reflectance;
    reading.pieces[k].scale = evened[k] > 0 ? wanted * count[k] / evened[k] : 1;
  }
}

}  // namespace

double shade_at(const DaylightReading::Piece& map, double x_px, double y_px) {
  if (map.shade.empty()) return 1;
  const auto place = [&](double at_px, std::uint32_t count) {
    return std::clamp(at_px / map.cell_px - 0.5, 0.0, static_cast<double>(count - 1));
  };
  const double column = place(x_px - map.from_x_px, map.columns);
  const double row = place(y_px - map.from_y_px, map.rows);
  const auto c = static_cast<std::size_t>(column);
  const auto r = static_cast<std::size_t>(row);
  const std::size_t right = c + 1 < map.columns ? 1 : 0;
  const std::size_t down = r + 1 < map.rows ? map.columns : 0;
  const float* at = &map.shade[r * map.columns + c];
  const double u = column - static_cast<double>(c);
  const double v = row - static_cast<double>(r);
  return (1 - v) * ((1 - u) * at[0] + u * at[right]) + v * ((1 - u) * at[down] + u * at[down + right]);
}

DaylightReading read_daylight(const Photograph& photograph, const NightPlate& plate) {
  DaylightReading reading;
  mark_pieces(photograph, plate, reading);
  measure(photograph, plate, reading);
  return reading;
}

}  // namespace duskwire::light
