// SPDX-License-Identifier: Apache-2.0
#include "half_split.hpp"

#include <algorithm>
#include <cmath>

#include "diagnosis/beside_plan.hpp"
#include "diagnosis/next_reading.hpp"
#include "diagnosis/state.hpp"
#include "physics.hpp"
#include "policies.hpp"

namespace duskwire::bench {
namespace {

using diagnosis::FaultProblem;
using diagnosis::none;
using diagnosis::Observation;
using diagnosis::PlaceKind;
using diagnosis::Quantity;
using Brackets = std::vector<Points::Bracket>;

// Readings until the brackets are no further apart, the side being told; `left` loses what is ruled out.
std::size_t split_ideally(const Points& points, std::size_t at, Brackets& left) {
  std::size_t readings = 0;
  while (left.size() > 1) {
    std::size_t best = 0;
    std::size_t best_worst = left.size();
    for (std::size_t point = 1; point < points.count(); ++point) {
      const auto inside = static_cast<std::size_t>(std::count_if(
          left.begin(), left.end(), [&](const Points::Bracket& one) { return points.beyond(point, one.first); }));
      const std::size_t worst = std::max(inside, left.size() - inside);
      if (worst < best_worst) {
        best_worst = worst;
        best = point;
      }
    }
    if (best == 0) break;  // one point is left: a lamp and the cable that leads to it, told apart at its base
    const bool inside = points.beyond(best, at);
    std::erase_if(left, [&](const Points::Bracket& one) { return points.beyond(best, one.first) != inside; });
    ++readings;
  }
  return readings;
}

// One fault hunted by volts.
class Walk {
 public:
  Walk(const FaultProblem& plan, const Points& points, const faulty::Truth& truth, const faulty::Mischief& mischief,
       wiring::Dice& dice)
      : plan_(plan), points_(points), truth_(truth), mischief_(mischief), dice_(dice), left_(points.brackets()) {
    read_.resize(points.count(), false);
  }

  Practised run(bool look_first) {
    if (look_first) look();
    while (!told_ && split_by_volts()) {
    }
    if (told_) split_told();
    if (open_what_is_left()) return done_;
    done_.misled = true;
    left_.clear();
    for (const Points::Bracket& one : points_.brackets()) {
      if (std::find(opened_.begin(), opened_.end(), one.second) == opened_.end()) left_.push_back(one);
    }
    split_told();
    open_what_is_left();
    return done_;
  }

 private:
  static constexpr double usual_min = 2 + diagnosis::to_hand_min;  // at a lamp's base

  std::vector<Observation> take(std::uint32_t candidate) {
    ++done_.readings;
    done_.minutes += plan_.candidates[candidate].effort_min + diagnosis::to_hand_min;
    return faulty::take(truth_, plan_.candidates[candidate], mischief_, dice_);
  }

  void split_told() {
    const std::size_t readings = split_ideally(points_, points_.of(truth_.places.front()), left_);
    done_.readings += readings;
    done_.minutes += static_cast<double>(readings) * usual_min;
  }

  [[nodiscard]] std::uint32_t candidate_of(Quantity quantity, std::uint32_t index) const {
    for (std::uint32_t c = 0; c < plan_.candidates.size(); ++c) {
      const diagnosis::Probe& probe = plan_.candidates[c].probe;
      if (probe.quantity == quantity && probe.index == index && probe.lifted == none) return c;
    }
    return none;
  }

  template <class Keep>
  void keep(Keep&& kept) {
    std::erase_if(left_, [&](const Points::Bracket& one) { return !kept(one); });
  }

  [[nodiscard]] std::size_t point_of(std::uint32_t load) const { return points_.of(plan_.lamp_place[load]); }

  void look() {
    std::vector<std::uint32_t> lit;
    std::vector<std::uint32_t> dark;
    for (const Observation& one : take(candidate_of(Quantity::lamps_seen, 0))) {
      (one.seen == diagnosis::SeenLamp::dark ? dark : lit).push_back(one.probe.index);
    }
    if (dark.empty()) return;
    keep([&](const Points::Bracket& one) {
      const diagnosis::Place& place = plan_.places[one.second];
      if (place.kind == PlaceKind::lamp) return dark.size() == 1 && place.index == dark.front();
      const auto hangs_on = [&](std::uint32_t load) { return points_.beyond(one.first, point_of(load)); };
      return std::all_of(dark.begin(), dark.end(), hangs_on) && std::none_of(lit.begin(), lit.end(), hangs_on);
    });
  }

  [[nodiscard]] std::size_t best_point() const {
    std::size_t best = points_.count();
    std::size_t best_worst = left_.size();
    for (std::size_t point = 0; point < points_.count(); ++point) {
      if (points_.volts(point) == none || read_[point]) continue;
      const auto on_the_way = static_cast<std::size_t>(std::count_if(
          left_.begin(), left_.end(), [&](const Points::Bracket& one) { return points_.beyond(one.first, point); }));
      const std::size_t worst = std::max(on_the_way, left_.size() - on_the_way);
      if (worst >= best_worst) continue;
      best_worst = worst;
      best = point;
    }
    return best;
  }

  bool split_by_volts() {
    constexpr double dead_v = 0.5;
    const std::size_t point = best_point();
    if (point == points_.count()) return false;
    read_[point] = true;
    const std::vector<Observation> taken = take(points_.volts(point));
    FaultProblem beside = plan_;
    beside.observations = {taken.front()};
    const bool as_planned = diagnosis::beside_plan(beside).front().in_tolerance;
    const bool lugs = taken.front().probe.quantity == Quantity::output_v;
    if (lugs && taken.front().value < dead_v && device_tripped(taken.front().probe.index)) {
      keep([&](const Points::Bracket& one) { return points_.beyond(point, one.first); });
      told_ = true;
      return true;
    }
    if (as_planned && taken.size() > 1 && taken.back().seen == diagnosis::SeenLamp::dark) {
      keep([&](const Points::Bracket& one) { return one.first == point && is_lamp(one); });
      return false;
    }
    keep([&](const Points::Bracket& one) {
      // Neither sound volts nor short ones speak of the lamp that burns there.
      if (one.first == point && is_lamp(one)) return false;
      return points_.beyond(one.first, point) != as_planned;
    });
    return true;
  }

  [[nodiscard]] bool is_lamp(const Points::Bracket& one) const {
    return plan_.places[one.second].kind == PlaceKind::lamp;
  }

  bool device_tripped(std::uint32_t output) {
    return take(candidate_of(Quantity::breaker, output)).front().value > 0.5;
  }

  // Nearest the supply first: the order of points. True once the fault lies open.
  bool open_what_is_left() {
    std::stable_sort(left_.begin(), left_.end());
    for (const Points::Bracket& one : left_) {
      done_.minutes += plan_.holes[plan_.places[one.second].hole].effort_min;
      if (is_at(one)) return true;
      opened_.push_back(one.second);
      ++done_.opened;
    }
    return false;
  }

  // A cable is opened with the joints at its ends, and what else is spliced in them.
  [[nodiscard]] bool is_at(const Points::Bracket& one) const {
    const diagnosis::Place& opened = plan_.places[one.second];
    const diagnosis::Place& fault = plan_.places[truth_.places.front()];
    if (fault.kind != PlaceKind::joint_side) return opened.kind == fault.kind && opened.index == fault.index;
    if (opened.kind != PlaceKind::cable) return false;
    const diagnosis::SpanPlaces& span = plan_.spans[opened.index];
    return plan_.places[span.from_side].hole == fault.hole || plan_.places[span.to_side].hole == fault.hole;
  }

  const FaultProblem& plan_;
  const Points& points_;
  const faulty::Truth& truth_;
  const faulty::Mischief& mischief_;
  wiring::Dice& dice_;
  Brackets left_;
  std::vector<bool> read_;
  std::vector<std::uint32_t> opened_;
  bool told_ = false;  // a device has tripped: cables are lifted
  Practised done_;
};

}  // namespace

Points::Points(const FaultProblem& plan) {
  const auto& network = plan.network;
  const std::size_t t0 = 1;
  const std::size_t o0 = t0 + network.transformers.size();
  const std::size_t n0 = o0 + network.outputs.size();
  up_.resize(n0 + network.node_count, 0);
  holder_.resize(plan.places.size(), 0);
  volts_.resize(up_.size(), none);
  const std::vector<std::uint32_t> parent = diagnosis::parents(network);
  for (std::size_t o = 0; o < network.outputs.size(); ++o) {
    up_[o0 + o] = t0 + network.outputs[o].transformer;
    up_[n0 + network.outputs[o].node] = o0 + o;
  }
  for (std::uint32_t node = 0; node < network.node_count; ++node) {
    if (parent[node] != none) up_[n0 + node] = n0 + parent[node];
  }
  for (std::uint32_t p = 0; p < plan.places.size(); ++p) {
    const diagnosis::Place& place = plan.places[p];
    std::size_t at = 0;
    if (place.kind == PlaceKind::transformer) at = t0 + place.index;
    if (place.kind == PlaceKind::output) at = o0 + place.index;
    if (place.kind == PlaceKind::lamp) at = n0 + network.loads[place.index].plus.node;
    if (place.kind == PlaceKind::joint_side || place.kind == PlaceKind::cable) {
      const electrical::Segment& segment = network.segments[place.index];
      at = n0 + (parent[segment.to] == segment.from ? segment.to : segment.from);
    }
    holder_[p] = at;
    if (place.kind != PlaceKind::joint_side) brackets_.emplace_back(at, p);
  }
  for (std::uint32_t c = 0; c < plan.candidates.size(); ++c) {
    const diagnosis::Probe& probe = plan.candidates[c].probe;
    if (!needs_no_spade(plan.candidates[c]) || probe.lifted != none) continue;
    if (probe.quantity == Quantity::mains_v) volts_[0] = c;
    if (probe.quantity == Quantity::output_v) volts_[o0 + probe.index] = c;
    if (probe.quantity == Quantity::node_v) volts_[n0 + probe.index] = c;
  }
}

bool Points::beyond(std::size_t point, std::size_t at) const {
  for (; at != point; at = up_[at]) {
    if (at == 0) return false;
  }
  return true;
}

std::size_t ideal_half_split(const Points& points, const faulty::Truth& truth) {
  Brackets left = points.brackets();
  return std::max<std::size_t>(1, split_ideally(points, points.of(truth.places.front()), left));
}

Practised practised_half_split(const FaultProblem& plan, const Points& points, const faulty::Truth& truth,
                               bool look_first, const faulty::Mischief& mischief, wiring::Dice& dice) {
  return Walk(plan, points, truth, mischief, dice).run(look_first);
}

std::uint32_t half_of_chance(const FaultProblem& problem, const Points& points, const diagnosis::Answer& answer) {
  constexpr double splits = 0.02;
  std::uint32_t best = none;
  double best_miss = 0.5 - splits;
  for (std::size_t point = 0; point < points.count(); ++point) {
    const std::uint32_t candidate = points.volts(point);
    if (candidate == none || was_read(problem, problem.candidates[candidate].probe)) continue;
    double beyond = 0;
    double all = 0;
    for (const diagnosis::PlaceChance& one : answer.places) {
      all += one.chance;
      if (points.beyond(point, points.of(one.place))) beyond += one.chance;
    }
    const double miss = std::abs(beyond - all / 2) / std::max(all, 1e-9);
    if (miss >= best_miss) continue;
    best_miss = miss;
    best = candidate;
  }
  return best;
}

}  // namespace duskwire::bench
