// SPDX-License-Identifier: Apache-2.0
#include "study/care_dates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string_view>
#include <tuple>
#include <utility>

namespace duskwire::study {
namespace {

using almanac::Date;

constexpr std::string_view spring_work =
    "Straighten and aim. Clean lenses. Prune what grows over lights. Cover bare cable. Loosen tree mounts. Tighten "
    "terminals. Test the clock. Write down volts and amperes and compare with the last visit.";
constexpr std::string_view autumn_work =
    "Clear leaves from lights in the ground. Clean lenses. Look at gaskets and joints in reach. Test the clock and set "
    "its winter programme. Write down volts and amperes and compare with the last visit.";

int number(const std::string& text, std::size_t at, std::size_t length) {
  return std::atoi(text.substr(at, length).c_str());
}

// The date of "2026-03-08" or of a time that begins so; the reader has checked its form.
std::optional<Date> date_of_text(const std::string& text) {
  if (text.size() < 10) return std::nullopt;
  const Date date = almanac::make_date(number(text, 0, 4), static_cast<unsigned>(number(text, 5, 2)),
                                       static_cast<unsigned>(number(text, 8, 2)));
  return date.ok() ? std::optional(date) : std::nullopt;
}

// Seconds ahead of UTC that the end of "...T19:30Z" or "...T19:30:00-05:00" says; nothing where it says none.
std::optional<std::int32_t> stated_offset_s(std::string_view time) {
  if (time.ends_with('Z')) return 0;
  const std::size_t sign = time.find_last_of("+-");
  if (sign == std::string_view::npos || time.size() < sign + 6) return std::nullopt;
  const std::string text(time.substr(sign));
  const std::int32_t size_s = number(text, 1, 2) * 3600 + number(text, 4, 2) * 60;
  return time[sign] == '-' ? -size_s : size_s;
}

// A time without an offset is the site's.
std::optional<std::int64_t> start_of(const std::string& text, const almanac::Zone& zone) {
  const std::optional<Date> date = date_of_text(text);
  if (!date || text.size() < 16 || text[10] != 'T') return std::nullopt;
  const std::int32_t second = number(text, 11, 2) * 3600 + number(text, 14, 2) * 60;
  if (const auto offset_s = stated_offset_s(std::string_view(text).substr(11))) {
    return almanac::day_number(*date) * almanac::seconds_per_day + second - *offset_s;
  }
  return almanac::moment_of(zone, *date, second).utc_s;
}

constexpr const char* visit_titles[] = {"Survey",    "Installation", "Commissioning", "Night visit",
                                        "Hand-over", "Care visit",   "Service call",  "Visit"};

bool has_clock(const job::Job& job, job::ControlKind kind) {
  for (const job::Transformer& transformer : job.transformers) {
    for (const std::string& id : transformer.controls) {
      const auto& items = job.catalogue.controls;
      const auto item = std::find_if(items.begin(), items.end(), [&](const auto& each) { return each.id == id; });
      if (item != items.end() && item->kind == kind) return true;
    }
  }
  return false;
}

Date years_later(const Date& date, double years) {
  const auto months = std::chrono::months{std::lround(years * 12)};
  Date later = date + months;
  if (!later.ok()) later = later.year() / later.month() / std::chrono::last;  // 29 February
  return later;
}

class Collector {
 public:
  Collector(const job::Job& job, const almanac::Zone& zone, int first_year, int last_year)
      : job_(job), zone_(zone), first_year_(first_year), last_year_(last_year) {}

  std::vector<CareDate> collect() {
    visits();
    offer();
    if (const auto start = handed_over(job_)) {
      care(*start);
      warranties(*start);
    }
    clocks();
    std::sort(list_.begin(), list_.end(),
              [](const CareDate& a, const CareDate& b) { return std::tie(a.date, a.id) < std::tie(b.date, b.id); });
    return std::move(list_);
  }

 private:
  void add(std::string id, CareKind kind, const Date& date, std::string title, std::string text) {
    list_.push_back({std::move(id), kind, date, std::nullopt, std::move(title), std::move(text)});
  }

  [[nodiscard]] bool asked_for(const Date& date) const {
    const int year = static_cast<int>(date.year());
    return year >= first_year_ && year <= last_year_;
  }

  void visits() {
    for (std::size_t i = 0; i < job_.visits.size(); ++i) {
      const job::Visit& visit = job_.visits[i];
      const std::optional<Date> date = date_of_text(visit.date);
      if (!date) continue;
      const char* title = visit_titles[static_cast<std::size_t>(visit.kind)];
      std::string text = visit.by.empty() ? "" : "By " + visit.by + ".";
      if (!visit.notes.empty()) text += (text.empty() ? "" : "\n") + visit.notes;
      add(fmt::format("visit-{}", i + 1), CareKind::visit, *date, title, std::move(text));
      list_.back().start_utc_s = start_of(visit.date, zone_);
      if (list_.back().start_utc_s) list_.back().date = almanac::local_time(zone_, *list_.back().start_utc_s).date;
    }
  }

  void offer() {
    if (!job_.offer || !job_.offer->terms.valid_days) return;
    const std::optional<Date> date = date_of_text(job_.offer->date);
    if (!date) return;
    add("offer-end", CareKind::offer_end, almanac::later_by(*date, std::llround(*job_.offer->terms.valid_days)),
        "The offer ends", fmt::format("Offer {} of {} stands until this day.", job_.offer->number, job_.offer->date));
  }

  // Twice a year, the first time half a year after the hand-over at the earliest; south of the equator turned about.
  void care(const Date& start) {
    const bool south = job_.site.latitude_deg.value_or(0) < 0;
    const Date first = start + std::chrono::months{5};
    for (int year = std::max(first_year_, static_cast<int>(start.year())); year <= last_year_; ++year) {
      for (const bool april : {true, false}) {
        const Date date = almanac::make_date(year, april ? 4 : 10, 15);
        if (date < first) continue;
        const bool spring = april != south;
        add(fmt::format("care-{}-{}", year, spring ? "spring" : "autumn"), CareKind::care, date,
            spring ? "Care visit, spring" : "Care visit, autumn", std::string(spring ? spring_work : autumn_work));
      }
    }
  }

  void warranties(const Date& start) {
    if (!job_.offer) return;
    const auto& list = job_.offer->terms.warranties;
    for (std::size_t i = 0; i < list.size(); ++i) {
      const Date end = years_later(start, list[i].years);
      if (!asked_for(end)) continue;
      add(fmt::format("warranty-{}", i + 1), CareKind::warranty_end, end,
          fmt::format("Warranty ends: {}", list[i].subject),
          fmt::format("{:g} years from {}. Report faults before.", list[i].years, almanac::date_text(start)));
    }
  }

  // A mechanical timer does not know that clocks change; others are worth a look.
  void clocks() {
    if (!has_clock(job_, job::ControlKind::mechanical_timer)) return;
    for (int year = first_year_; year <= last_year_; ++year) {
      for (const almanac::ClockChange& change : almanac::clock_changes(zone_, year)) {
        add(fmt::format("clock-{}", almanac::date_text(change.date)), CareKind::set_clock, change.date,
            "Set the lighting timer",
            fmt::format("Clocks go {} by {:g} min today. A mechanical timer has to be set by hand.",
                        change.by_s > 0 ? "forward" : "back", std::abs(change.by_s) / 60.0));
      }
    }
  }

  const job::Job& job_;
  const almanac::Zone& zone_;
  int first_year_;
  int last_year_;
  std::vector<CareDate> list_;
};

}  // namespace

std::optional<Date> handed_over(const job::Job& job) {
  for (const job::VisitKind kind :
       {job::VisitKind::hand_over, job::VisitKind::commissioning, job::VisitKind::installation}) {
    std::optional<Date> last;
    for (const job::Visit& visit : job.visits) {
      if (visit.kind != kind) continue;
      const std::optional<Date> date = date_of_text(visit.date);
      if (date && (!last || *date > *last)) last = date;
    }
    if (last) return last;
  }
  return std::nullopt;
}

std::vector<CareDate> care_dates(const job::Job& job, const almanac::Zone& zone, int first_year, int last_year) {
  return Collector(job, zone, first_year, last_year).collect();
}

}  // namespace duskwire::study
