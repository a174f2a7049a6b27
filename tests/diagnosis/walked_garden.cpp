// SPDX-License-Identifier: Apache-2.0
// Runs fan out from a transformer, two by two along one border, with a branch now and then. The truth is solved by
// the electrical engine, cable by cable with its splices; the problem says what was walked and read.
#include "diagnosis/walked_garden.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>

#include "diagnosis/fault.hpp"
#include "electrical/solver.hpp"

namespace duskwire::diagnosis::tests {
namespace {

constexpr std::array<double, 4> loop_ohm_per_m = {0.02643, 0.01662, 0.01045, 0.00657};  // 16, 14, 12, 10 AWG, copper
constexpr std::array<double, 6> sizes_va = {2, 3, 4.5, 6, 9, 12};

struct Tap {
  double along_m = 0;
  std::uint32_t lamp = none;  // none: a branch leaves here
  std::uint32_t branch = 0;
};

struct Way {
  geometry::Point2 from;
  double heading = 0;  // radians
  double length_m = 0;
  std::vector<Tap> taps;
};

class Gardener {
 public:
  Gardener(std::uint64_t seed, const WalkedMix& mix) : mix_(mix), random_(seed * 7919 + 17) {}

  WalkedGarden run() {
    const std::uint32_t runs = mix_.runs_low + below(mix_.runs_high - mix_.runs_low + 1);
    for (std::uint32_t r = 0; r < runs; ++r) lay(r);
    electrical::Network network = wire();
    read(network);
    return std::move(garden_);
  }

 private:
  double uniform(double low, double high) {
    return low + (high - low) * static_cast<double>(random_() >> 11U) * 0x1.0p-53;
  }
  std::uint32_t below(std::uint32_t n) { return static_cast<std::uint32_t>(random_() % n); }
  double normal(double sigma) {
    return sigma * std::sqrt(-2 * std::log(uniform(1e-12, 1))) * std::cos(uniform(0, 2 * std::numbers::pi));
  }
  geometry::Point2 blurred(geometry::Point2 p, double sigma_m) {
    return {p.x_m + normal(sigma_m), p.y_m + normal(sigma_m)};
  }
  static geometry::Point2 at(const Way& way, double along_m) {
    return {way.from.x_m + along_m * std::cos(way.heading), way.from.y_m + along_m * std::sin(way.heading)};
  }

  void plant(Way& way, double from_m, std::uint32_t lamps) {
    double along_m = from_m;
    for (std::uint32_t k = 0; k < lamps; ++k) {
      along_m += uniform(2, 5);
      const double lead_m = -mix_.lead_m * std::log(uniform(1e-3, 1));
      const double turn = way.heading + (below(2) == 0 ? 1 : -1) * std::numbers::pi / 2;
      const geometry::Point2 tap = at(way, along_m);
      const auto lamp = static_cast<std::uint32_t>(garden_.run_of_lamp.size());
      garden_.run_of_lamp.push_back(run_);
      garden_.tap_of_lamp.push_back(tap);
      lead_m_.push_back(lead_m);
      TracedLamp seen;
      const double nominal_va = sizes_va[below(sizes_va.size())];
      seen.rated_a = nominal_va / 12;
      seen.least_v = 9;
      seen.at = blurred({tap.x_m + lead_m * std::cos(turn), tap.y_m + lead_m * std::sin(turn)}, 0.3);
      real_va_.push_back(nominal_va * (1 + normal(0.06)));
      garden_.problem.lamps.push_back(seen);
      way.taps.push_back({along_m, lamp, 0});
    }
    way.length_m = along_m;
  }

  // Two runs share a border, one beside the other; the next two take another.
  void lay(std::uint32_t r) {
    run_ = r;
    Way first;
    first.heading = 0.9 * (r / 2) + 0.05;
    const double aside_m = r % 2 == 0 ? 0 : mix_.between_m;
    first.from = {-aside_m * std::sin(first.heading), aside_m * std::cos(first.heading)};
    const std::uint32_t lamps = mix_.lamps_low + below(mix_.lamps_high - mix_.lamps_low + 1);
    const std::uint32_t on_branch = below(3) == 0 ? lamps / 3 : 0;
    plant(first, uniform(4, 15), lamps - on_branch);
    ways_.push_back({first});
    if (on_branch > 0) {
      Way branch;
      const double parting_m = first.taps[first.taps.size() / 2].along_m + 0.7;
      branch.from = at(first, parting_m);
      branch.heading = first.heading + (r % 2 == 0 ? -1 : 1) * 1.2;
      plant(branch, 0, on_branch);
      auto& taps = ways_.back().front().taps;
      taps.push_back({parting_m, none, 1});
      std::sort(taps.begin(), taps.end(), [](const Tap& x, const Tap& y) { return x.along_m < y.along_m; });
      ways_.back().push_back(branch);
    }
  }

  std::uint32_t segment(electrical::Network& network, std::uint32_t from, double length_m, double ohm_per_m) {
    constexpr double contact_ohm = 0.003;
    const std::uint32_t to = network.node_count++;
    electrical::Segment wire{from, to};
    // Cable lies slacker than it is walked.
    wire.copper_a_ohm = wire.copper_b_ohm = ohm_per_m / 2 * length_m * uniform(1.02, 1.06);
    wire.contact_a_ohm = wire.contact_b_ohm = contact_ohm;
    network.segments.push_back(wire);
    return to;
  }

  void wire_way(electrical::Network& network, std::uint32_t r, std::uint32_t w, std::uint32_t node, double ohm_per_m) {
    double before_m = 0;
    for (const Tap& tap : ways_[r][w].taps) {
      node = segment(network, node, tap.along_m - before_m, ohm_per_m);
      segment_of_tap_.push_back({r, w, tap.along_m, static_cast<std::uint32_t>(network.segments.size() - 1)});
      before_m = tap.along_m;
      if (tap.lamp == none) {
        wire_way(network, r, tap.branch, node, ohm_per_m);
        continue;
      }
      const std::uint32_t base = segment(network, node, lead_m_[tap.lamp], garden_.problem.lead_loop_ohm_per_m);
      electrical::Load load{{base, electrical::Conductor::a}, {base, electrical::Conductor::b}};
      load.power_va = real_va_[tap.lamp];
      load.v_regulation_min = 9;
      load.v_cut_off = 6;
      lamp_base_[tap.lamp] = base;
      network.loads[tap.lamp] = load;
    }
  }

  electrical::Network wire() {
    electrical::Network network;
    const auto runs = static_cast<std::uint32_t>(ways_.size());
    network.node_count = runs;
    network.loads.resize(real_va_.size());
    lamp_base_.resize(real_va_.size());
    network.transformers.push_back({0, 600, 0});
    for (std::uint32_t r = 0; r < runs; ++r) {
      network.outputs.push_back({r, 0, 12.0 + below(3), 0.02, 25});
      // The far lamps of a long run must still see volts: no thin cable there.
      const double reach_m = ways_[r].front().length_m;
      garden_.cable_of_run.push_back(reach_m > 30 ? 2 + below(2) : below(4));
      wire_way(network, r, 0, r, loop_ohm_per_m[garden_.cable_of_run.back()] * (1 + normal(0.02)));
    }
    return network;
  }

  double clamped(double amps) { return std::round(100 * (amps * (1 + normal(0.01)) + normal(0.01))) / 100; }
  double metered(double volts) { return std::round(100 * (volts * (1 + normal(0.003)) + normal(0.01))) / 100; }

  void read(electrical::Network& network) {
    const auto solved = electrical::solve(network);
    const electrical::Solution& solution = solved.value();
    TraceProblem& problem = garden_.problem;
    for (std::uint32_t r = 0; r < ways_.size(); ++r) {
      TracedRun run;
      run.source_v = metered(solution.node_v[r]);
      run.source_sigma_v = 0.05;
      run.loop_ohm_per_m.assign(loop_ohm_per_m.begin(), loop_ohm_per_m.end());
      for (const Way& way : ways_[r]) {
        geometry::Polyline walked;
        constexpr double step_m = 3;
        const auto steps = static_cast<int>(std::ceil(way.length_m / step_m));
        for (int k = 0; k <= steps; ++k) walked.push_back(blurred(at(way, way.length_m * k / steps), 0.25));
        run.ways.push_back(std::move(walked));
      }
      if (mix_.amps) clamp(solution, r, run);
      problem.runs.push_back(std::move(run));
    }
    for (std::size_t lamp = 0; mix_.volts && lamp < problem.lamps.size(); lamp += 3) {
      problem.lamps[lamp].measured = metered(solution.node_v[lamp_base_[lamp]]);
    }
    if (!mix_.lifted) return;
    for (std::uint32_t lamp = 0; lamp < problem.lamps.size(); ++lamp) {
      auto& list = garden_.run_of_lamp[lamp] == 0 ? problem.runs[0].went_dark : problem.runs[0].stayed_lit;
      list.push_back(lamp);
    }
  }

  // The run where it begins, and half way along just before a splice.
  void clamp(const electrical::Solution& solution, std::uint32_t r, TracedRun& run) {
    std::vector<TapWire> taps;
    for (const TapWire& one : segment_of_tap_) {
      if (one.run == r && one.way == 0) taps.push_back(one);
    }
    const auto amps = [&](const TapWire& one) { return std::abs(solution.segment_a_a[one.segment]); };
    run.current_a = clamped(amps(taps.front()));
    const TapWire& middle = taps[taps.size() / 2];
    run.clamps.push_back({blurred(at(ways_[r][0], middle.along_m - 0.8), 0.2), clamped(amps(middle))});
  }

  struct TapWire {
    std::uint32_t run = 0;
    std::uint32_t way = 0;
    double along_m = 0;
    std::uint32_t segment = 0;
  };

  const WalkedMix& mix_;
  std::mt19937_64 random_;
  WalkedGarden garden_;
  std::uint32_t run_ = 0;
  std::vector<std::vector<Way>> ways_;
  std::vector<double> lead_m_;
  std::vector<double> real_va_;
  std::vector<std::uint32_t> lamp_base_;
  std::vector<TapWire> segment_of_tap_;
};

}  // namespace

WalkedGarden walked_garden(std::uint64_t seed, const WalkedMix& mix) { return Gardener(seed, mix).run(); }

}  // namespace duskwire::diagnosis::tests
