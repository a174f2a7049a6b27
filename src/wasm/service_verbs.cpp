// SPDX-License-Identifier: Apache-2.0
#include "wasm/service_verbs.hpp"

#include <variant>

#include "formats/job_reader.hpp"
#include "formats/locate_json.hpp"
#include "formats/locate_requests.hpp"
#include "formats/trace_json.hpp"
#include "study/locate.hpp"
#include "study/trace.hpp"
#include "wasm/shelf.hpp"

namespace duskwire::wasm {
namespace {

using Asked = study::Located (*)(const job::Job&, const study::LocateOptions&);

std::variant<study::Located, Reply> located(const std::vector<std::string_view>& given, Asked ask) {
  const formats::ReadJob read = formats::read_job(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  const auto asked = formats::read_locate_request(given[1]);
  if (!asked.request) return refuse_input("The request", asked.problems);
  return ask(*read.job, *asked.request);
}

}  // namespace

Reply locate(const std::vector<std::string_view>& given) {
  const auto found = located(given, study::locate);
  if (const auto* refused = std::get_if<Reply>(&found)) return *refused;
  return {false, formats::compact_text(formats::locate_json(std::get<study::Located>(found)))};
}

Reply readings(const std::vector<std::string_view>& given) {
  const auto found = located(given, study::readings_beside_plan);
  if (const auto* refused = std::get_if<Reply>(&found)) return *refused;
  return {false, formats::compact_text(formats::readings_json(std::get<study::Located>(found)))};
}

Reply trace(const std::vector<std::string_view>& given) {
  const formats::ReadJob read = formats::read_job(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  const auto asked = formats::read_trace_request(given[1]);
  if (!asked.request) return refuse_input("The walk", asked.problems);
  const study::Traced traced = study::trace(*read.job, stock(), *asked.request);
  if (!traced.job) return refuse_input("The walk", traced.problems);
  return {false, formats::compact_text(formats::trace_json(traced))};
}

}  // namespace duskwire::wasm
