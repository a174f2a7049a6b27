// SPDX-License-Identifier: Apache-2.0
#include "study/level_judge.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <optional>

#include "study/trouble.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

// Rounding of the last bits is no breach.
bool reaches(double found, double asked) { return found >= asked * (1 - 1e-9); }

// One of the things that a target asks, and whether a place has it.
struct Demand {
  std::string words;
  bool met = true;
};

// Without a place all count as met: then only the words matter.
std::vector<Demand> demands_of(const LevelTarget& target, const PlaceLevels* place) {
  const LuxFigures lit = place ? place->lit : LuxFigures{};
  std::vector<Demand> out;
  const auto add = [&](const std::optional<double>& value, const char* words, bool met) {
    if (value) out.push_back({fmt::format(fmt::runtime(words), *value), !place || met});
  };
  add(target.average_lx, "{:g} lx on average", reaches(lit.average_lx, target.average_lx.value_or(0)));
  add(target.minimum_lx, "nowhere less than {:g} lx", reaches(lit.minimum_lx, target.minimum_lx.value_or(0)));
  add(target.uniformity, "uniformity {:g}", reaches(lit.uniformity, target.uniformity.value_or(0)));
  const bool has_upright = place && place->upright;
  add(target.upright_average_lx, "{:g} lx upright",
      !has_upright || reaches(place->upright->average_lx, target.upright_average_lx.value_or(0)));
  add(target.most_lx, "no more than {:g} lx", reaches(target.most_lx.value_or(0), lit.maximum_lx));
  // Of lamps, not of places: judged by lamp_findings.
  add(target.most_colour_temperature_k, "up to {:g} K", true);
  add(target.most_flux_lm, "up to {:g} lm a lamp", true);
  add(target.most_upward_pct, "up to {:g} % upwards", true);
  return out;
}

std::string joined(const std::vector<Demand>& demands, bool only_missed) {
  std::vector<std::string> parts;
  for (const Demand& demand : demands) {
    if (!only_missed || !demand.met) parts.push_back(demand.words);
  }
  return fmt::format("{}", fmt::join(parts, ", "));
}

LevelVerdict verdict(const LevelSet& set, const LevelTarget& target, bool in_force, const PlaceLevels& place) {
  const std::vector<Demand> demands = demands_of(target, &place);
  const std::string missed = joined(demands, true);
  return {set.id, target.id, target.title, in_force, missed.empty(), joined(demands, false), missed, target.provenance};
}

std::string found_words(const PlaceLevels& place) {
  std::string words =
      fmt::format("{} on average, {} at the darkest, {} at the brightest", lux_words(place.lit.average_lx),
                  lux_words(place.lit.minimum_lx), lux_words(place.lit.maximum_lx));
  if (place.upright) words += fmt::format(", {} upright", lux_words(place.upright->average_lx));
  return words;
}

std::vector<std::string> ids_where(const std::vector<LampLevels>& lamps,
                                   const std::function<bool(const LampLevels&)>& wanted) {
  std::vector<std::string> ids;
  for (const LampLevels& lamp : lamps) {
    if (wanted(lamp)) ids.push_back(lamp.id);
  }
  return ids;
}

const job::LuminaireItem* item_of(const job::Job& job, const std::string& lamp) {
  for (const job::Luminaire& luminaire : job.luminaires) {
    if (luminaire.id == lamp) return find_luminaire(job.catalogue, luminaire.item);
  }
  return nullptr;
}

std::string pointer_of_lamp(const job::Job& job, const std::string& lamp) {
  for (std::uint32_t i = 0; i < job.luminaires.size(); ++i) {
    if (job.luminaires[i].id == lamp) return pointer_of({SpotKind::luminaire, i, 0});
  }
  return "";
}

}  // namespace

std::string lux_words(double lx) { return lx < 10 ? fmt::format("{:.1f} lx", lx) : fmt::format("{:.0f} lx", lx); }

std::string asked_words(const LevelTarget& target) { return joined(demands_of(target, nullptr), false); }

void judge_places(const LevelSets& sets, const std::string& in_force, std::vector<PlaceLevels>& places) {
  for (PlaceLevels& place : places) {
    for (const bool first : {true, false}) {
      for (const LevelSet& set : sets) {
        if ((set.id == in_force) != first) continue;
        for (const LevelTarget& target : set.targets) {
          if (target.place == place.place)
            place.verdicts.push_back(verdict(set, target, first && target.chosen, place));
        }
      }
    }
  }
}

Findings place_findings(const std::vector<PlaceLevels>& places) {
  Findings findings;
  for (const PlaceLevels& place : places) {
    for (const LevelVerdict& verdict : place.verdicts) {
      if (!verdict.in_force || verdict.met) continue;
      Finding finding;
      finding.id = fmt::format("light/{}/{}", verdict.set, verdict.target);
      finding.severity = Severity::warning;
      finding.subject = place.id.substr(0, place.id.find('/'));
      finding.pointer = place.pointer;
      finding.message = fmt::format("{} has {}. Asked: {} ({}).", place.name.empty() ? place.id : place.name,
                                    found_words(place), verdict.asked, verdict.title);
      finding.measured = place.lit.average_lx;
      finding.unit = "lx";
      finding.provenance = verdict.provenance;
      findings.push_back(std::move(finding));
    }
  }
  return findings;
}

Findings lamp_findings(const job::Job& job, const LevelSet& set, const std::vector<LampLevels>& lamps) {
  Findings findings;
  const auto tell = [&](const LevelTarget& target, const std::vector<std::string>& ids, const std::string& what) {
    if (ids.empty()) return;
    Finding finding;
    finding.id = fmt::format("light/{}/{}", set.id, target.id);
    finding.severity = Severity::warning;
    finding.subject = ids.front();
    finding.pointer = pointer_of_lamp(job, ids.front());
    finding.message = fmt::format("{}: {}. Allowed: {} ({}).", what, listed(ids), asked_words(target), target.title);
    finding.provenance = target.provenance;
    findings.push_back(std::move(finding));
  };
  for (const LevelTarget& target : set.targets) {
    if (target.place != LitPlace::lamp || !target.chosen) continue;
    if (target.most_colour_temperature_k) {
      tell(target,
           ids_where(lamps,
                     [&](const LampLevels& lamp) {
                       const job::LuminaireItem* item = item_of(job, lamp.id);
                       return item && item->colour_temperature_k > *target.most_colour_temperature_k;
                     }),
           "Light of a cooler colour");
    }
    if (target.most_flux_lm) {
      tell(target, ids_where(lamps, [&](const LampLevels& lamp) { return lamp.flux_lm > *target.most_flux_lm; }),
           "Lamps of many lumens");
    }
    if (target.most_upward_pct) {
      tell(target,
           ids_where(lamps,
                     [&](const LampLevels& lamp) {
                       return lamp.flux_lm > 0 && lamp.upward_share * 100 > *target.most_upward_pct + 0.5;
                     }),
           "Light above the level");
    }
  }
  return findings;
}

}  // namespace duskwire::study
