// SPDX-License-Identifier: Apache-2.0
#include "wasm/times_verb.hpp"

#include "formats/job_reader.hpp"
#include "formats/times_json.hpp"
#include "study/times.hpp"
#include "wasm/shelf.hpp"

namespace duskwire::wasm {

Reply times(const std::vector<std::string_view>& given) {
  const formats::ReadJob read = formats::read_job_leniently(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  const auto asked = formats::read_times_request(given[1]);
  if (!asked.request) return refuse_input("The request for times", asked.problems);
  return {false, formats::compact_text(formats::times_json(study::times(*read.job, stock(), *asked.request)))};
}

}  // namespace duskwire::wasm
