// SPDX-License-Identifier: Apache-2.0
// Ids for what a plan adds, none of which the job has had. Internal to the room.
#pragma once

#include <fmt/format.h>

#include <string>
#include <unordered_map>
#include <unordered_set>

#include "job/job.hpp"

namespace duskwire::study {

class RouteIds {
 public:
  explicit RouteIds(const job::Job& job) {
    for (const auto& transformer : job.transformers) {
      taken_.insert(transformer.id);
      for (const auto& output : transformer.outputs) taken_.insert(output.id);
    }
    for (const auto& luminaire : job.luminaires) taken_.insert(luminaire.id);
    for (const auto& cable : job.cables) taken_.insert(cable.id);
    for (const auto& joint : job.joints) taken_.insert(joint.id);
    for (const auto& sleeve : job.plan.sleeves) taken_.insert(sleeve.id);
  }

  std::string transformer() { return numbered("T"); }
  std::string joint() { return numbered("J"); }
  std::string sleeve() { return numbered("sleeve-"); }
  // "T1-A.3": the third cable on output T1-A.
  std::string cable(const std::string& output) { return numbered(output + "."); }
  std::string output(const std::string& transformer) {
    for (std::size_t i = 0;; ++i) {
      const std::string tail = i < 26 ? std::string(1, static_cast<char>('A' + i)) : std::to_string(i + 1);
      std::string id = fmt::format("{}-{}", transformer, tail);
      if (taken_.insert(id).second) return id;
    }
  }

 private:
  std::string numbered(const std::string& start) {
    std::size_t& number = last_[start];
    for (;;) {
      std::string id = start + std::to_string(++number);
      if (taken_.insert(id).second) return id;
    }
  }
  std::unordered_set<std::string> taken_;
  std::unordered_map<std::string, std::size_t> last_;
};

}  // namespace duskwire::study
