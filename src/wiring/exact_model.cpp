// SPDX-License-Identifier: Apache-2.0
#include "wiring/exact_model.hpp"

#include <algorithm>
#include <cmath>

#include "wiring/exact_losses.hpp"
#include "wiring/exact_names.hpp"

namespace duskwire::wiring {
namespace {

class Model {
 public:
  Model(const ExactProblem& problem, const ExactProblem::Unit& unit, Volts volts)
      : in_(problem), unit_(unit), points_(static_cast<std::uint32_t>(problem.points.size())) {
    double least_floor_v = unit.source_v;
    for (const ExactProblem::Lamp& lamp : problem.lamps) {
      most_a_ += lamp.load_va / lamp.floor_v;
      least_floor_v = std::min(least_floor_v, lamp.floor_v);
      longest_m_ = std::max(longest_m_, problem.longest_cable_m + problem.slack_output_m +
                                            std::max(problem.slack_splice_m, lamp.slack_m));
    }
    if (volts == Volts::kept) classes_ = current_classes;
    most_drop_v_ = unit.source_v - least_floor_v;
    for (std::uint32_t c = 0; c <= classes_; ++c) class_a_.push_back(most_a_ * c / classes_);
    for (std::uint32_t p = 1; p < points_; ++p) {
      if (is_lamp(p) || problem.points[p].takes_joint) ends_.push_back(p);
    }
  }

  LinearProgram run() {
    program_.equal({{1, "one"}}, 1);
    trenches();
    for (std::uint32_t lamp = 1; lamp <= in_.lamps.size(); ++lamp) trench_to(lamp);
    device();
    for (const std::uint32_t end : ends_) {
      begins(end);
      route(end);
      size(end);
      joint(end);
      current(end);
      if (!unit_.devices_a.empty()) short_at(end);
      if (classes_ > 1) volts(end);
    }
    if (is_tight(in_, unit_)) keep_losses(in_, unit_, ends_, classes_, program_);
    return std::move(program_);
  }

 private:
  [[nodiscard]] bool is_lamp(std::uint32_t point) const { return point >= 1 && point <= in_.lamps.size(); }
  [[nodiscard]] std::uint32_t tail(std::uint32_t d) const { return d % 2 == 0 ? in_.ways[d / 2].a : in_.ways[d / 2].b; }
  [[nodiscard]] std::uint32_t head(std::uint32_t d) const { return tail(d ^ 1U); }
  [[nodiscard]] std::uint32_t directions() const { return static_cast<std::uint32_t>(2 * in_.ways.size()); }
  [[nodiscard]] std::uint32_t sizes() const { return unit_.sizes; }

  // 0 and every point where a joint may be, but the cable's own end.
  [[nodiscard]] std::vector<std::uint32_t> beginnings(std::uint32_t end) const {
    std::vector<std::uint32_t> all{0};
    for (const std::uint32_t p : ends_) {
      if (p != end) all.push_back(p);
    }
    return all;
  }

  void trenches() {
    for (std::uint32_t way = 0; way < in_.ways.size(); ++way) {
      program_.binary(name('y', way));
      program_.add_cost(in_.ways[way].dig_cost, name('y', way));
      program_.at_most({{1, name('z', 2 * way)}, {1, name('z', 2 * way + 1)}, {-1, name('y', way)}}, 0);
    }
  }

  // One unit flows from the transformer to the lamp over trenches that are dug: what makes the bound of the relaxed
  // program good.
  void trench_to(std::uint32_t lamp) {
    for (std::uint32_t p = 0; p < points_; ++p) {
      Terms flow;
      for (std::uint32_t d = 0; d < directions(); ++d) {
        if (head(d) == 0 || tail(d) == lamp) continue;
        if (head(d) == p) flow.push_back({1, name('f', lamp, d)});
        if (tail(d) == p) flow.push_back({-1, name('f', lamp, d)});
      }
      if (!flow.empty()) program_.equal(flow, p == 0 ? -1 : p == lamp ? 1 : 0);
    }
    for (std::uint32_t d = 0; d < directions(); ++d) {
      if (head(d) != 0 && tail(d) != lamp) program_.at_most({{1, name('f', lamp, d)}, {-1, name('z', d)}}, 0);
    }
  }

  // The smallest device that carries the load: it has to protect every cable, and to see a short at every end.
  void device() {
    Terms chosen;
    Terms drawn;
    for (const std::uint32_t end : ends_) drawn.push_back({1, name('w', end, 0)});
    program_.at_most(drawn, unit_.most_a);
    if (unit_.devices_a.empty()) return;
    for (std::uint32_t k = 0; k < unit_.devices_a.size(); ++k) {
      program_.binary(name('k', k));
      chosen.push_back({1, name('k', k)});
      drawn.push_back({-in_.device_share * unit_.devices_a[k], name('k', k)});
    }
    program_.equal(chosen, 1);
    program_.at_most(drawn, 0);
    for (std::uint32_t g = 0; g < sizes(); ++g) {
      Terms protects;
      for (std::uint32_t k = 0; k < unit_.devices_a.size(); ++k) {
        if (unit_.devices_a[k] <= in_.cables[g].ampacity_a) protects.push_back({-1, name('k', k)});
      }
      if (protects.size() == unit_.devices_a.size()) continue;
      for (const std::uint32_t end : ends_) {
        Terms row = protects;
        for (std::uint32_t c = 0; c < classes_; ++c) row.push_back({1, name('b', end, g, c)});
        program_.at_most(row, 0);
      }
    }
  }

  // Ohms from the terminals to the cable's end, both conductors, and whether the device sees a short there.
  void short_at(std::uint32_t end) {
    const double most_ohm = unit_.source_v / unit_.devices_a.front();
    Terms own{{1, name('o', end)}};
    for (std::uint32_t g = 0; g < sizes(); ++g) {
      for (std::uint32_t c = 0; c < classes_; ++c) own.push_back({-in_.cables[g].ohm_per_m, name('l', end, g, c)});
    }
    program_.at_least(own, 0);
    for (const std::uint32_t p : beginnings(end)) {
      if (p == 0) continue;
      Terms onward = own;
      onward.push_back({-1, name('o', p)});
      onward.push_back({-most_ohm, name('s', end, p)});
      program_.at_least(onward, -most_ohm);
    }
    Terms seen{{1, name('o', end)}};
    for (std::uint32_t k = 0; k < unit_.devices_a.size(); ++k) {
      seen.push_back({-unit_.source_v / unit_.devices_a[k], name('k', k)});
    }
    const double lead_ohm = is_lamp(end) ? in_.lamps[end - 1].lead_ohm : 0;
    if (is_lamp(end)) seen.push_back({-lead_ohm, name('t', end)});
    program_.at_most(seen, -unit_.source_ohm - lead_ohm);
  }

  // A lamp has its cable, another point only where a joint is.
  void begins(std::uint32_t end) {
    Terms all;
    for (const std::uint32_t p : beginnings(end)) {
      program_.binary(name('s', end, p));
      program_.add_cost(in_.tag_cost, name('s', end, p));
      all.push_back({1, name('s', end, p)});
      if (p == 0) continue;
      if (is_lamp(p)) {
        program_.at_most({{1, name('s', end, p)}, {1, name('t', p)}}, 1);
      } else {
        program_.at_most({{1, name('s', end, p)}, {-1, name('u', p)}}, 0);
      }
    }
    program_.binary(name(is_lamp(end) ? 't' : 'u', end));
    // An end in a joint has its tag, an end in a lamp has none.
    if (is_lamp(end)) {
      program_.add_cost(in_.tag_cost, "one");
      program_.add_cost(-in_.tag_cost, name('t', end));
    } else {
      program_.add_cost(in_.tag_cost + in_.joint_away_cost, name('u', end));
    }
    equal_to_presence(std::move(all), end);
  }

  // terms = 1 at a lamp, = 1 at another point only where a joint is.
  void equal_to_presence(Terms terms, std::uint32_t end) {
    if (!is_lamp(end)) terms.push_back({-1, name('u', end)});
    program_.equal(terms, is_lamp(end) ? 1 : 0);
  }

  void route(std::uint32_t end) {
    for (std::uint32_t p = 0; p < points_; ++p) {
      Terms flow;
      for (std::uint32_t d = 0; d < directions(); ++d) {
        if (tail(d) == end) continue;
        if (head(d) == p) flow.push_back({1, name('r', end, d)});
        if (tail(d) == p) flow.push_back({-1, name('r', end, d)});
      }
      if (p == end) {
        equal_to_presence(flow, end);
        continue;
      }
      if (p == 0 || is_lamp(p) || in_.points[p].takes_joint) flow.push_back({1, name('s', end, p)});
      if (!flow.empty()) program_.equal(flow, 0);
    }
    for (std::uint32_t way = 0; way < in_.ways.size(); ++way) {
      Terms laid{{-1, name('y', way)}};
      for (const std::uint32_t d : {2 * way, 2 * way + 1}) {
        if (tail(d) == end) continue;
        laid.push_back({1, name('r', end, d)});
        program_.add_cost(in_.cables.front().lay_per_m * in_.ways[way].length_m, name('r', end, d));
      }
      program_.at_most(laid, 0);
    }
  }

  // Metres of the size that is laid: the route and the slack of both ends.
  void size(std::uint32_t end) {
    Terms chosen;
    Terms metres;
    for (std::uint32_t g = 0; g < sizes(); ++g) {
      for (std::uint32_t c = 0; c < classes_; ++c) {
        program_.binary(name('b', end, g, c));
        chosen.push_back({1, name('b', end, g, c)});
        metres.push_back({1, name('l', end, g, c)});
        program_.at_most({{1, name('l', end, g, c)}, {-longest_m(), name('b', end, g, c)}}, 0);
        program_.add_cost(in_.cables[g].price_per_m, name('l', end, g, c));
      }
    }
    equal_to_presence(chosen, end);
    for (std::uint32_t d = 0; d < directions(); ++d) {
      if (tail(d) != end) metres.push_back({-in_.ways[d / 2].length_m, name('r', end, d)});
    }
    for (const std::uint32_t p : beginnings(end)) {
      metres.push_back({p == 0 ? -in_.slack_output_m : -in_.slack_splice_m, name('s', end, p)});
    }
    if (is_lamp(end)) {
      metres.push_back({in_.slack_splice_m - in_.lamps[end - 1].slack_m, name('t', end)});
      program_.equal(metres, in_.slack_splice_m);
    } else {
      metres.push_back({-in_.slack_splice_m, name('u', end)});
      program_.equal(metres, 0);
    }
  }

  // Slack of the nearer kind at both ends included.
  [[nodiscard]] double shortest_to(std::uint32_t end) const {
    double shortest_m = longest_m();
    for (const std::uint32_t p : beginnings(end)) {
      shortest_m = std::min(shortest_m, geometry::distance_m(in_.points[p].place, in_.points[end].place));
    }
    return shortest_m + std::min(in_.slack_splice_m, in_.slack_output_m) +
           std::min(in_.slack_splice_m, is_lamp(end) ? in_.lamps[end - 1].slack_m : in_.slack_splice_m);
  }

  // No cable of a sensible wiring is longer.
  [[nodiscard]] double longest_m() const { return longest_m_; }

  void joint(std::uint32_t end) {
    Terms chosen;
    Terms wires;
    std::vector<Terms> at_least_size(sizes());
    for (std::uint32_t n = 2; n < in_.joint_cost.size(); ++n) {
      for (std::uint32_t g = 0; g < sizes(); ++g) {
        if (!std::isfinite(in_.joint_cost[n][g])) continue;
        const std::string kind = name('j', end, n, g);
        program_.binary(kind);
        program_.add_cost(in_.joint_cost[n][g], kind);
        chosen.push_back({1, kind});
        wires.push_back({double(n), kind});
        for (std::uint32_t thinner = 0; thinner <= g; ++thinner) at_least_size[thinner].push_back({1, kind});
      }
    }
    if (is_lamp(end)) chosen.push_back({1, name('t', end)});
    equal_to_presence(chosen, end);
    // The cable that comes, the lead of the lamp, the cables that go.
    for (const std::uint32_t other : ends_) {
      if (other != end) wires.push_back({-1, name('s', other, end)});
    }
    if (is_lamp(end)) wires.push_back({2, name('t', end)});
    if (!is_lamp(end)) wires.push_back({-1, name('u', end)});
    program_.at_least(wires, is_lamp(end) ? 2 : 0);
    for (std::uint32_t g = 1; g < sizes(); ++g) thick_enough(end, g, at_least_size[g]);
  }

  // A joint that takes the cable that comes and each that goes, where these are of size g or thicker.
  void thick_enough(std::uint32_t end, std::uint32_t g, const Terms& joints) {
    Terms own = joints;
    add_sizes(end, g, own);
    if (is_lamp(end)) own.push_back({1, name('t', end)});
    program_.at_least(own, 0);
    for (const std::uint32_t other : ends_) {
      if (other == end) continue;
      Terms onward = joints;
      add_sizes(other, g, onward);
      onward.push_back({-1, name('s', other, end)});
      program_.at_least(onward, -1);
    }
  }

  void add_sizes(std::uint32_t end, std::uint32_t from_size, Terms& terms) const {
    for (std::uint32_t g = from_size; g < sizes(); ++g) {
      for (std::uint32_t c = 0; c < classes_; ++c) terms.push_back({-1, name('b', end, g, c)});
    }
  }

  // What a cable carries is drawn by its lamp and by the cables that begin at its end. This also forbids rings.
  void current(std::uint32_t end) {
    Terms balance{{1, name('i', end)}};
    for (const std::uint32_t other : ends_) {
      if (other != end) balance.push_back({-1, name('w', other, end)});
    }
    if (is_lamp(end)) {
      balance.push_back({-1, name('a', end)});
      lamp_current(end);
    }
    program_.equal(balance, 0);
    Terms drawn{{-1, name('i', end)}};
    for (const std::uint32_t p : beginnings(end)) {
      drawn.push_back({1, name('w', end, p)});
      program_.at_most({{1, name('w', end, p)}, {-most_a_, name('s', end, p)}}, 0);
    }
    program_.equal(drawn, 0);
    Terms carried{{-1, name('i', end)}};
    for (std::uint32_t g = 0; g < sizes(); ++g) {
      for (std::uint32_t c = 0; c < classes_; ++c) {
        carried.push_back({1, name('e', end, g, c)});
        const double most_a = std::min(class_a_[c + 1], in_.cables[g].ampacity_a);
        program_.at_most({{1, name('e', end, g, c)}, {-most_a, name('b', end, g, c)}}, 0);
        program_.at_least({{1, name('e', end, g, c)}, {-class_a_[c], name('b', end, g, c)}}, 0);
      }
    }
    program_.equal(carried, 0);
  }

  // S / V is convex in V: no tangent ever says more than the lamp draws.
  void lamp_current(std::uint32_t end) {
    const ExactProblem::Lamp& lamp = in_.lamps[end - 1];
    constexpr int tangents = 4;
    for (int k = 0; k <= tangents; ++k) {
      const double at_v = lamp.floor_v + (unit_.source_v - lamp.floor_v) * k / tangents;
      const double slope = lamp.load_va / (at_v * at_v);
      Terms line{{1, name('a', end)}};
      add_loss(end, -slope, line);
      program_.at_least(line, lamp.load_va / at_v + slope * (at_v - unit_.source_v));
    }
  }

  // Volts from the source to the end of a cable: lost in the transformer, and on the way.
  void add_loss(std::uint32_t end, double factor, Terms& terms) const {
    terms.push_back({factor, name('v', end)});
    for (const std::uint32_t other : ends_) terms.push_back({factor * unit_.source_ohm, name('w', other, 0)});
  }

  // A cable of I amperes and l metres loses their product times its ohms; never less than with the least current of its
  // class over its metres and the rest of the current over the shortest way that leads here (McCormick, Mathematical
  // Programming 10, 1976; from memory).
  void volts(std::uint32_t end) {
    const double own_a = is_lamp(end) ? in_.lamps[end - 1].load_va / unit_.source_v : 0;
    const double shortest_m = shortest_to(end);
    Terms on_the_way;
    for (std::uint32_t g = 0; g < sizes(); ++g) {
      for (std::uint32_t c = 0; c < classes_; ++c) {
        const double least_a = std::max(own_a, class_a_[c]);
        const double ohm_per_m = in_.cables[g].ohm_per_m;
        on_the_way.push_back({-ohm_per_m * least_a, name('l', end, g, c)});
        on_the_way.push_back({-ohm_per_m * shortest_m, name('e', end, g, c)});
        on_the_way.push_back({ohm_per_m * shortest_m * least_a, name('b', end, g, c)});
      }
    }
    for (const std::uint32_t p : beginnings(end)) {
      // Where the cable does not begin there, the row says nothing.
      const double most_v = p == 0 ? most_drop_v_ : 2 * most_drop_v_;
      Terms here = on_the_way;
      here.push_back({1, name('v', end)});
      here.push_back({-most_v, name('s', end, p)});
      if (p != 0) here.push_back({-1, name('v', p)});
      program_.at_least(here, -most_v);
    }
    if (!is_lamp(end)) return;
    const ExactProblem::Lamp& lamp = in_.lamps[end - 1];
    const double lead_v = lamp.lead_ohm * own_a;
    Terms before{{-lead_v, name('t', end)}};
    add_loss(end, 1, before);
    program_.at_most(before, unit_.source_v - lamp.floor_v - lead_v);
  }

  const ExactProblem& in_;
  const ExactProblem::Unit& unit_;
  std::uint32_t points_ = 0;
  std::uint32_t classes_ = 1;
  double most_drop_v_ = 0;  // more is lost nowhere: windows would be left
  double longest_m_ = 0;
  double most_a_ = 0;  // every lamp at its least volts
  std::vector<double> class_a_;
  std::vector<std::uint32_t> ends_;
  LinearProgram program_;
};

}  // namespace

LinearProgram exact_model(const ExactProblem& problem, const ExactProblem::Unit& unit, Volts volts) {
  return Model(problem, unit, volts).run();
}

}  // namespace duskwire::wiring
