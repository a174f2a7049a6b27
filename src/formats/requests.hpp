// SPDX-License-Identifier: Apache-2.0
// What a program asks of the engine beside a job, as JSON: how to check, a quick question, a table of lamps to begin
// from, how to plan the wiring. The keys are those of the structs that they fill.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "job/site.hpp"
#include "study/ask.hpp"
#include "study/route.hpp"

namespace duskwire::formats {

struct CheckRequest {
  bool cures = true;
  std::string ruleset;  // id; empty: as the job says
};

struct AskRequest {
  study::Question question;  // without the lists to choose from
  job::DisplayUnits units = job::DisplayUnits::metric;
};

struct StartRequest {
  std::string title = "New garden";
  std::string created;
  job::Site site;
  std::string lamps_csv;
};

// Bounds of what a plan of the wiring may be asked.
inline constexpr double most_reserve_pct = 400;
inline constexpr double most_cable_types = 24;
inline constexpr double most_whole = 9'007'199'254'740'991;  // up to here every JSON reader has the same whole numbers
inline constexpr double most_labour_minor_per_h = 1e9;

// A request only where no problem is an error.
template <class Request>
struct ReadRequest {
  std::optional<Request> request;
  Problems problems;
};

[[nodiscard]] ReadRequest<CheckRequest> read_check_request(std::string_view text);
[[nodiscard]] ReadRequest<AskRequest> read_ask_request(std::string_view text);
[[nodiscard]] ReadRequest<StartRequest> read_start_request(std::string_view text);
// What the request leaves open of the rates is as the job's offer says, where it does.
[[nodiscard]] ReadRequest<study::RouteRequest> read_route_request(std::string_view text, const job::Job& job);

}  // namespace duskwire::formats
