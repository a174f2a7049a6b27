// SPDX-License-Identifier: Apache-2.0
#include "wasm/light_verbs.hpp"

#include <fmt/format.h>

#include "formats/choice_json.hpp"
#include "formats/job_reader.hpp"
#include "formats/level_set_file.hpp"
#include "formats/levels_json.hpp"
#include "formats/light_requests.hpp"
#include "study/choose.hpp"
#include "study/levels.hpp"
#include "wasm/shelf.hpp"

namespace duskwire::wasm {

// A job with errors is lit as far as it can be read, as it is checked.
Reply levels(const std::vector<std::string_view>& given) {
  const formats::ReadJob read = formats::read_job_leniently(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  const auto asked = formats::read_levels_request(given[1]);
  if (!asked.request) return refuse_input("The options of levels", asked.problems);
  const study::LevelSets& sets = formats::embedded_level_sets();
  const study::Levels found = study::levels(*read.job, sets, *asked.request);
  if (find_set(sets, found.targets) == nullptr) {
    return refuse({ErrorCode::not_found, fmt::format("There is no set of levels \"{}\".", found.targets)});
  }
  return {false, formats::compact_text(formats::levels_json(found))};
}

Reply level_sets(const std::vector<std::string_view>&) {
  return {false, formats::compact_text(formats::level_sets_json(formats::embedded_level_sets()))};
}

Reply choose(const std::vector<std::string_view>& given) {
  const formats::ReadJob read = formats::read_job_leniently(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  const auto asked = formats::read_choose_request(given[1]);
  if (!asked.request) return refuse_input("The target", asked.problems);
  const Result<study::Choice> chosen =
      study::choose(*read.job, *asked.request, stock(), formats::embedded_level_sets());
  if (!chosen) return refuse(chosen.error());
  return {false, formats::compact_text(formats::choice_json(chosen.value()))};
}

}  // namespace duskwire::wasm
