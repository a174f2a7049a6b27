// SPDX-License-Identifier: Apache-2.0
#include "wasm/service_verbs.hpp"

#include <variant>

#include "formats/job_reader.hpp"
#include "formats/locate_json.hpp"
#include "formats/locate_requests.hpp"
#include "study/locate.hpp"

namespace duskwire::wasm {
namespace {

std::variant<study::Located, Reply> located(const std::vector<std::string_view>& given) {
  const formats::ReadJob read = formats::read_job(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  const auto asked = formats::read_locate_request(given[1]);
  if (!asked.request) return refuse_input("The request", asked.problems);
  return study::locate(*read.job, *asked.request);
}

}  // namespace

Reply locate(const std::vector<std::string_view>& given) {
  const auto found = located(given);
  if (const auto* refused = std::get_if<Reply>(&found)) return *refused;
  return {false, formats::compact_text(formats::locate_json(std::get<study::Located>(found)))};
}

Reply readings(const std::vector<std::string_view>& given) {
  const auto found = located(given);
  if (const auto* refused = std::get_if<Reply>(&found)) return *refused;
  return {false, formats::compact_text(formats::readings_json(std::get<study::Located>(found)))};
}

}  // namespace duskwire::wasm
