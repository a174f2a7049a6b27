// SPDX-License-Identifier: Apache-2.0
// Why the rows hold for every wiring that a transformer can feed.
//
// In its regulation range a lamp draws its VA whatever the volts. What the terminals deliver, I (V - I R), grows with
// I, which has a limit: so cables and leads lose no more than what is delivered there less the lamps' VA.
//
// A lamp draws at least its VA over the volts at the terminals when no cable loses anything: more volts there are not.
//
// Of the current in the ways the net flow, without rings, is one that the program's flow of trenches can follow: lamp
// by lamp from the transformer, one direction a way. What lies in a way carries no less.
//
// Of n cables of one size that together carry I in a way none loses less than in equal parts: r I I / n in all. That is
// convex in I and n, so that its tangents bound it from below: r (2 J I - J J n), for whatever current J of one cable.
#include "wiring/exact_losses.hpp"

#include <algorithm>
#include <cmath>

#include "wiring/exact_names.hpp"

namespace duskwire::wiring {
namespace {

constexpr int tangents = 6;

class Losses {
 public:
  Losses(const ExactProblem& problem, const ExactProblem::Unit& unit, const std::vector<std::uint32_t>& ends,
         std::uint32_t classes, LinearProgram& program)
      : in_(problem), unit_(unit), ends_(ends), classes_(classes), program_(program) {
    for (const ExactProblem::Lamp& lamp : in_.lamps) sum_va_ += lamp.load_va;
    const double least_a = amperes_at_va(sum_va_, unit.source_v, unit.source_ohm);
    const double most_v = unit.source_v - least_a * unit.source_ohm;
    for (const ExactProblem::Lamp& lamp : in_.lamps) lamp_a_.push_back(lamp.load_va / most_v);
    const double smallest_a = *std::min_element(lamp_a_.begin(), lamp_a_.end());
    for (int k = 0; k < tangents; ++k) {
      touching_a_.push_back(smallest_a * std::pow(least_a / smallest_a, static_cast<double>(k) / (tangents - 1)));
    }
  }

  void run() {
    Terms all;
    for (std::uint32_t way = 0; way < in_.ways.size(); ++way) {
      carry(way);
      for (std::uint32_t g = 0; g < unit_.sizes; ++g) lose(way, g, all);
    }
    metres();
    for (const std::uint32_t end : ends_) slack(end, all);
    double spare = reckoned_spare_va();
    for (std::uint32_t lamp = 1; lamp <= in_.lamps.size(); ++lamp) {
      const double lead_va = in_.lamps[lamp - 1].lead_ohm * lamp_a_[lamp - 1] * lamp_a_[lamp - 1];
      spare -= lead_va;
      all.push_back({-lead_va, name('t', lamp)});  // no lead where the cable ends in the lamp
    }
    program_.at_most(all, spare);
  }

 private:
  // The losses at the lamps' least currents that go with the spare VA. Of losses L at currents a, with drops v, the
  // true ones P are convex in the currents, whose slopes are 2 v; lamp i draws at least a v / (V - v) more. By Jensen's
  // inequality P >= L + 2 L m / (V - m) with m = L / (sum of a) the mean drop, so P (S - L) >= L (S + L), S the lamps'
  // VA.
  [[nodiscard]] double reckoned_spare_va() const {
    const double spare = std::max(0.0, spare_va(in_, unit_));
    const double all_va = sum_va_ + spare;
    return (std::sqrt(all_va * all_va + 4 * spare * sum_va_) - all_va) / 2;
  }

  // Cables in a way, and their amperes: no less than what the way's trench leads to lamps.
  void carry(std::uint32_t way) {
    const std::uint32_t points[] = {in_.ways[way].a, in_.ways[way].b};
    Terms count;
    Terms amperes;
    for (std::uint32_t g = 0; g < unit_.sizes; ++g) {
      count.push_back({1, name('n', way, g)});
      amperes.push_back({1, name('x', way, g)});
    }
    for (std::uint32_t back = 0; back < 2; ++back) {
      const std::uint32_t d = 2 * way + back;
      const std::uint32_t tail = points[back];
      const std::uint32_t head = points[1 - back];
      for (const std::uint32_t end : ends_) {
        if (tail != end) count.push_back({-1, name('r', end, d)});
      }
      for (std::uint32_t lamp = 1; lamp <= in_.lamps.size(); ++lamp) {
        if (head != 0 && tail != lamp) amperes.push_back({-lamp_a_[lamp - 1], name('f', lamp, d)});
      }
    }
    // No trench without a cable.
    Terms dug{{-1, name('y', way)}};
    for (std::uint32_t g = 0; g < unit_.sizes; ++g) dug.push_back({1, name('n', way, g)});
    program_.at_least(dug, 0);
    program_.equal(count, 0);
    program_.at_least(amperes, 0);
  }

  void lose(std::uint32_t way, std::uint32_t g, Terms& all) {
    const double most_a = std::min(touching_a_.back(), in_.cables[g].ampacity_a);
    program_.at_most({{1, name('x', way, g)}, {-most_a, name('n', way, g)}}, 0);
    const double ohm = in_.cables[g].ohm_per_m * in_.ways[way].length_m;
    const std::string lost = name('p', way, g);
    all.push_back({1, lost});
    for (const double at_a : touching_a_) {
      program_.at_least({{1, lost}, {-2 * at_a * ohm, name('x', way, g)}, {at_a * at_a * ohm, name('n', way, g)}}, 0);
    }
  }

  // What lies in the ways is what is bought, less the slack.
  void metres() {
    for (std::uint32_t g = 0; g < unit_.sizes; ++g) {
      Terms laid;
      for (std::uint32_t way = 0; way < in_.ways.size(); ++way) {
        laid.push_back({in_.ways[way].length_m, name('n', way, g)});
      }
      for (const std::uint32_t end : ends_) {
        for (std::uint32_t c = 0; c < classes_; ++c) {
          laid.push_back({-1, name('l', end, g, c)});
          laid.push_back({least_slack_m(end), name('b', end, g, c)});
        }
      }
      program_.at_most(laid, 0);
    }
  }

  [[nodiscard]] double least_slack_m(std::uint32_t end) const {
    const double there_m =
        end <= in_.lamps.size() ? std::min(in_.slack_splice_m, in_.lamps[end - 1].slack_m) : in_.slack_splice_m;
    return there_m + std::min(in_.slack_splice_m, in_.slack_output_m);
  }

  void slack(std::uint32_t end, Terms& all) {
    const std::string lost = name('q', end);
    all.push_back({1, lost});
    for (const double at_a : touching_a_) {
      Terms row{{1, lost}};
      for (std::uint32_t g = 0; g < unit_.sizes; ++g) {
        const double ohm = in_.cables[g].ohm_per_m * least_slack_m(end);
        for (std::uint32_t c = 0; c < classes_; ++c) {
          row.push_back({-2 * at_a * ohm, name('e', end, g, c)});
          row.push_back({at_a * at_a * ohm, name('b', end, g, c)});
        }
      }
      program_.at_least(row, 0);
    }
  }

  const ExactProblem& in_;
  const ExactProblem::Unit& unit_;
  const std::vector<std::uint32_t>& ends_;
  std::uint32_t classes_;
  LinearProgram& program_;
  double sum_va_ = 0;
  std::vector<double> lamp_a_;  // at least
  std::vector<double> touching_a_;
};

}  // namespace

double spare_va(const ExactProblem& problem, const ExactProblem::Unit& unit) {
  double most_a = unit.most_a;
  if (!unit.devices_a.empty()) most_a = std::min(most_a, problem.device_share * unit.devices_a.back());
  double spare = most_a * (unit.source_v - most_a * unit.source_ohm);
  for (const ExactProblem::Lamp& lamp : problem.lamps) spare -= lamp.load_va;
  return spare;
}

bool is_tight(const ExactProblem& problem, const ExactProblem::Unit& unit) {
  constexpr double lost_by_thin_cable = 0.35;  // of the lamps' VA: seen on lawns of ten lamps
  double sum_va = 0;
  for (const ExactProblem::Lamp& lamp : problem.lamps) sum_va += lamp.load_va;
  return spare_va(problem, unit) < lost_by_thin_cable * sum_va;
}

std::uint32_t sensible_sizes(const ExactProblem& problem, const ExactProblem::Unit& unit) {
  double sum_va = 0;
  double floor_v = 0;
  double farthest_m = 0;
  for (const ExactProblem::Lamp& lamp : problem.lamps) {
    sum_va += lamp.load_va;
    floor_v = std::max(floor_v, lamp.floor_v);
  }
  for (const ExactPoint& point : problem.points) {
    farthest_m = std::max(farthest_m, geometry::distance_m(problem.points.front().place, point.place));
  }
  const double most_a = sum_va / floor_v;
  const double room_v = unit.source_v - floor_v - most_a * unit.source_ohm;
  const double spare = spare_va(problem, unit);
  std::uint32_t sizes = 0;
  for (const ExactProblem::Cable& cable : problem.cables) {
    ++sizes;
    const double lost_v = cable.ohm_per_m * most_a * 1.2 * farthest_m;
    if (cable.ampacity_a >= most_a && lost_v <= room_v && lost_v * most_a <= spare) break;
  }
  return sizes;
}

void keep_losses(const ExactProblem& problem, const ExactProblem::Unit& unit, const std::vector<std::uint32_t>& ends,
                 std::uint32_t classes, LinearProgram& program) {
  Losses(problem, unit, ends, classes, program).run();
}

}  // namespace duskwire::wiring
