// SPDX-License-Identifier: Apache-2.0
#include "study/cure_candidates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "study/cure_changes.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using job::Change;
using job::ChangeKind;

constexpr std::size_t most_alike = 6;  // candidates of one kind for one trouble

std::string title_of(const job::TransformerItem& item) { return item.title.empty() ? item.id : item.title; }

template <class Value>
void keep_first(std::vector<Value>& values, std::size_t count) {
  if (values.size() > count) values.resize(count);
}

}  // namespace

CureCandidates::CureCandidates(const Trials& trials)
    : trials_(trials), built_(trials.built()), job_(*built_.job), numbers_(trials.numbers()) {
  for (const job::Catalogue* catalogue : {&job_.catalogue, &trials.stock()}) {
    for (const job::CableItem& item : catalogue->cables) {
      const bool known = std::any_of(ladder_.begin(), ladder_.end(),
                                     [&](const job::CableItem* other) { return other->id == item.id; });
      if (!known && item.area_mm2 > 0) ladder_.push_back(&item);
    }
  }
  std::stable_sort(ladder_.begin(), ladder_.end(),
                   [](const job::CableItem* p, const job::CableItem* q) { return p->area_mm2 < q->area_mm2; });
}

std::string CureCandidates::length_words(double length_m) const {
  return worded(length_m, distance_unit(job_.site.units));
}

std::string CureCandidates::free_cable_id(const std::string& wish) const {
  std::string id = wish;
  const auto taken = [&] {
    return std::any_of(job_.cables.begin(), job_.cables.end(), [&](const job::Cable& cable) { return cable.id == id; });
  };
  for (int number = 2; taken(); ++number) id = fmt::format("{}-{}", wish, number);
  return id;
}

Candidates CureCandidates::other_taps(std::uint32_t output, bool higher) const {
  const OutputRef ref = built_.outputs[output];
  const job::Transformer& transformer = job_.transformers[ref.transformer];
  const job::Output& present = transformer.outputs[ref.output];
  const job::TransformerItem* item = job::find_transformer(job_.catalogue, transformer.item);
  if (!item) return {};
  std::vector<double> taps_v;
  for (const double tap_v : item->taps_v) {
    if (higher ? tap_v > present.tap_v : tap_v < present.tap_v) taps_v.push_back(tap_v);
  }
  std::sort(taps_v.begin(), taps_v.end(), [&](double p, double q) { return higher ? p < q : p > q; });
  Candidates candidates;
  for (const double tap_v : taps_v) {
    candidates.push_back(
        {fmt::format("Tap {:g} on {}", tap_v, present.id), {number_change(ChangeKind::set_tap, present.id, tap_v)}});
  }
  return candidates;
}

std::vector<std::uint32_t> CureCandidates::path_cables(std::uint32_t node) const {
  struct Win {
    std::uint32_t cable = 0;
    double volts = 0;
  };
  std::vector<Win> wins;
  for (std::uint32_t at = node; built_.supply[at].parent_segment != none; at = built_.parent_node(at)) {
    const std::uint32_t s = built_.supply[at].parent_segment;
    const Wire& wire = built_.wires[s];
    if (wire.is_lead) continue;
    const job::CableItem* item = job::find_cable(job_.catalogue, job_.cables[wire.index].item);
    const job::CableItem* next = item ? thicker_item(*item, 1) : nullptr;
    if (!next) continue;
    wins.push_back({wire.index, numbers_.segments[s].drop_v * (1 - item->area_mm2 / next->area_mm2)});
  }
  std::stable_sort(wins.begin(), wins.end(), [](const Win& p, const Win& q) { return p.volts > q.volts; });
  std::vector<std::uint32_t> cables;
  for (const Win& win : wins) cables.push_back(win.cable);
  return cables;
}

// The next size of the same family: gauges stay gauges, square millimetres stay those.
const job::CableItem* CureCandidates::thicker_item(const job::CableItem& item, int steps) const {
  const job::CableItem* found = nullptr;
  double area_mm2 = item.area_mm2;
  constexpr double same_area = 1.005;
  for (const job::CableItem* other : ladder_) {
    const bool alike = other->gauge_awg.has_value() == item.gauge_awg.has_value() &&
                       (other->direct_burial || !item.direct_burial) && other->ohm_per_m_20c > 0;
    if (!alike || other->area_mm2 <= area_mm2 * same_area) continue;
    found = other;
    area_mm2 = other->area_mm2;
    if (--steps == 0) return found;
  }
  return nullptr;
}

Candidate CureCandidates::thicker(const std::vector<std::uint32_t>& cables, int steps) const {
  Candidate candidate;
  std::vector<std::string> names;
  std::string sizes;
  double length_m = 0;
  for (const std::uint32_t c : cables) {
    const job::Cable& cable = job_.cables[c];
    const job::CableItem* item = job::find_cable(job_.catalogue, cable.item);
    const job::CableItem* next = item ? thicker_item(*item, steps) : nullptr;
    if (!next) continue;
    const std::string size = fmt::format("{} instead of {}", conductor_words(*next, job_.site.units),
                                         conductor_words(*item, job_.site.units));
    if (sizes.empty()) sizes = size;
    if (sizes != size) sizes = fmt::format("{} thicker", counted(static_cast<std::size_t>(steps), "size"));
    candidate.changes.push_back(text_change(ChangeKind::set_cable_item, cable.id, next->id));
    names.push_back(cable.id);
    length_m += built_.wires[built_.segment_of_cable[c]].length_m;
  }
  candidate.action = fmt::format("{} on {} ({})", sizes, listed(names), length_words(length_m));
  return candidate;
}

Candidates CureCandidates::home_runs(std::uint32_t node) const {
  // From the far end back: each cable that does not begin at an output could.
  std::vector<std::uint32_t> far_ends;
  for (std::uint32_t at = node; built_.supply[at].parent_segment != none; at = built_.parent_node(at)) {
    const std::uint32_t parent = built_.parent_node(at);
    const bool from_output = parent < built_.joint_base;
    if (!from_output && !built_.wires[built_.supply[at].parent_segment].is_lead) far_ends.push_back(at);
  }
  // The cut that takes most of the load off the old run is in the upper half: look there, evenly.
  std::vector<std::uint32_t> tried;
  const std::size_t stride = std::max<std::size_t>(1, far_ends.size() / 3);
  for (std::size_t i = far_ends.size(); i > 0 && tried.size() < 3; i -= std::min(i, stride)) {
    tried.push_back(far_ends[i - 1]);
  }
  Candidates candidates;
  for (const std::uint32_t at : tried) {
    const OutputRef ref = built_.outputs[built_.supply[at].output];
    const job::Cable& cable = job_.cables[built_.wires[built_.supply[at].parent_segment].index];
    const std::string place = id_of(job_, built_.spot_of_node(at));
    const double run_m = built_.supply[at].distance_m;
    for (const job::Output& sibling : job_.transformers[ref.transformer].outputs) {
      const std::string id = free_cable_id(cable.id + "-home");
      Candidate candidate{
          fmt::format("Instead of {} a run of its own from {} to {} ({} of the same cable)", cable.id, sibling.id,
                      place, length_words(run_m)),
          {text_change(ChangeKind::remove_cable, cable.id, ""), added_cable(id, cable.item, sibling.id, place, run_m)}};
      if (cable.depth_m) candidate.changes.push_back(number_change(ChangeKind::set_depth, id, *cable.depth_m));
      candidates.push_back(std::move(candidate));
    }
  }
  return candidates;
}

std::vector<std::uint32_t> CureCandidates::first_cables(std::uint32_t output) const {
  struct Run {
    std::uint32_t cable = 0;
    double current_a = 0;
  };
  std::vector<Run> runs;
  const electrical::Network& network = electrical::network_of(*built_.prepared);
  for (std::uint32_t s = 0; s < network.segments.size(); ++s) {
    const bool at_output = network.segments[s].from == output || network.segments[s].to == output;
    if (at_output && !built_.wires[s].is_lead) runs.push_back({built_.wires[s].index, numbers_.segments[s].current_a});
  }
  std::stable_sort(runs.begin(), runs.end(), [](const Run& p, const Run& q) { return p.current_a > q.current_a; });
  std::vector<std::uint32_t> cables;
  for (const Run& run : runs) cables.push_back(run.cable);
  keep_first(cables, most_alike);
  return cables;
}

Candidates CureCandidates::other_outputs(std::uint32_t output) const {
  const OutputRef ref = built_.outputs[output];
  const std::string& own = job_.transformers[ref.transformer].outputs[ref.output].id;
  Candidates candidates;
  for (const std::uint32_t c : first_cables(output)) {
    const job::Cable& cable = job_.cables[c];
    for (const job::Output& sibling : job_.transformers[ref.transformer].outputs) {
      if (sibling.id == own) continue;
      candidates.push_back({fmt::format("Move {} from {} to {}", cable.id, own, sibling.id),
                            {moved_end(cable.id, cable.from == own ? "from" : "to", sibling.id)}});
    }
  }
  return candidates;
}

Candidates CureCandidates::other_joints(std::uint32_t luminaire) const {
  const job::Luminaire& lamp = job_.luminaires[luminaire];
  const job::LuminaireItem* item = job::find_luminaire(job_.catalogue, lamp.item);
  const bool fed_by_cable = lamp.joint.empty() && built_.supply[built_.node_of_luminaire(luminaire)].output != none;
  if (fed_by_cable || !lamp.position || !item) return {};
  const double reach_m = lamp.lead_length_m.value_or(item->lead_length_m);
  const double own_v = numbers_.lamps[luminaire].nominal_v;
  struct Near {
    double volts = 0;
    const job::Joint* joint = nullptr;
  };
  std::vector<Near> near;
  for (std::uint32_t j = 0; j < job_.joints.size(); ++j) {
    const job::Joint& joint = job_.joints[j];
    const double joint_v = numbers_.node_v[built_.joint_base + j];
    if (!joint.position || joint.id == lamp.joint || joint_v <= own_v) continue;
    const double away_m = geometry::distance_m(*joint.position, {lamp.position->x_m, lamp.position->y_m});
    if (away_m <= reach_m) near.push_back({joint_v, &joint});
  }
  std::stable_sort(near.begin(), near.end(), [](const Near& p, const Near& q) { return p.volts > q.volts; });
  Candidates candidates;
  for (const Near& place : near) {
    Change change;
    change.kind = ChangeKind::move_luminaire_joint;
    change.target = lamp.id;
    change.other = place.joint->id;
    candidates.push_back(
        {fmt::format("Hang {} on {}, within reach of its lead", lamp.id, called(place.joint->id, place.joint->name)),
         {change}});
  }
  keep_first(candidates, most_alike);
  return candidates;
}

Candidates CureCandidates::larger_transformers(std::uint32_t transformer, double needed_va) const {
  const job::Transformer& unit = job_.transformers[transformer];
  const job::TransformerItem* present = job::find_transformer(job_.catalogue, unit.item);
  std::vector<const job::TransformerItem*> items;
  for (const job::TransformerItem& item : trials_.stock().transformers) {
    const bool more = !present || item.rating_va > present->rating_va || item.output_count > present->output_count;
    const bool same_places =
        !present || ((item.outdoor_listed || !present->outdoor_listed) && (item.pool_listed || !present->pool_listed));
    if (item.id == unit.item || !more || !same_places || item.rating_va < needed_va) continue;
    if (item.output_count >= unit.outputs.size()) items.push_back(&item);
  }
  std::stable_sort(items.begin(), items.end(), [](const job::TransformerItem* p, const job::TransformerItem* q) {
    return p->price_minor < q->price_minor;
  });
  keep_first(items, most_alike);
  Candidates candidates;
  for (const job::TransformerItem* item : items) {
    candidates.push_back({fmt::format("{} for {}", title_of(*item), unit.id),
                          {text_change(ChangeKind::set_transformer_item, unit.id, item->id)}});
  }
  return candidates;
}

Candidates CureCandidates::added_outputs(std::uint32_t output) const {
  const OutputRef ref = built_.outputs[output];
  const job::Transformer& unit = job_.transformers[ref.transformer];
  const job::Output& own = unit.outputs[ref.output];
  Candidates bases;
  const job::TransformerItem* present = job::find_transformer(job_.catalogue, unit.item);
  if (present && present->output_count > unit.outputs.size()) {
    bases.push_back({"", {text_change(ChangeKind::set_transformer_item, unit.id, unit.item)}});
  }
  for (Candidate& larger : larger_transformers(ref.transformer, 0)) bases.push_back(std::move(larger));
  Candidates candidates;
  for (const Candidate& base : bases) {
    const Result<job::Job> grown = job::apply(job_, base.changes, trials_.stock());
    if (!grown || grown.value().transformers[ref.transformer].outputs.size() <= unit.outputs.size()) continue;
    const std::string added = grown.value().transformers[ref.transformer].outputs[unit.outputs.size()].id;
    for (const std::uint32_t c : first_cables(output)) {
      const job::Cable& cable = job_.cables[c];
      Candidate candidate = base;
      candidate.action += fmt::format("{}{} from {} to a new output {} on tap {:g}",
                                      base.action.empty() ? "Move " : " and move ", cable.id, own.id, added, own.tap_v);
      candidate.changes.push_back(number_change(ChangeKind::set_tap, added, own.tap_v));
      candidate.changes.push_back(moved_end(cable.id, cable.from == own.id ? "from" : "to", added));
      candidates.push_back(std::move(candidate));
    }
  }
  keep_first(candidates, 2 * most_alike);
  return candidates;
}

Candidates CureCandidates::smaller_breakers(std::uint32_t output) const {
  const OutputNumbers& numbers = numbers_.outputs[output];
  const std::string id = id_of(job_, built_.spot_of_output(output));
  const double allowed = load_shares(job_.practice).output;
  const double limit_a = electrical::network_of(*built_.prepared).outputs[output].limit_a;
  Candidates candidates;
  for (std::size_t i = std::size(breaker_sizes_a); i-- > 0;) {
    const double size_a = breaker_sizes_a[i];
    if (size_a >= limit_a || !breaker_fits(size_a, numbers.worst_current_a, allowed, numbers.far_short_a)) continue;
    candidates.push_back({fmt::format("A breaker of {:g} A on {}", size_a, id),
                          {number_change(ChangeKind::set_output_limit, id, size_a)}});
  }
  return candidates;
}

}  // namespace duskwire::study
