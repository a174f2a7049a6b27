// SPDX-License-Identifier: Apache-2.0
#include "study/crew_runs.hpp"

#include <algorithm>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "estimate/cable_length.hpp"
#include "estimate/stockroom.hpp"

namespace duskwire::study {
namespace {

using Indices = std::vector<std::uint32_t>;

template <class Row>
std::unordered_map<std::string_view, const Row*> by_id(const std::vector<Row>& rows) {
  std::unordered_map<std::string_view, const Row*> found;
  for (const Row& row : rows) found.emplace(row.id, &row);
  return found;
}

class Walker {
 public:
  Walker(const job::Job& job, const job::Catalogue& stock, const Report& report)
      : job_(job),
        shelf_(job.catalogue, stock),
        ends_(job),
        lamp_reports_(by_id(report.lamps)),
        cable_reports_(by_id(report.cables)),
        output_reports_(by_id(report.outputs)),
        cable_done_(job.cables.size()),
        lamp_done_(job.luminaires.size()) {
    for (std::uint32_t c = 0; c < job.cables.size(); ++c) {
      cables_at_[job.cables[c].from].push_back(c);
      if (job.cables[c].to != job.cables[c].from) cables_at_[job.cables[c].to].push_back(c);
    }
    for (std::uint32_t l = 0; l < job.luminaires.size(); ++l) {
      lamp_index_.emplace(job.luminaires[l].id, l);
      if (!job.luminaires[l].joint.empty()) lamps_at_[job.luminaires[l].joint].push_back(l);
    }
  }

  std::vector<CrewRun> walk() {
    std::vector<CrewRun> runs;
    for (const job::Transformer& transformer : job_.transformers) {
      for (const job::Output& output : transformer.outputs) runs.push_back(run_of(transformer, output));
    }
    CrewRun unfed = rest();
    if (!unfed.steps.empty() || !unfed.lamps.empty()) runs.push_back(std::move(unfed));
    return runs;
  }

 private:
  struct Stop {
    std::string_view place;
    std::uint32_t level = 0;
  };

  CrewRun run_of(const job::Transformer& transformer, const job::Output& output) {
    CrewRun run;
    run.output = output.id;
    run.transformer = transformer.id;
    run.transformer_name = transformer.name;
    run.tap_v = output.tap_v;
    if (const auto found = output_reports_.find(output.id); found != output_reports_.end()) {
      run.terminal_v = found->second->terminal_v;
      run.current_a = found->second->current_a;
      run.limit_a = found->second->limit_a;
    }
    reached_.insert(output.id);
    go_out(run, output.id);
    return run;
  }

  // Depth first, so that a branch stands whole before the next one begins; by a stack of our own, since a run may be
  // as long as a job has cables.
  void go_out(CrewRun& run, std::string_view start) {
    std::vector<std::pair<Stop, std::uint32_t>> open;  // the stop that a cable leaves, and the cable
    push_cables(open, {start, 0});
    while (!open.empty()) {
      const auto [stop, cable] = open.back();
      open.pop_back();
      if (cable_done_[cable]) continue;
      cable_done_[cable] = true;
      const job::Cable& along = job_.cables[cable];
      const std::string_view next = along.from == stop.place ? along.to : along.from;
      const bool is_new = reached_.insert(next).second;
      add_step(run, along, stop, next, !is_new);
      if (is_new) push_cables(open, {next, stop.level + 1});
    }
  }

  void push_cables(std::vector<std::pair<Stop, std::uint32_t>>& open, Stop stop) const {
    const auto found = cables_at_.find(stop.place);
    if (found == cables_at_.end()) return;
    for (auto cable = found->second.rbegin(); cable != found->second.rend(); ++cable) {
      if (!cable_done_[*cable]) open.emplace_back(stop, *cable);
    }
  }

  void add_step(CrewRun& run, const job::Cable& cable, Stop stop, std::string_view next, bool closes_loop) {
    CrewStep step;
    step.cable = cable.id;
    step.item = cable.item;
    const auto picked = shelf_.pick(&job::Catalogue::cables, cable.item);
    step.title = picked ? picked.item->title : cable.item;
    step.from = stop.place;
    step.to = next;
    step.to_name = name_of(step.to);
    step.level = stop.level;
    if (const auto length = estimate::cable_length(job_, ends_, cable)) {
      step.route_m = length->route_m;
      step.cut_m = length->cut_m();
    }
    step.depth_m = cable.depth_m;
    step.sleeve = cable.sleeve;
    if (const auto found = cable_reports_.find(cable.id); found != cable_reports_.end()) {
      step.current_a = found->second->current_a;
      step.to_v = cable.to == next ? found->second->to_v : found->second->from_v;
    }
    step.closes_loop = closes_loop;
    if (!closes_loop) step.lamps = lamps_of(run, next);
    run.route_m += step.route_m.value_or(0);
    run.cut_m += step.cut_m;
    run.steps.push_back(std::move(step));
  }

  [[nodiscard]] std::string name_of(const std::string& id) const {
    const estimate::EndPlace place = ends_.find(id);
    if (place.kind == estimate::EndKind::joint) return job_.joints[place.index].name;
    if (place.kind == estimate::EndKind::luminaire) return job_.luminaires[place.index].name;
    return {};
  }

  // The lamp that stands there itself, then those on leads.
  Indices lamps_of(CrewRun& run, std::string_view place) {
    Indices added;
    if (const auto found = lamp_index_.find(place); found != lamp_index_.end()) add_lamp(run, found->second, added);
    if (const auto found = lamps_at_.find(place); found != lamps_at_.end()) {
      for (const std::uint32_t lamp : found->second) add_lamp(run, lamp, added);
    }
    return added;
  }

  void add_lamp(CrewRun& run, std::uint32_t index, Indices& added) {
    if (lamp_done_[index]) return;
    lamp_done_[index] = true;
    const job::Luminaire& luminaire = job_.luminaires[index];
    CrewLamp lamp;
    lamp.id = luminaire.id;
    lamp.name = luminaire.name;
    lamp.item = luminaire.item;
    lamp.title = luminaire.item;
    lamp.zone = luminaire.zone;
    lamp.at = luminaire.joint;
    if (const auto picked = shelf_.pick(&job::Catalogue::luminaires, luminaire.item)) {
      lamp.title = picked.item->title;
      lamp.kind = picked.item->kind;
      if (!luminaire.joint.empty()) lamp.lead_m = luminaire.lead_length_m.value_or(picked.item->lead_length_m);
    }
    // The report knows the items of the job alone, and that apparent power is never below the true one.
    if (const job::LuminaireItem* item = job::find_luminaire(job_.catalogue, luminaire.item)) {
      const double level = std::clamp(luminaire.dim_pct / 100, 0.0, 1.0);
      lamp.va = level * std::max(item->power_w, item->power_va);
    }
    if (const auto found = lamp_reports_.find(luminaire.id); found != lamp_reports_.end()) {
      const LampReport& report = *found->second;
      lamp.nominal_v = report.nominal_v;
      lamp.worst_low_v = report.worst_low_v;
      lamp.worst_high_v = report.worst_high_v;
      lamp.window_min_v = report.window_min_v;
      lamp.window_max_v = report.window_max_v;
      lamp.current_a = report.current_a;
    }
    run.va += lamp.va;
    added.push_back(static_cast<std::uint32_t>(run.lamps.size()));
    run.lamps.push_back(std::move(lamp));
  }

  // Islands, then lamps that hang on nothing.
  CrewRun rest() {
    CrewRun run;
    for (std::uint32_t c = 0; c < job_.cables.size(); ++c) {
      if (cable_done_[c]) continue;
      if (reached_.insert(job_.cables[c].from).second) lamps_of(run, job_.cables[c].from);
      go_out(run, job_.cables[c].from);
    }
    Indices alone;
    for (std::uint32_t l = 0; l < job_.luminaires.size(); ++l) add_lamp(run, l, alone);
    return run;
  }

  const job::Job& job_;
  estimate::Stockroom shelf_;
  estimate::EndIndex ends_;
  std::unordered_map<std::string_view, const LampReport*> lamp_reports_;
  std::unordered_map<std::string_view, const CableReport*> cable_reports_;
  std::unordered_map<std::string_view, const OutputReport*> output_reports_;
  std::unordered_map<std::string_view, Indices> cables_at_;
  std::unordered_map<std::string_view, Indices> lamps_at_;
  std::unordered_map<std::string_view, std::uint32_t> lamp_index_;
  std::unordered_set<std::string_view> reached_;
  std::vector<bool> cable_done_;
  std::vector<bool> lamp_done_;
};

}  // namespace

std::vector<CrewRun> crew_runs(const job::Job& job, const job::Catalogue& stock, const Report& report) {
  return Walker(job, stock, report).walk();
}

}  // namespace duskwire::study
