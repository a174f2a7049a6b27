// SPDX-License-Identifier: Apache-2.0
#include "estimate/variant.hpp"

#include <algorithm>
#include <unordered_map>
#include <vector>

namespace duskwire::estimate {
namespace {

using Ids = std::unordered_set<std::string>;

template <class List, class Test>
void drop_if(List& list, Test test) {
  list.erase(std::remove_if(list.begin(), list.end(), test), list.end());
}

// Takes leaves off the wiring for as long as one of them feeds nothing.
class Pruner {
 public:
  Pruner(const job::Job& job, const Ids& gone) : cut_(job.cables.size()) {
    for (const job::Luminaire& luminaire : job.luminaires) {
      if (!gone.contains(luminaire.id)) fed_.insert(luminaire.id);
      if (!gone.contains(luminaire.id) && !luminaire.joint.empty()) ++leads_[luminaire.joint];
      if (gone.contains(luminaire.id) && !luminaire.joint.empty()) loose_.push_back(luminaire.joint);
    }
    for (const job::Transformer& transformer : job.transformers) {
      for (const job::Output& output : transformer.outputs) outputs_.insert(output.id);
    }
    for (std::size_t i = 0; i < job.cables.size(); ++i) {
      at_[job.cables[i].from].push_back(i);
      at_[job.cables[i].to].push_back(i);
    }
    loose_.insert(loose_.end(), gone.begin(), gone.end());
  }

  void run(const job::Job& job) {
    while (!loose_.empty()) {
      const std::string end = loose_.back();
      loose_.pop_back();
      touched_.insert(end);
      // An output holds its cables as long as they lead somewhere; a light is what they are for.
      if (outputs_.contains(end) || is_lit(end)) continue;
      const std::vector<std::size_t> left = cables_at(end);
      if (left.size() > 1) continue;
      for (const std::size_t cable : left) {
        cut_[cable] = true;
        loose_.push_back(other_end(job.cables[cable], end));
      }
    }
    cut_unlit_loops(job);
  }

  [[nodiscard]] bool is_cut(std::size_t cable) const { return cut_[cable]; }
  [[nodiscard]] bool is_bare(const std::string& end) {
    return touched_.contains(end) && leads_[end] == 0 && cables_at(end).empty();
  }
  [[nodiscard]] std::size_t cable_count(const std::string& end) { return cables_at(end).size(); }

 private:
  static const std::string& other_end(const job::Cable& cable, const std::string& end) {
    return cable.from == end ? cable.to : cable.from;
  }
  [[nodiscard]] bool is_lit(const std::string& end) { return fed_.contains(end) || leads_[end] > 0; }

  // A loop has no leaf to begin at: all that hangs together, outputs aside, goes where none of it is lit any more.
  void cut_unlit_loops(const job::Job& job) {
    Ids seen;
    const std::vector<std::string> begun(touched_.begin(), touched_.end());
    for (const std::string& start : begun) {
      if (outputs_.contains(start) || !seen.insert(start).second) continue;
      std::vector<std::string> island{start};
      bool lit = false;
      for (std::size_t i = 0; i < island.size(); ++i) {
        const std::string end = island[i];
        lit = lit || is_lit(end);
        for (const std::size_t cable : cables_at(end)) {
          const std::string& next = other_end(job.cables[cable], end);
          if (!outputs_.contains(next) && seen.insert(next).second) island.push_back(next);
        }
      }
      if (lit) continue;
      for (const std::string& end : island) {
        touched_.insert(end);
        for (const std::size_t cable : cables_at(end)) {
          cut_[cable] = true;
          touched_.insert(other_end(job.cables[cable], end));
        }
      }
    }
  }

  std::vector<std::size_t> cables_at(const std::string& end) {
    std::vector<std::size_t> left;
    for (const std::size_t cable : at_[end]) {
      if (!cut_[cable]) left.push_back(cable);
    }
    return left;
  }

  std::vector<bool> cut_;
  Ids outputs_;
  Ids fed_;      // luminaires that stay
  Ids touched_;  // ends that something was taken from
  std::unordered_map<std::string, int> leads_;
  std::unordered_map<std::string, std::vector<std::size_t>> at_;
  std::vector<std::string> loose_;
};

}  // namespace

job::Job with_luminaires(job::Job job, const std::unordered_set<std::string>& kept) {
  Ids gone;
  for (const job::Luminaire& luminaire : job.luminaires) {
    if (!kept.contains(luminaire.id)) gone.insert(luminaire.id);
  }
  if (gone.empty()) return job;
  Pruner pruner(job, gone);
  pruner.run(job);
  for (const job::Luminaire& luminaire : job.luminaires) {
    if (!gone.contains(luminaire.id) || pruner.cable_count(luminaire.id) == 0) continue;
    job::Joint joint;
    joint.id = luminaire.id;
    job.joints.push_back(joint);
  }
  drop_if(job.joints, [&](const job::Joint& joint) { return pruner.is_bare(joint.id); });
  drop_if(job.transformers, [&](job::Transformer& transformer) {
    const bool was_used = !transformer.outputs.empty();
    drop_if(transformer.outputs, [&](const job::Output& output) { return pruner.is_bare(output.id); });
    return was_used && transformer.outputs.empty();
  });
  std::vector<job::Cable> left;
  for (std::size_t i = 0; i < job.cables.size(); ++i) {
    if (!pruner.is_cut(i)) left.push_back(std::move(job.cables[i]));
  }
  job.cables = std::move(left);
  drop_if(job.luminaires, [&](const job::Luminaire& luminaire) { return gone.contains(luminaire.id); });
  return job;
}

}  // namespace duskwire::estimate
