// SPDX-License-Identifier: Apache-2.0
#include "study/times_programme.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <string_view>
#include <unordered_set>

namespace duskwire::study {
namespace {

using almanac::SwitchAt;

constexpr std::string_view weekdays[] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};
constexpr std::string_view months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

// The reader has checked the forms "HH:MM" and "MM-DD".
std::int32_t clock_s(const std::string& time) {
  if (time.size() < 5) return 0;
  return (std::atoi(time.substr(0, 2).c_str()) * 60 + std::atoi(time.substr(3, 2).c_str())) * 60;
}

unsigned month_day_number(const std::string& text, unsigned absent) {
  if (text.size() < 5) return absent;
  return static_cast<unsigned>(std::atoi(text.substr(0, 2).c_str()) * 100 + std::atoi(text.substr(3, 2).c_str()));
}

almanac::SwitchMoment moment(const job::SwitchRule& rule) {
  const auto offset_s = static_cast<std::int32_t>(std::lround(rule.offset_min.value_or(0) * 60));
  switch (rule.at) {
    case job::SwitchBase::clock:
      return {SwitchAt::clock, clock_s(rule.time), 0};
    case job::SwitchBase::sunset:
      return {SwitchAt::sunset, 0, offset_s};
    case job::SwitchBase::sunrise:
      return {SwitchAt::sunrise, 0, offset_s};
  }
  return {};
}

almanac::ProgrammeRule rule_of(const job::ProgrammeEntry& entry) {
  almanac::ProgrammeRule rule;
  rule.on = moment(entry.on);
  rule.off = moment(entry.off);
  rule.level = std::clamp(entry.dim_pct / 100, 0.0, 1.0);
  if (!entry.days.empty()) {
    rule.weekdays = 0;
    for (std::size_t day = 0; day < 7; ++day) {
      const bool named = std::find(entry.days.begin(), entry.days.end(), weekdays[day]) != entry.days.end();
      if (named) rule.weekdays = static_cast<std::uint8_t>(rule.weekdays | 1u << day);
    }
  }
  if (!entry.from_day.empty() || !entry.to_day.empty()) {
    rule.season = almanac::Season{month_day_number(entry.from_day, 101), month_day_number(entry.to_day, 1231)};
  }
  return rule;
}

std::string moment_words(const job::SwitchRule& rule) {
  if (rule.at == job::SwitchBase::clock) return rule.time;
  const char* base = rule.at == job::SwitchBase::sunset ? "sunset" : "sunrise";
  const double offset_min = rule.offset_min.value_or(0);
  if (offset_min == 0) return base;
  return fmt::format("{} {} {:g} min", base, offset_min < 0 ? "-" : "+", std::abs(offset_min));
}

std::string day_words(const std::string& month_day) {
  const unsigned number = month_day_number(month_day, 101);
  return fmt::format("{} {}", number % 100, months[std::clamp(number / 100, 1u, 12u) - 1]);
}

bool names(const std::vector<std::string>& list, const std::string& id) {
  return list.empty() || std::find(list.begin(), list.end(), id) != list.end();
}

bool has_control(const job::Job& job, const job::Transformer& transformer, job::ControlKind kind) {
  return std::any_of(transformer.controls.begin(), transformer.controls.end(), [&](const std::string& id) {
    const auto& items = job.catalogue.controls;
    const auto item = std::find_if(items.begin(), items.end(), [&](const auto& each) { return each.id == id; });
    return item != items.end() && item->kind == kind;
  });
}

class ProgrammeReader {
 public:
  ProgrammeReader(const job::Job& job, const std::vector<std::uint32_t>& transformer_of)
      : job_(job), transformer_of_(transformer_of) {}

  TimedProgramme read() {
    result_.rules_of.resize(job_.luminaires.size());
    for (std::size_t i = 0; i < job_.programme.size(); ++i) entry(i);
    without_entry();
    controls();
    return std::move(result_);
  }

 private:
  void entry(std::size_t index) {
    const job::ProgrammeEntry& each = job_.programme[index];
    result_.rules.push_back(rule_of(each));
    std::vector<std::uint32_t> lamps;
    for (std::uint32_t l = 0; l < job_.luminaires.size(); ++l) {
      if (!switches(each, l)) continue;
      lamps.push_back(l);
      result_.rules_of[l].push_back(static_cast<std::uint32_t>(index));
    }
    const std::string pointer = fmt::format("/programme/{}", index);
    if (lamps.empty()) {
      add("times/no-lamps", Severity::warning, each.id, pointer,
          fmt::format("The entry \"{}\" switches no light: no luminaire has its zones and hangs on its transformers.",
                      each.id));
    }
    if (each.from_day.empty() != each.to_day.empty()) {
      add("times/half-a-season", Severity::warning, each.id, pointer,
          fmt::format("The season of \"{}\" has only one of its two days. It is taken to {}. Give both.", each.id,
                      each.from_day.empty() ? "begin on 1 January" : "end on 31 December"));
    }
    odd_moments(each, pointer);
    result_.lamps.push_back(std::move(lamps));
  }

  void odd_moments(const job::ProgrammeEntry& each, const std::string& pointer) {
    const bool clocks = each.on.at == job::SwitchBase::clock && each.off.at == job::SwitchBase::clock;
    if (clocks && each.on.time == each.off.time) {
      add("times/same-time", Severity::warning, each.id, pointer,
          fmt::format("\"{}\" goes on and off at {}: it burns day and night. Give it two different times.", each.id,
                      each.on.time));
    }
    if (each.on.at == job::SwitchBase::sunrise && each.off.at == job::SwitchBase::sunset) {
      add("times/by-day", Severity::warning, each.id, pointer,
          fmt::format("\"{}\" goes on at sunrise and off at sunset. A programme is for the night: swap both.",
                      each.id));
    }
  }

  bool switches(const job::ProgrammeEntry& each, std::uint32_t luminaire) const {
    if (!names(each.zones, job_.luminaires[luminaire].zone)) return false;
    if (each.transformers.empty()) return true;
    const std::uint32_t transformer = transformer_of_[luminaire];
    return transformer != no_transformer && names(each.transformers, job_.transformers[transformer].id);
  }

  void without_entry() {
    if (job_.programme.empty()) {
      add("times/no-programme", Severity::warning, job_.id, "/programme",
          "The job has no programme. Add an entry, such as on at sunset + 15 min and off at 23:00.");
      return;
    }
    std::string dark;
    std::size_t count = 0;
    for (std::size_t l = 0; l < job_.luminaires.size(); ++l) {
      if (!result_.rules_of[l].empty()) continue;
      ++count;
      if (count <= 8) dark += (dark.empty() ? "" : ", ") + job_.luminaires[l].id;
    }
    if (count == 0) return;
    add("times/never-switched", Severity::warning, job_.id, "/programme",
        fmt::format("No entry of the programme switches {}{}. Widen the zones of an entry or add one.", dark,
                    count > 8 ? fmt::format(" and {} more", count - 8) : ""));
  }

  // Which clock stands at the transformer decides whether the programme can be set there.
  void controls() {
    const bool by_sun = std::any_of(job_.programme.begin(), job_.programme.end(), [](const auto& each) {
      return each.on.at != job::SwitchBase::clock || each.off.at != job::SwitchBase::clock;
    });
    for (std::size_t t = 0; t < job_.transformers.size(); ++t) {
      const job::Transformer& transformer = job_.transformers[t];
      const bool astronomic = has_control(job_, transformer, job::ControlKind::astronomic_timer);
      const bool mechanical = has_control(job_, transformer, job::ControlKind::mechanical_timer);
      const bool photocell = has_control(job_, transformer, job::ControlKind::photocell);
      const std::string pointer = fmt::format("/transformers/{}", t);
      if (by_sun && !astronomic && !photocell) {
        add("times/no-sun-clock", Severity::warning, transformer.id, pointer,
            fmt::format("The programme follows the sun, and transformer \"{}\" has no clock that does. Add an "
                        "astronomic timer.",
                        transformer.id));
      }
      if (photocell && (astronomic || mechanical)) {
        add("times/timer-and-photocell", Severity::note, transformer.id, pointer,
            fmt::format("Transformer \"{}\" has a timer and a photocell. Its lights burn only when both say so, and "
                        "owners take one for the other's fault. Say on the timer card which does what.",
                        transformer.id));
      }
      if (mechanical) {
        add("times/mechanical-timer", Severity::note, transformer.id, pointer,
            fmt::format("The timer of transformer \"{}\" is mechanical: set it anew on each day when clocks change "
                        "and after each power cut.",
                        transformer.id));
      }
    }
  }

  void add(const char* id, Severity severity, const std::string& subject, const std::string& pointer,
           std::string message) {
    result_.findings.push_back(times_finding(id, severity, subject, pointer, std::move(message)));
  }

  const job::Job& job_;
  const std::vector<std::uint32_t>& transformer_of_;
  TimedProgramme result_;
};

}  // namespace

Finding times_finding(const char* id, Severity severity, std::string subject, std::string pointer,
                      std::string message) {
  Finding finding;
  finding.id = id;
  finding.severity = severity;
  finding.subject = std::move(subject);
  finding.pointer = std::move(pointer);
  finding.message = std::move(message);
  finding.provenance.status = "computed";
  return finding;
}

std::string entry_words(const job::ProgrammeEntry& entry) {
  std::string words = fmt::format("from {} to {}", moment_words(entry.on), moment_words(entry.off));
  if (entry.days.empty() || entry.days.size() == 7) {
    words += ", every day";
  } else {
    for (const std::string& day : entry.days) words += ", " + day;
  }
  if (!entry.from_day.empty() || !entry.to_day.empty()) {
    words += fmt::format(", {} to {}", day_words(entry.from_day.empty() ? "01-01" : entry.from_day),
                         day_words(entry.to_day.empty() ? "12-31" : entry.to_day));
  }
  if (entry.dim_pct < 100) words += fmt::format(", at {:g} %", entry.dim_pct);
  return words;
}

TimedProgramme timed_programme(const job::Job& job, const std::vector<std::uint32_t>& transformer_of) {
  return ProgrammeReader(job, transformer_of).read();
}

}  // namespace duskwire::study
