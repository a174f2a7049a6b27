// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>

#include "base/currency.hpp"
#include "base/decimal.hpp"
#include "base/nearest.hpp"
#include "cli/commands.hpp"
#include "cli/exact_proof.hpp"
#include "cli/interrupt.hpp"
#include "cli/output_file.hpp"
#include "cli/progress_line.hpp"
#include "cli/route_page.hpp"
#include "cli/session.hpp"
#include "estimate/labour_rates.hpp"
#include "formats/job_writer.hpp"
#include "formats/requests.hpp"
#include "formats/route_json.hpp"
#include "study/route.hpp"

namespace duskwire::cli {
namespace {

using Clock = std::chrono::steady_clock;

constexpr double usual_limit_s = 2;
constexpr auto between_looks = std::chrono::milliseconds(100);

// "38.50" -> 3850 minor units.
Result<std::int64_t> read_labour(const std::string& text, const std::string& currency) {
  const LeadingNumber read = leading_number(text);
  const double minor = read.value * std::pow(10.0, minor_digits(currency));
  if (read.length == 0 || read.length != text.size() || minor < 0 || minor > formats::most_labour_minor_per_h) {
    return Error{ErrorCode::invalid,
                 fmt::format("--labour: \"{}\" was met where an hour's cost in {}, such as 42.50, was expected.", text,
                             currency)};
  }
  return static_cast<std::int64_t>(std::llround(minor));
}

template <class Thing>
std::vector<std::string> ids_of(const std::vector<Thing>& things) {
  std::vector<std::string> ids;
  for (const Thing& thing : things) ids.push_back(thing.id);
  return ids;
}

// A line for each id that the job does not have.
std::string unknown_ids(const char* option, const char* kind, const std::vector<std::string>& asked,
                        const std::vector<std::string>& known) {
  std::string complaint;
  for (const std::string& id : asked) {
    if (std::find(known.begin(), known.end(), id) != known.end()) continue;
    const std::string meant = nearest(id, known);
    complaint += fmt::format("{}: the job has no {} \"{}\".{}\n", option, kind, id,
                             meant.empty() ? "" : fmt::format(" Did you mean {}?", meant));
  }
  return complaint;
}

std::string unknown_pins(const study::RoutePins& pins, const job::Job& job) {
  const std::vector<std::string> cables = ids_of(job.cables);
  return unknown_ids("--keep-cable", "cable", pins.kept_cables, cables) +
         unknown_ids("--no-trench", "cable", pins.forbidden_trenches, cables) +
         unknown_ids("--own-output", "luminaire", pins.own_outputs, ids_of(job.luminaires)) +
         unknown_ids("--keep-transformer", "transformer", pins.kept_transformers, ids_of(job.transformers));
}

Or<study::RouteRequest> request_of(const RouteRequest& request, const job::Job& job) {
  study::RouteRequest asked = request.asked;
  if (std::string unknown = unknown_pins(asked.pins, job); !unknown.empty()) {
    return Outcome{exit_bad_input, "", std::move(unknown)};
  }
  asked.rates = estimate::install_rates(job);
  if (request.labour.empty()) return asked;
  const Result<std::int64_t> read = read_labour(request.labour, job.site.currency);
  if (!read) return refuse(read.error());
  asked.rates.labour_minor_per_h = read.value();
  return asked;
}

double seconds_since(Clock::time_point begun) { return std::chrono::duration<double>(Clock::now() - begun).count(); }

// A limit in seconds, or none where steps are counted: then the answer does not depend on how fast the computer is.
double limit_of(const RouteRequest& request) {
  const double no_limit = std::numeric_limits<double>::infinity();
  return request.limit_s.value_or(request.asked.most_steps > 0 ? no_limit : usual_limit_s);
}

void search(study::Router& router, double limit_s, const job::Site& site, const TextStyle& style) {
  ProgressLine line;
  const Clock::time_point begun = Clock::now();
  const auto is_time_left = [&] { return !Interrupt::met() && seconds_since(begun) < limit_s; };
  bool more = true;
  while (more && is_time_left()) {
    const Clock::time_point look = Clock::now() + between_looks;
    more = router.improve([&] { return is_time_left() && !(line.is_seen() && Clock::now() >= look); });
    line.show(progress_text(router.progress(), seconds_since(begun), site.currency, style));
  }
}

}  // namespace

Outcome route_command(const RouteRequest& request, const Common& common, const TextStyle& style) {
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  const Or<study::Ruleset> loaded = load_ruleset(ruleset_name(session, common), session.style);
  if (const auto* refused = std::get_if<Outcome>(&loaded)) return *refused;
  const Or<study::RouteRequest> asked = request_of(request, session.job);
  if (const auto* refused = std::get_if<Outcome>(&asked)) return *refused;
  if (!common.output.empty()) {
    const Result<bool> writable = may_write(common.output, common.force);
    if (!writable) return refuse(writable.error());
  }

  if (request.exact_s) {
    const Result<bool> has_solver = has_exact_solver();
    if (!has_solver) return refuse(has_solver.error());
  }

  const Interrupt interrupt;
  study::Router router(session.job, std::get<study::Ruleset>(loaded), session.stock,
                       std::get<study::RouteRequest>(asked));
  search(router, limit_of(request), session.job.site, session.style);
  study::RouteAnswer answer = router.answer();
  if (answer.job) answer.job->site.units = session.file_units;

  std::string proof;
  if (request.exact_s && answer.job) proof = exact_proof(router, *request.exact_s);

  Outcome outcome{answer.job ? exit_sound : exit_findings, "", session.remarks};
  if (answer.job) outcome.document = formats::write_job(*answer.job);
  if (common.json && !proof.empty()) outcome.complaint += proof + "\n";
  outcome.text = common.json ? formats::indented_text(formats::route_answer_json(answer)) + "\n"
                             : route_text({session.job, answer, !common.output.empty(), proof}, session.style);
  return outcome;
}

}  // namespace duskwire::cli
