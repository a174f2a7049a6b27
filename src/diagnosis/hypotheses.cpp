// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/hypotheses.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "diagnosis/loops.hpp"
#include "diagnosis/priors.hpp"

namespace duskwire::diagnosis {
namespace {

std::vector<double> trials_of(FaultKind kind) {
  switch (kind) {
    case FaultKind::short_span:
    case FaultKind::short_lamp:
      return {0.04, 0.3, 1.5, 4};
    case FaultKind::water:
      return {4.5, 20};
    case FaultKind::added_load:
      return {12, 40, 90};
    case FaultKind::wrong_gauge:
      return {1.35, 2.5};
    case FaultKind::weak_output:
      return {0.15, 0.8};
    case FaultKind::low_mains:
      return {0.85, 1.08};
    default:
      return {0};
  }
}

// Resistances that cost a little, some, much and nearly all of the volts beyond.
std::vector<double> trials_by_drop(double current_a) {
  constexpr double least_a = 0.05;
  const Range range = parameter_range(FaultKind::resistive);
  std::vector<double> trials;
  for (const double drop_v : {0.5, 1.8, 5.0, 25.0}) {
    const double ohm = std::clamp(drop_v / std::max(least_a, std::abs(current_a)), range.low, range.high);
    if (trials.empty() || ohm > trials.back() * 1.05) trials.push_back(ohm);
  }
  return trials;
}

class Enumerator {
 public:
  Enumerator(const FaultProblem& problem, const std::vector<double>& segment_a)
      : problem_(problem),
        segment_a_(segment_a),
        on_loop_(segments_on_loops(problem.network)),
        is_output_(problem.network.node_count, false) {
    for (const electrical::Output& output : problem.network.outputs) is_output_[output.node] = true;
    const bool has_leads =
        std::any_of(problem.spans.begin(), problem.spans.end(), [](const SpanPlaces& span) { return span.is_lead; });
    priors_ = priors(problem.history, has_leads);
  }

  std::vector<Group> run() {
    add(FaultKind::sound, none, {{none, 1}});
    close(priors_.sound);
    supply();
    outputs();
    spans();
    lamps();
    normalise();
    return std::move(groups_);
  }

 private:
  void add(FaultKind kind, std::uint32_t element, std::vector<Group::At> places) {
    std::erase_if(places, [](const Group::At& at) { return at.chance <= 0; });
    if (!places.empty()) groups_.push_back({kind, element, trials_of(kind), std::move(places)});
  }

  void add_resistive(std::uint32_t segment, std::vector<Group::At> places) {
    const std::size_t before = groups_.size();
    add(FaultKind::resistive, segment, std::move(places));
    if (groups_.size() > before) groups_.back().trials = trials_by_drop(segment_a_[segment]);
  }

  // Scales what was added since the last call to sum up to `total`.
  void close(double total) {
    double sum = 0;
    for (std::size_t g = closed_; g < groups_.size(); ++g) sum += groups_[g].chance();
    for (std::size_t g = closed_; g < groups_.size(); ++g) {
      for (Group::At& at : groups_[g].places) at.chance *= total / sum;
    }
    closed_ = groups_.size();
  }

  void normalise() {
    closed_ = 0;
    close(1);
  }

  [[nodiscard]] double weight(std::uint32_t place) const { return place == none ? 0 : problem_.places[place].weight; }

  void supply() {
    const std::uint32_t place = problem_.supply_place;
    if (place == none) return;
    add(FaultKind::no_mains, none, {{place, 1}});
    close(priors_.no_mains);
    add(FaultKind::control_off, none, {{place, 1}});
    close(priors_.control_off);
    add(FaultKind::low_mains, none, {{place, 1}});
    close(priors_.low_mains);
    for (std::uint32_t t = 0; t < problem_.transformer_place.size(); ++t) {
      add(FaultKind::transformer_dead, t, {{problem_.transformer_place[t], 1}});
    }
    close(priors_.transformer_dead);
  }

  template <class Make>
  void each_output(double total, Make&& make) {
    for (std::uint32_t o = 0; o < problem_.output_place.size(); ++o) make(o);
    close(total);
  }

  void outputs() {
    const auto plain = [&](FaultKind kind, double total) {
      each_output(total, [&](std::uint32_t o) { add(kind, o, {{problem_.output_place[o], 1}}); });
    };
    plain(FaultKind::tripped, priors_.tripped);
    plain(FaultKind::weak_output, priors_.weak_output);
    plain(FaultKind::wrong_gauge, priors_.wrong_gauge);
    for (const FaultKind kind : {FaultKind::wrong_tap, FaultKind::bridged_taps}) {
      each_output(kind == FaultKind::wrong_tap ? priors_.wrong_tap : priors_.bridged_taps, [&](std::uint32_t o) {
        for (const double tap_v : problem_.choices[o].other_tap_v) {
          add(kind, o, {{problem_.output_place[o], 1}});
          groups_.back().trials = {tap_v};
        }
      });
    }
  }

  // Shares of one span: its two splices and the cable between them.
  [[nodiscard]] std::vector<Group::At> along(const SpanPlaces& span, double side, double cable, double dug) const {
    std::vector<Group::At> places;
    const auto put = [&](std::uint32_t place, double share) {
      if (place != none) places.push_back({place, share * weight(place)});
    };
    put(span.from_side, side);
    put(span.cable, cable);
    put(span.to_side, side);
    for (Group::At& at : places) {
      const Place& place = problem_.places[at.place];
      if (place.kind == PlaceKind::cable && (place.dug_near || problem_.history.digging)) at.chance *= dug;
    }
    return places;
  }

  [[nodiscard]] bool touches_output(std::size_t s) const {
    const electrical::Segment& segment = problem_.network.segments[s];
    return is_output_[segment.from] || is_output_[segment.to];
  }

  template <class Make>
  void each_span(double total, bool leads, Make&& make) {
    for (std::uint32_t s = 0; s < problem_.spans.size(); ++s) {
      if (problem_.spans[s].is_lead == leads) make(s, problem_.spans[s]);
    }
    close(total);
  }

  void spans() {
    constexpr double dug_open = 12;
    constexpr double dug_short = 6;
    const Priors& p = priors_;
    each_span(p.open_trunk + p.lifted_at_output, false, [&](std::uint32_t s, const SpanPlaces& span) {
      std::vector<Group::At> places = along(span, p.splice_weight, p.cable_weight, dug_open);
      // A leg of a loop left off at its output: one in five old loops.
      if (on_loop_[s] && touches_output(s)) {
        for (Group::At& at : places) at.chance *= 3;
      }
      add(FaultKind::open, s, places);
      if (!on_loop_[s]) return;
      for (Group::At& at : places) at.chance *= 0.8;
      add(FaultKind::open_a, s, places);
      add(FaultKind::open_b, s, places);
    });
    each_span(p.open_lead, true,
              [&](std::uint32_t s, const SpanPlaces& span) { add(FaultKind::open, s, along(span, 1, 0.3, dug_open)); });
    each_span(0.85 * p.resistive, false,
              [&](std::uint32_t s, const SpanPlaces& span) { add_resistive(s, along(span, 1, 0.08, 3)); });
    each_span(0.15 * p.resistive, true,
              [&](std::uint32_t s, const SpanPlaces& span) { add_resistive(s, along(span, 1, 0.08, 3)); });
    each_span(p.short_span, false, [&](std::uint32_t s, const SpanPlaces& span) {
      add(FaultKind::short_span, s, along(span, 0.5, 1, dug_short));
    });
    each_span(p.added_load, false, [&](std::uint32_t s, const SpanPlaces& span) {
      add(FaultKind::added_load, problem_.network.segments[s].to, along(span, 0, 1, 1));
    });
    each_span(p.crossed, false, [&](std::uint32_t s, const SpanPlaces& span) {
      if (on_loop_[s]) add(FaultKind::crossed, s, along(span, 1, 0, 1));
    });
  }

  void lamps() {
    const auto each = [&](FaultKind kind, double total) {
      for (std::uint32_t j = 0; j < problem_.lamp_place.size(); ++j) {
        if (problem_.network.loads[j].power_va <= 0) continue;
        add(kind, j, {{problem_.lamp_place[j], weight(problem_.lamp_place[j])}});
      }
      close(total);
    };
    each(FaultKind::dead_lamp, priors_.dead_lamp);
    each(FaultKind::water, priors_.water);
    each(FaultKind::short_lamp, priors_.short_lamp);
  }

  const FaultProblem& problem_;
  const std::vector<double>& segment_a_;
  std::vector<bool> on_loop_;
  std::vector<bool> is_output_;
  Priors priors_;
  std::vector<Group> groups_;
  std::size_t closed_ = 0;
};

double normal(double log_value, double log_median, double spread) {
  const double z = (log_value - log_median) / spread;
  return -0.5 * z * z - std::log(spread) - 0.9189385332046727;
}

}  // namespace

double Group::chance() const {
  return std::accumulate(places.begin(), places.end(), 0.0, [](double sum, const At& at) { return sum + at.chance; });
}

std::vector<Group> single_faults(const FaultProblem& problem, const std::vector<double>& segment_a) {
  return Enumerator(problem, segment_a).run();
}

// Medians and spreads: common practice, no source.
double log_prior(FaultKind kind, double parameter) {
  const double x = std::log(parameter);
  switch (kind) {
    case FaultKind::resistive:
      return normal(x, std::log(0.6), 1.0);
    case FaultKind::weak_output:
      return normal(x, std::log(0.3), 0.8);
    case FaultKind::short_span:
    case FaultKind::short_lamp:
      return normal(x, std::log(0.15), 1.3);
    case FaultKind::water:
      return normal(x, std::log(20), 0.8);
    case FaultKind::added_load:
      return normal(x, std::log(20), 0.8);
    case FaultKind::wrong_gauge:
      return normal(x, std::log(1.6), 0.2);
    case FaultKind::low_mains:
      return normal(x, std::log(0.93), 0.05);
    default:
      return 0;
  }
}

Range parameter_range(FaultKind kind) {
  switch (kind) {
    case FaultKind::resistive:
      return {0.05, 15};
    case FaultKind::weak_output:
      return {0.05, 3};
    case FaultKind::short_span:
    case FaultKind::short_lamp:
      return {0.01, 4};
    case FaultKind::water:
      return {4, 100};
    case FaultKind::added_load:
      return {4, 90};
    case FaultKind::wrong_gauge:
      return {1.15, 3};
    case FaultKind::low_mains:
      return {0.75, 1.12};
    default:
      return {0, 0};
  }
}

}  // namespace duskwire::diagnosis
