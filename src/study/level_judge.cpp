// SPDX-License-Identifier: Apache-2.0
#include "study/level_judge.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "study/trouble.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

// Rounding of the last bits is no breach.
bool reaches(double found, double asked) { return found >= asked * (1 - 1e-9); }

bool is_met(const LevelTarget& target, const PlaceLevels& place) {
  const LuxFigures& lit = place.lit;
  if (target.average_lx && !reaches(lit.average_lx, *target.average_lx)) return false;
  if (target.minimum_lx && !reaches(lit.minimum_lx, *target.minimum_lx)) return false;
  if (target.uniformity && !reaches(lit.uniformity, *target.uniformity)) return false;
  if (target.most_lx && !reaches(*target.most_lx, lit.maximum_lx)) return false;
  if (target.upright_average_lx && place.upright) {
    return reaches(place.upright->average_lx, *target.upright_average_lx);
  }
  return true;
}

LevelVerdict verdict(const LevelSet& set, const LevelTarget& target, bool in_force, const PlaceLevels& place) {
  return {set.id, target.id, target.title, in_force, is_met(target, place), asked_words(target), target.provenance};
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

std::string asked_words(const LevelTarget& target) {
  std::vector<std::string> parts;
  if (target.average_lx) parts.push_back(fmt::format("{:g} lx on average", *target.average_lx));
  if (target.minimum_lx) parts.push_back(fmt::format("nowhere less than {:g} lx", *target.minimum_lx));
  if (target.uniformity) parts.push_back(fmt::format("uniformity {:g}", *target.uniformity));
  if (target.upright_average_lx) parts.push_back(fmt::format("{:g} lx upright", *target.upright_average_lx));
  if (target.most_lx) parts.push_back(fmt::format("no more than {:g} lx", *target.most_lx));
  if (target.most_colour_temperature_k) parts.push_back(fmt::format("up to {:g} K", *target.most_colour_temperature_k));
  if (target.most_flux_lm) parts.push_back(fmt::format("up to {:g} lm a lamp", *target.most_flux_lm));
  if (target.most_upward_pct) parts.push_back(fmt::format("up to {:g} % upwards", *target.most_upward_pct));
  return fmt::format("{}", fmt::join(parts, ", "));
}

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
