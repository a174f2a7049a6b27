// SPDX-License-Identifier: Apache-2.0
#include "paper/plan_labels.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

#include "base/units.hpp"

namespace duskwire::paper {
namespace {

constexpr double white_mm = 0.3;
constexpr double line_of_text = 1.35;  // heights of a capital
constexpr double lead_beyond_mm = 2.5;
constexpr int most_rings = 14;
constexpr double ring_mm = 2.2;

// Right first, then left, above, below, then the corners: where eyes look for a label.
constexpr std::array<double, 16> directions_deg{0,   180, -90, 90, -40,  40,  -140, 140,
                                                -20, 20,  -65, 65, -160, 160, -115, 115};

bool crosses(const Box& box, PointMm from, PointMm to) {
  // Clipped by each side in turn (Liang and Barsky, from memory).
  double low = 0;
  double high = 1;
  const double dx = to.x_mm - from.x_mm;
  const double dy = to.y_mm - from.y_mm;
  const std::array<std::pair<double, double>, 4> sides{{{-dx, from.x_mm - box.x_mm},
                                                        {dx, box.right_mm() - from.x_mm},
                                                        {-dy, from.y_mm - box.y_mm},
                                                        {dy, box.bottom_mm() - from.y_mm}}};
  for (const auto& [p, q] : sides) {
    if (p == 0) {
      if (q < 0) return false;
      continue;
    }
    const double r = q / p;
    if (p < 0) {
      low = std::max(low, r);
    } else {
      high = std::min(high, r);
    }
    if (low > high) return false;
  }
  return true;
}

class Placer {
 public:
  explicit Placer(const LabelRoom& room) : room_(room), taken_(room.taken) {}

  std::optional<PlacedLabel> place(const Label& label) {
    const double width_mm = width_of_letters_mm(label.text, {label.height_mm, label.bold}) + 2 * white_mm;
    const double height_mm = label.height_mm * line_of_text + 2 * white_mm;
    std::optional<PlacedLabel> best;
    double least = std::numeric_limits<double>::infinity();
    for (int ring = 0; ring < most_rings; ++ring) {
      const double away_mm = label.clear_mm + ring * ring_mm;
      // A farther ring costs more than crossing a cable, but not more than crossing three.
      if (0.9 * ring >= least) break;
      for (std::size_t d = 0; d < directions_deg.size(); ++d) {
        const Box box = beside(label.at, directions_deg.at(d), away_mm, width_mm, height_mm);
        if (!is_free(box)) continue;
        const bool led = away_mm - label.clear_mm > lead_beyond_mm;
        const PointMm end = nearest(box, label.at);
        if (led && lead_crosses_label(label.at, end)) continue;
        const double cost = 0.9 * ring + 0.03 * static_cast<double>(d) + 0.7 * lines_crossed(box);
        if (cost >= least) continue;
        least = cost;
        best = PlacedLabel{box, led ? std::optional<PointMm>(end) : std::nullopt};
      }
    }
    if (best) {
      taken_.push_back(best->box);
      labels_.push_back(best->box);
    }
    return best;
  }

 private:
  static Box beside(PointMm at, double direction_deg, double away_mm, double width_mm, double height_mm) {
    const double x = std::cos(direction_deg * units::rad_per_deg);
    const double y = std::sin(direction_deg * units::rad_per_deg);
    return {at.x_mm + x * (away_mm + width_mm / 2) - width_mm / 2,
            at.y_mm + y * (away_mm + height_mm / 2) - height_mm / 2, width_mm, height_mm};
  }

  static PointMm nearest(const Box& box, PointMm to) {
    return {std::clamp(to.x_mm, box.x_mm, box.right_mm()), std::clamp(to.y_mm, box.y_mm, box.bottom_mm())};
  }

  bool is_free(const Box& box) const {
    const Box& in = room_.within;
    if (box.x_mm < in.x_mm || box.right_mm() > in.right_mm() || box.y_mm < in.y_mm ||
        box.bottom_mm() > in.bottom_mm()) {
      return false;
    }
    return std::none_of(taken_.begin(), taken_.end(), [&](const Box& other) { return overlap(box, other); });
  }

  bool lead_crosses_label(PointMm from, PointMm to) const {
    return std::any_of(labels_.begin(), labels_.end(), [&](const Box& box) { return crosses(box, from, to); });
  }

  int lines_crossed(const Box& box) const {
    int count = 0;
    for (const PathMm& line : room_.lines) {
      for (std::size_t i = 1; i < line.size(); ++i) {
        if (crosses(box, line[i - 1], line[i])) {
          ++count;
          break;
        }
      }
    }
    return count;
  }

  const LabelRoom& room_;
  std::vector<Box> taken_;
  std::vector<Box> labels_;
};

}  // namespace

std::vector<std::optional<PlacedLabel>> place_labels(const std::vector<Label>& labels, const LabelRoom& room) {
  // Those with most neighbours choose first.
  std::vector<std::size_t> order(labels.size());
  std::iota(order.begin(), order.end(), 0);
  std::vector<int> crowd(labels.size(), 0);
  for (std::size_t i = 0; i < labels.size(); ++i) {
    for (const Label& other : labels) {
      if (std::hypot(labels[i].at.x_mm - other.at.x_mm, labels[i].at.y_mm - other.at.y_mm) < 12) ++crowd[i];
    }
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return crowd[a] > crowd[b]; });
  Placer placer(room);
  std::vector<std::optional<PlacedLabel>> places(labels.size());
  for (const std::size_t i : order) places[i] = placer.place(labels[i]);
  return places;
}

void draw_labels(Pen& pen, const std::vector<Label>& labels, const std::vector<std::optional<PlacedLabel>>& places) {
  for (std::size_t i = 0; i < labels.size(); ++i) {
    if (places[i] && places[i]->lead) pen.line(labels[i].at, *places[i]->lead, {Width::w013});
  }
  for (std::size_t i = 0; i < labels.size(); ++i) {
    if (!places[i]) continue;
    const Box& box = places[i]->box;
    const double base_mm = box.y_mm + white_mm + 0.5 * (line_of_text + 1) * labels[i].height_mm;
    pen.letters({box.x_mm + white_mm, base_mm}, labels[i].text,
                {labels[i].height_mm, labels[i].bold, Anchor::start, 0, true});
  }
}

}  // namespace duskwire::paper
