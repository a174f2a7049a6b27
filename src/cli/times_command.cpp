// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <chrono>
#include <cmath>

#include "base/currency.hpp"
#include "base/decimal.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "cli/times_page.hpp"
#include "formats/care_calendar.hpp"
#include "formats/times_json.hpp"
#include "study/times.hpp"
#include "zones/zone_table.hpp"

namespace duskwire::cli {
namespace {

// A calendar is of use for some years ahead.
constexpr int calendar_years = 5;

std::int64_t now_utc_s() {
  return std::chrono::duration_cast<std::chrono::seconds>(std::chrono::system_clock::now().time_since_epoch()).count();
}

int this_year(const almanac::Zone& zone) {
  return static_cast<int>(almanac::local_time(zone, now_utc_s()).date.year());
}

// A price of a kilowatt-hour as typed, "0.18".
Result<std::optional<almanac::Tariff>> read_tariff(const std::string& text, const std::string& currency) {
  if (text.empty()) return std::optional<almanac::Tariff>();
  const LeadingNumber read = leading_number(text);
  constexpr double most = 1000;
  if (read.length == 0 || read.length != text.size() || read.value < 0 || read.value > most) {
    return Error{ErrorCode::invalid,
                 fmt::format("--kwh-price: \"{}\" was met where the price of a kWh in {}, such as 0.18, was expected.",
                             text, currency)};
  }
  return std::optional(almanac::Tariff{read.value * std::pow(10.0, minor_digits(currency)), {}});
}

Result<almanac::Zone> zone_for(const job::Job& job, const TimesRequest& request) {
  if (job.site.time_zone.empty()) {
    return Error{ErrorCode::invalid,
                 "The site has no time zone. Give it an IANA name as /site/time_zone, such as America/Chicago."};
  }
  int first_year = request.year.value_or(0);
  if (!request.year) {
    const Result<almanac::Zone> wide = zones::zone_of(job.site.time_zone, 2000, zones::last_known_year);
    if (!wide) return wide.error();
    first_year = this_year(wide.value());
  }
  const int last_year =
      request.calendar_file.empty() ? first_year : std::min(first_year + calendar_years - 1, zones::last_known_year);
  return zones::zone_of(job.site.time_zone, first_year, std::max(first_year, last_year));
}

}  // namespace

Outcome times_command(const TimesRequest& request, const Common& common, const TextStyle& style) {
  const Or<Session> opened = open_session(request.job, common, style);
  if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
  const auto& session = std::get<Session>(opened);
  const Result<almanac::Zone> zone = zone_for(session.job, request);
  if (!zone) return refuse(zone.error());
  const auto tariff = read_tariff(request.kwh_price, session.job.site.currency);
  if (!tariff) return refuse(tariff.error());

  const int year = request.year.value_or(this_year(zone.value()));
  const study::TimesRequest asked{year, zone.value(), tariff.value(), common.json || request.full};
  const study::Times times = study::times(session.job, session.stock, asked);
  Outcome outcome{times.sound ? exit_sound : exit_findings, "", session.remarks};
  if (!request.calendar_file.empty()) {
    const auto dates = study::care_dates(session.job, zone.value(), year, year + calendar_years - 1);
    outcome.document = formats::calendar_text(formats::care_calendar(session.job, dates, zone.value(), now_utc_s()));
  }
  outcome.text = common.json ? formats::compact_text(formats::times_json(times)) + "\n"
                             : times_text(session.job, times, request.full, session.style);
  return outcome;
}

}  // namespace duskwire::cli
