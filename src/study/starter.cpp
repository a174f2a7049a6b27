// SPDX-License-Identifier: Apache-2.0
#include "study/starter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <optional>
#include <set>

#include "estimate/connector_choice.hpp"
#include "estimate/joint_wires.hpp"
#include "study/check.hpp"
#include "study/outdoor_units.hpp"
#include "study/starter_layout.hpp"

namespace duskwire::study {
namespace {

// Sizes of protective devices as they are sold (common practice, no source).
constexpr double device_sizes_a[] = {5, 7.5, 10, 15, 20, 25};
// Lowest volts that an output is reckoned at when amps are guessed from volt-amperes, and what cables add.
constexpr double reckoned_v = 12;
constexpr double cable_allowance = 1.15;
// Trunks that common joints still take.
constexpr double thickest_mm2 = 6.1;
constexpr double thinnest_mm2 = 1.5;

double amps_of(double load_va) { return load_va * cable_allowance / reckoned_v; }

// The runs of one output, the outputs of one transformer: by index.
struct OutputPlan {
  std::vector<std::size_t> runs;
  double load_va = 0;
};
struct TransformerPlan {
  const job::TransformerItem* item = nullptr;
  std::vector<OutputPlan> outputs;
};

bool usable(const job::TransformerItem& item) { return suits_a_garden(item) && !item.pool_listed; }

// Puts runs on the outputs of one transformer, largest first, each on the least loaded; leaves what does not fit.
TransformerPlan filled(const job::TransformerItem& item, const job::Practice& practice,
                       const std::vector<StarterRun>& runs, std::vector<std::size_t>& waiting) {
  TransformerPlan plan{&item, std::vector<OutputPlan>(std::max(1u, item.output_count))};
  double room_va = item.rating_va * practice.transformer_load_pct / 100;
  const double output_a = item.output_limit_a * practice.output_load_pct / 100;
  std::vector<std::size_t> left;
  for (const std::size_t run : waiting) {
    const auto output = std::min_element(plan.outputs.begin(), plan.outputs.end(),
                                         [](const auto& p, const auto& q) { return p.load_va < q.load_va; });
    const double load_va = runs[run].load_va * cable_allowance;
    if (load_va > room_va || amps_of(output->load_va + runs[run].load_va) > output_a) {
      left.push_back(run);
      continue;
    }
    output->runs.push_back(run);
    output->load_va += runs[run].load_va;
    room_va -= load_va;
  }
  waiting = left;
  return plan;
}

Result<std::vector<TransformerPlan>> plan_transformers(const job::Catalogue& stock, const job::Practice& practice,
                                                       const std::vector<StarterRun>& runs) {
  std::vector<const job::TransformerItem*> items;
  for (const job::TransformerItem& item : stock.transformers) {
    if (usable(item)) items.push_back(&item);
  }
  std::sort(items.begin(), items.end(), [](const auto* p, const auto* q) { return p->rating_va < q->rating_va; });
  std::vector<std::size_t> waiting;
  for (std::size_t i = 0; i < runs.size(); ++i) waiting.push_back(i);
  std::stable_sort(waiting.begin(), waiting.end(), [&](auto p, auto q) { return runs[p].load_va > runs[q].load_va; });
  std::vector<TransformerPlan> plans;
  while (!waiting.empty()) {
    const std::size_t before = waiting.size();
    for (const job::TransformerItem* item : items) {
      std::vector<std::size_t> left = waiting;
      TransformerPlan plan = filled(*item, practice, runs, left);
      if (!left.empty() && item != items.back()) continue;
      waiting = left;
      plans.push_back(std::move(plan));
      break;
    }
    if (waiting.size() == before) {
      return Error{
          ErrorCode::unsupported,
          fmt::format("A lamp of {:.0f} VA is more than any transformer of the stock carries on one output. Use a "
                      "smaller lamp, or a catalogue with a larger transformer.",
                      runs[waiting.front()].load_va)};
    }
  }
  return plans;
}

double device_for(const OutputPlan& output, const job::TransformerItem& item, const job::Practice& practice) {
  const double wanted_a = amps_of(output.load_va) / (practice.output_load_pct / 100);
  for (const double size_a : device_sizes_a) {
    if (size_a >= wanted_a && size_a <= item.output_limit_a) return size_a;
  }
  return item.output_limit_a;
}

void add_transformers(job::Job& job, const std::vector<TransformerPlan>& plans) {
  for (const TransformerPlan& plan : plans) {
    job::Transformer unit;
    unit.id = fmt::format("T{}", job.transformers.size() + 1);
    unit.item = plan.item->id;
    unit.position = geometry::Point2{};
    for (std::size_t i = 0; i < plan.outputs.size(); ++i) {
      job::Output output;
      output.id = unit.id + "-" + static_cast<char>('A' + i % 26);
      output.tap_v = plan.item->taps_v.front();
      output.limit_a = device_for(plan.outputs[i], *plan.item, job.practice);
      unit.outputs.push_back(std::move(output));
    }
    job.transformers.push_back(std::move(unit));
  }
}

// A title as an id: letters and digits, all else a hyphen.
std::string id_of(const std::string& title) {
  std::string id;
  for (const char c : title) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    const bool capital = c >= 'A' && c <= 'Z';
    if (plain || capital) id += capital ? static_cast<char>(c - 'A' + 'a') : c;
    if (!plain && !capital && !id.empty() && id.back() != '-') id += '-';
  }
  while (!id.empty() && id.back() == '-') id.pop_back();
  constexpr std::size_t longest = 60;
  return id.empty() ? "job" : id.substr(0, longest);
}

// Twin cables for the ground in the manner of the region, thinnest first.
std::vector<const job::CableItem*> trunk_sizes(const job::Catalogue& stock, const Ruleset& ruleset) {
  const bool by_area = ruleset.id == "iec";
  std::vector<const job::CableItem*> sizes;
  for (const job::CableItem& item : stock.cables) {
    const bool handy = item.direct_burial && item.area_mm2 >= thinnest_mm2 && item.area_mm2 <= thickest_mm2;
    if (handy && item.gauge_awg.has_value() != by_area) sizes.push_back(&item);
  }
  std::sort(sizes.begin(), sizes.end(), [](const auto* p, const auto* q) { return p->area_mm2 < q->area_mm2; });
  return sizes;
}

void choose_connectors(job::Job& job) {
  const std::vector<std::vector<estimate::JointWire>> wires = estimate::all_joint_wires(job);
  for (std::size_t i = 0; i < job.joints.size(); ++i) {
    const auto choice = estimate::choose_connector(wires[i], job.catalogue);
    if (choice) job.joints[i].connector = choice->item->id;
  }
}

// The lowest tap at which every lamp of the output stays in its window at worst; where none does, the one that comes
// nearest.
void choose_taps(job::Job& job, const Ruleset& ruleset, const job::Catalogue& stock) {
  struct Best {
    double tap_v = 0;
    double room_v = -std::numeric_limits<double>::infinity();
  };
  std::set<double> taps;
  for (const job::Transformer& unit : job.transformers) {
    const job::TransformerItem* item = find_transformer(job.catalogue, unit.item);
    taps.insert(item->taps_v.begin(), item->taps_v.end());
  }
  std::map<std::string, Best> best;
  for (const double tap_v : taps) {
    for (job::Transformer& unit : job.transformers) {
      for (job::Output& output : unit.outputs) output.tap_v = tap_v;
    }
    std::map<std::string, double> room;
    for (const LampReport& lamp : check(job, ruleset, stock, {.cures = false}).lamps) {
      const double lamp_v = std::min(lamp.worst_low_v - lamp.window_min_v, lamp.window_max_v - lamp.worst_high_v);
      const auto [found, fresh] = room.try_emplace(lamp.output, lamp_v);
      if (!fresh) found->second = std::min(found->second, lamp_v);
    }
    for (const auto& [output, room_v] : room) {
      Best& held = best[output];
      if (held.room_v < 0 && room_v > held.room_v) held = {tap_v, room_v};
    }
  }
  for (job::Transformer& unit : job.transformers) {
    const job::TransformerItem* item = find_transformer(job.catalogue, unit.item);
    for (job::Output& output : unit.outputs) {
      const auto found = best.find(output.id);
      output.tap_v = found == best.end() ? item->taps_v.front() : found->second.tap_v;
    }
  }
}

// The job keeps only the articles that it uses.
void prune_catalogue(job::Job& job) {
  std::set<std::string> used;
  for (const auto& lamp : job.luminaires) used.insert(lamp.item);
  for (const auto& unit : job.transformers) used.insert(unit.item);
  for (const auto& cable : job.cables) used.insert(cable.item);
  for (const auto& joint : job.joints) used.insert(joint.connector);
  const auto keep = [&](auto& items) {
    std::erase_if(items, [&](const auto& item) { return !used.contains(item.id); });
  };
  keep(job.catalogue.luminaires);
  keep(job.catalogue.transformers);
  keep(job.catalogue.cables);
  keep(job.catalogue.connectors);
  job.catalogue.controls.clear();
  job.catalogue.sundries.clear();
}

job::Job laid_out(const job::Job& bare, const std::vector<TransformerPlan>& plans, std::vector<StarterRun> runs,
                  const StarterCables& cables) {
  job::Job job = bare;
  for (std::size_t t = 0; t < plans.size(); ++t) {
    for (std::size_t o = 0; o < plans[t].outputs.size(); ++o) {
      for (const std::size_t run : plans[t].outputs[o].runs) {
        lay_run(job, runs[run], job.transformers[t].outputs[o].id, cables);
      }
    }
  }
  choose_connectors(job);
  return job;
}

std::size_t trouble_in(const Report& report) {
  constexpr std::size_t error_weight = 1000;
  std::size_t trouble = 0;
  for (const Finding& finding : report.findings) {
    if (finding.severity == Severity::error) trouble += error_weight;
    if (finding.severity == Severity::warning) trouble += 1;
  }
  return trouble;
}

}  // namespace

Result<job::Job> start_job(const StarterRequest& request, const Ruleset& ruleset, const job::Catalogue& stock) {
  job::Job bare;
  bare.id = id_of(request.title);
  bare.title = request.title;
  bare.created = request.created;
  bare.site = request.site;
  bare.catalogue = stock;
  bare.luminaires = request.lamps;
  for (const job::Luminaire& lamp : bare.luminaires) {
    if (find_luminaire(stock, lamp.item) == nullptr) {
      return Error{ErrorCode::not_found, fmt::format("The catalogue has no lamp \"{}\".", lamp.item)};
    }
  }
  const std::vector<StarterRun> runs = plan_runs(bare);
  const Result<std::vector<TransformerPlan>> plans = plan_transformers(stock, bare.practice, runs);
  if (!plans) return plans.error();
  add_transformers(bare, plans.value());
  const std::vector<const job::CableItem*> sizes = trunk_sizes(stock, ruleset);
  if (sizes.empty()) return Error{ErrorCode::not_found, "The catalogue has no cable for the ground of a handy size."};
  std::optional<job::Job> best;
  std::size_t least_trouble = 0;
  for (const job::CableItem* size : sizes) {
    job::Job job = laid_out(bare, plans.value(), runs, {size->id, sizes.front()->id});
    choose_taps(job, ruleset, stock);
    const std::size_t trouble = trouble_in(check(job, ruleset, stock, {.cures = false}));
    if (!best || trouble < least_trouble) {
      best = std::move(job);
      least_trouble = trouble;
    }
    if (least_trouble == 0) break;
  }
  prune_catalogue(*best);
  return *std::move(best);
}

}  // namespace duskwire::study
