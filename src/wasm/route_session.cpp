// SPDX-License-Identifier: Apache-2.0
#include "wasm/route_session.hpp"

#include <fmt/format.h>

#include <chrono>
#include <optional>

#include "formats/job_reader.hpp"
#include "formats/json_text.hpp"
#include "formats/requests.hpp"
#include "formats/route_json.hpp"
#include "study/route.hpp"
#include "wasm/shelf.hpp"

namespace duskwire::wasm {
namespace {

using Clock = std::chrono::steady_clock;

// A worker that is away for longer cannot be told to stop.
constexpr double longest_ms = 60'000;

std::optional<study::Router>& search() {
  static std::optional<study::Router> router;
  return router;
}

Reply no_search() { return refuse({ErrorCode::not_found, "No wiring is being planned: begin with \"route_begin\"."}); }

Reply progress_of(const study::Router& router, bool more) {
  return {false, formats::compact_text(formats::route_progress_json(router.progress(), more))};
}

std::optional<std::chrono::duration<double, std::milli>> read_duration(std::string_view text) {
  const formats::ParsedText parsed = formats::parse_text(text);
  if (!parsed.tree || !parsed.problems.empty() || !parsed.tree->is_number()) return std::nullopt;
  const double milliseconds = parsed.tree->get<double>();
  if (!(milliseconds >= 0 && milliseconds <= longest_ms)) return std::nullopt;
  return std::chrono::duration<double, std::milli>(milliseconds);
}

}  // namespace

Reply route_begin(const Texts& given) {
  search().reset();
  const formats::ReadJob read = formats::read_job(given[0]);
  if (!read.job) return refuse_input("The job", read.problems);
  const auto asked = formats::read_route_request(given[1], *read.job);
  if (!asked.request) return refuse_input("What is asked of the plan", asked.problems);
  const std::string& wanted = read.job->site.ruleset;
  const study::Ruleset* ruleset = ruleset_of(wanted);
  if (!ruleset) return refuse({ErrorCode::not_found, fmt::format("There is no ruleset \"{}\".", wanted)});
  search().emplace(*read.job, *ruleset, stock(), *asked.request);
  return progress_of(*search(), true);
}

Reply route_search(const Texts& given) {
  const auto duration = read_duration(given[0]);
  if (!duration) {
    return refuse({ErrorCode::invalid,
                   fmt::format("The time to search for is a number of milliseconds, 0 to {:.0f}.", longest_ms)});
  }
  if (!search()) return no_search();
  const Clock::time_point begun = Clock::now();
  const bool more = search()->improve([&] { return Clock::now() - begun < *duration; });
  return progress_of(*search(), more);
}

Reply route_answer(const Texts&) {
  if (!search()) return no_search();
  return {false, formats::compact_text(formats::route_answer_json(search()->answer()))};
}

Reply route_end(const Texts&) {
  search().reset();
  return {false, "{}"};
}

}  // namespace duskwire::wasm
