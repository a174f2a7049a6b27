// SPDX-License-Identifier: Apache-2.0
#include "study/crew_commissioning.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "estimate/joint_wires.hpp"
#include "study/network_builder.hpp"

namespace duskwire::study {
namespace {

constexpr int mains_steps_to_each_side = 2;

// Volts of one state of the network.
struct Foretold {
  std::vector<double> node_v;
  std::vector<double> lamp_v;
  std::vector<double> terminal_v;  // by output
  std::vector<double> output_a;
};

std::vector<double> sizes(const std::vector<double>& values) {
  std::vector<double> out;
  out.reserve(values.size());
  for (const double value : values) out.push_back(std::abs(value));
  return out;
}

class Bench {
 public:
  explicit Bench(const job::Job& job)
      : built_(build(job)), workspace_(electrical::make_workspace(*built_.prepared)), nominal_(read(built_.nominal)) {
    for (std::size_t c = 1; c < built_.corners.size(); ++c) {
      if (built_.corners[c].lone_lamps) continue;
      electrical::Condition condition = built_.nominal;
      set_condition(condition, built_.corners[c]);
      corners_.push_back(read(condition));
    }
  }

  [[nodiscard]] const Built& built() const { return built_; }
  [[nodiscard]] const Foretold& nominal() const { return nominal_; }
  [[nodiscard]] const std::vector<Foretold>& corners() const { return corners_; }
  [[nodiscard]] Foretold at_mains(double factor) {
    electrical::Condition condition = built_.nominal;
    condition.mains_factor = factor;
    return read(condition);
  }

 private:
  Foretold read(const electrical::Condition& condition) {
    const electrical::Solution& solution = electrical::solve(*built_.prepared, condition, *workspace_);
    return {sizes(solution.node_v), sizes(solution.load_v), sizes(solution.output_v), sizes(solution.output_a)};
  }

  Built built_;
  electrical::WorkspacePtr workspace_;
  Foretold nominal_;
  std::vector<Foretold> corners_;
};

// The farthest that a value strays from its nominal one.
template <class Value>
double strays(const Bench& bench, Value value) {
  const double nominal = value(bench.nominal());
  double most = 0;
  for (const Foretold& corner : bench.corners()) most = std::max(most, std::abs(value(corner) - nominal));
  return most;
}

class Sheet {
 public:
  Sheet(const job::Job& job, const MeterAccuracy& meter)
      : job_(job), bench_(job), wires_(estimate::all_joint_wires(job)), meter_(meter) {}

  CommissioningOutput output_of(const CrewRun& run) {
    CommissioningOutput out;
    out.output = run.output;
    out.transformer = run.transformer;
    out.tap_v = run.tap_v;
    out.limit_a = run.limit_a;
    const std::uint32_t o = bench_.built().node_of(run.output);  // an output is its own node
    if (o == none || o >= bench_.nominal().terminal_v.size()) return out;
    out.terminal_v = bench_.nominal().terminal_v[o];
    // One reading, and one of the mains that it is held against.
    out.terminal_tolerance_v = 2 * meter_.volts_pct / 100 * out.terminal_v + meter_.volts_v;
    out.current_a = bench_.nominal().output_a[o];
    out.tolerance_a = strays(bench_, [&](const Foretold& reading) { return reading.output_a[o]; }) +
                      meter_.amps_pct / 100 * out.current_a + meter_.amps_a;
    const double share = std::clamp(job_.site.corners.mains_tolerance_pct / 100, 0.0, 0.5);
    for (int step = -mains_steps_to_each_side; step <= mains_steps_to_each_side; ++step) {
      const double factor = 1 + share * step / mains_steps_to_each_side;
      out.by_mains.push_back({job_.site.mains_v * factor, bench_.at_mains(factor).terminal_v[o]});
    }
    add_rows(run, o, out);
    return out;
  }

 private:
  void add_rows(const CrewRun& run, std::uint32_t o, CommissioningOutput& out) {
    std::unordered_set<std::string_view> done;
    for (const CrewStep& step : run.steps) {
      const estimate::EndPlace place = bench_.built().ends.find(step.to);
      if (place.kind == estimate::EndKind::joint && done.insert(step.to).second) {
        CommissioningRow row = row_of(CommissioningKind::joint, step.to, o, step.level);
        row.name = job_.joints[place.index].name;
        row.joint = estimate::joint_kind(wires_[place.index]);
        out.rows.push_back(std::move(row));
      }
      for (const std::uint32_t lamp : step.lamps) out.rows.push_back(lamp_row(run.lamps[lamp], o, step.level));
    }
  }

  CommissioningRow lamp_row(const CrewLamp& lamp, std::uint32_t o, std::uint32_t level) {
    CommissioningRow row = row_of(CommissioningKind::lamp, lamp.id, o, level);
    row.name = lamp.name;
    row.window_min_v = lamp.window_min_v;
    row.window_max_v = lamp.window_max_v;
    return row;
  }

  // The same meter reads both ends of a drop: its scale counts on the drop alone, its last digits twice.
  CommissioningRow row_of(CommissioningKind kind, const std::string& id, std::uint32_t o, std::uint32_t level) {
    CommissioningRow row;
    row.kind = kind;
    row.id = id;
    row.level = level;
    const std::uint32_t node = bench_.built().node_of(id);
    if (node == none) return row;
    const std::uint32_t lamp = node - bench_.built().luminaire_base;
    const auto volts = [&](const Foretold& reading) {
      return kind == CommissioningKind::lamp ? reading.lamp_v[lamp] : reading.node_v[node];
    };
    const auto drop = [&](const Foretold& reading) { return reading.terminal_v[o] - volts(reading); };
    row.nominal_v = volts(bench_.nominal());
    row.drop_v = drop(bench_.nominal());
    row.tolerance_v = strays(bench_, drop) + meter_.volts_pct / 100 * std::abs(row.drop_v) + 2 * meter_.volts_v;
    return row;
  }

  const job::Job& job_;
  Bench bench_;
  std::vector<std::vector<estimate::JointWire>> wires_;
  MeterAccuracy meter_;
};

}  // namespace

CommissioningSheet commissioning_sheet(const job::Job& job, const std::vector<CrewRun>& runs,
                                       const MeterAccuracy& meter) {
  CommissioningSheet sheet;
  sheet.mains_v = job.site.mains_v;
  sheet.meter = meter;
  Sheet maker(job, meter);
  for (const CrewRun& run : runs) {
    if (!run.output.empty()) sheet.outputs.push_back(maker.output_of(run));
  }
  return sheet;
}

}  // namespace duskwire::study
