// SPDX-License-Identifier: Apache-2.0
#include "study/locate_trends.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "study/network_builder.hpp"

namespace duskwire::study {
namespace {

constexpr double moved_v = 0.15;      // two meters of the usual class apart
constexpr double moved_share = 0.06;  // amperes

bool same_kind(const job::Reading& x, const job::Reading& y) {
  return x.place == y.place && x.quantity == y.quantity && x.load == y.load && x.clamped == y.clamped && x.at == y.at &&
         x.lifted == y.lifted && x.value && y.value;
}

const job::Reading* same_in(const std::vector<job::Reading>& readings, const job::Reading& now) {
  const auto was =
      std::find_if(readings.begin(), readings.end(), [&](const job::Reading& one) { return same_kind(one, now); });
  return was == readings.end() ? nullptr : &*was;
}

// The output that feeds a joint or a lamp; empty: none, or the place is an output itself.
std::string output_of(const Built& built, const std::string& place) {
  const std::uint32_t node = built.node_of(place);
  if (node == none || node < built.joint_base || built.supply[node].output == none) return "";
  return id_of(*built.job, built.spot_of_output(built.supply[node].output));
}

// Volts at a place move with those of its output: mains and tap, not the run.
std::optional<double> output_change(const Built& built, const job::Reading& now, const std::vector<job::Reading>& here,
                                    const std::vector<job::Reading>& then) {
  job::Reading output;
  output.place = output_of(built, now.place);
  output.quantity = "voltage";
  output.value = 0;
  if (output.place.empty() || now.quantity != "voltage" || now.load == job::ReadingLoad::open_circuit) return {};
  const job::Reading* is = same_in(here, output);
  const job::Reading* was = same_in(then, output);
  if (!is || !was) return {};
  return *is->value - *was->value;
}

std::string words(const Built& built, const Drift& drift) {
  std::string text = fmt::format("{} has {} {:.2f} {} since {}", drift.place, drift.change < 0 ? "lost" : "gained",
                                 std::abs(drift.change), drift.unit, drift.since.substr(0, 10));
  if (!drift.output_change) return text;
  const double own = drift.change - *drift.output_change;
  const std::string output = output_of(built, drift.place);
  if (std::abs(own) <= moved_v) return text + fmt::format(", and so has {}: mains or tap, not the run", output);
  return text + fmt::format(", {:+.2f} {} of it on the run from {}", own, drift.unit, output);
}

// Whether every lamp stays above its window's floor and each device within its limit with `more_va` at `node`.
const char* given_way(const Built& built, std::uint32_t node, double more_va) {
  electrical::Network network = electrical::network_of(*built.prepared);
  electrical::Load load;
  load.plus = {node, electrical::Conductor::a};
  load.minus = {node, electrical::Conductor::b};
  load.power_va = more_va;
  load.v_regulation_min = 9;
  network.loads.push_back(load);
  electrical::Condition condition = built.nominal;
  condition.mains_factor = built.weakest.mains_factor;
  const auto solved = electrical::solve(std::move(network), condition);
  if (!solved || !solved.value().converged) return "the network collapses";
  const electrical::Network& planned = electrical::network_of(*built.prepared);
  for (std::size_t o = 0; o < planned.outputs.size(); ++o) {
    const double limit_a = planned.outputs[o].limit_a;
    const double share = built.job->practice.output_load_pct / 100;
    if (limit_a > 0 && solved.value().output_a[o] > share * limit_a) return "its protection";
  }
  for (std::size_t j = 0; j < built.lamps.size(); ++j) {
    if (built.lamps[j].counts && solved.value().load_v[j] < built.lamps[j].floor_v) return "the volts of a lamp";
  }
  return nullptr;
}

std::uint32_t farthest_node(const Built& built, std::uint32_t output) {
  std::uint32_t far = built.outputs.empty() ? none : output;
  for (std::uint32_t node = 0; node < built.supply.size(); ++node) {
    if (built.supply[node].output == output && built.supply[node].distance_m > built.supply[far].distance_m) far = node;
  }
  return far;
}

}  // namespace

std::vector<Drift> drifts(const Built& built, const std::vector<job::Reading>& readings, const std::string& date) {
  std::vector<Drift> found;
  for (const job::Reading& now : readings) {
    for (const job::Visit& earlier : built.job->visits) {
      if (!date.empty() && !(earlier.date < date)) continue;
      const job::Reading* was = same_in(earlier.readings, now);
      if (!was) continue;
      const double change = *now.value - *was->value;
      const double least = now.unit == "V" ? moved_v : moved_share * std::abs(*was->value);
      if (std::abs(change) > least) {
        Drift drift{now.place, now.quantity, now.unit, earlier.date, *was->value, *now.value, change, {}, ""};
        drift.output_change = output_change(built, now, readings, earlier.readings);
        drift.text = words(built, drift);
        found.push_back(std::move(drift));
      }
      break;  // against the first visit that read it
    }
  }
  return found;
}

std::vector<RunRoom> rooms(const Built& built) {
  constexpr double most_va = 600;
  constexpr double least_va = 0.5;
  std::vector<RunRoom> result;
  for (std::uint32_t o = 0; o < built.outputs.size(); ++o) {
    const std::uint32_t node = farthest_node(built, o);
    if (node == none || node == o) continue;
    RunRoom room{id_of(*built.job, built.spot_of_output(o)), 0, ""};
    double low = 0;
    double high = most_va;
    const char* limit = given_way(built, node, least_va);
    if (limit) high = 0;
    while (high - low > least_va) {
      const double middle = (low + high) / 2;
      const char* gives = given_way(built, node, middle);
      if (gives) limit = gives;
      (gives ? high : low) = middle;
    }
    room.room_va = std::floor(low);
    room.limited_by = limit ? limit : "";
    result.push_back(std::move(room));
  }
  return result;
}

}  // namespace duskwire::study
