// SPDX-License-Identifier: Apache-2.0
// How things of a job are called in text: the id, with the name that a person gave where there is one.
#pragma once

#include <map>
#include <string>

#include "job/job.hpp"

namespace duskwire::cli {

class Names {
 public:
  explicit Names(const job::Job& job);

  // The given name, or "".
  [[nodiscard]] std::string name(const std::string& id) const;
  // "F7 (Hawthorn, from the lawn)", or "F7".
  [[nodiscard]] std::string called(const std::string& id) const;

 private:
  std::map<std::string, std::string> names_;
};

}  // namespace duskwire::cli
