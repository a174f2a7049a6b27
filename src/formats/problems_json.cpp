// SPDX-License-Identifier: Apache-2.0
#include "formats/problems_json.hpp"

#include "formats/enum_names.hpp"

namespace duskwire::formats {

Json problems_json(const Problems& problems) {
  constexpr auto severities = names(Of<Severity>{});
  Json list = Json::array();
  for (const Problem& problem : problems) {
    list.push_back({{"severity", severities.at(static_cast<std::size_t>(problem.severity))},
                    {"pointer", problem.pointer},
                    {"value", problem.value},
                    {"expected", problem.expected},
                    {"message", problem.message}});
  }
  return list;
}

}  // namespace duskwire::formats
