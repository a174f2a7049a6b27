// SPDX-License-Identifier: Apache-2.0
#include "study/times_energy.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "study/numbers.hpp"

namespace duskwire::study {

Powers powers_of(const job::Job& job) {
  const Built built = build(job);
  const Numbers numbers = analyse(built, Scope{false, false, false});
  Powers powers;
  powers.supplies.resize(job.transformers.size() + 1);
  for (std::size_t t = 0; t < job.transformers.size(); ++t) {
    const job::TransformerItem* item = job::find_transformer(job.catalogue, job.transformers[t].item);
    powers.supplies[t].line_loss_w = numbers.transformers[t].copper_loss_w + numbers.transformers[t].cable_loss_w;
    powers.supplies[t].core_loss_w = item != nullptr ? item->core_loss_w : 0;
  }
  for (std::uint32_t l = 0; l < job.luminaires.size(); ++l) {
    const std::uint32_t output = built.supply[built.node_of_luminaire(l)].output;
    const std::uint32_t transformer = output == none ? no_transformer : built.outputs[output].transformer;
    const job::LuminaireItem* item = job::find_luminaire(job.catalogue, job.luminaires[l].item);
    const double power_w = item != nullptr ? item->power_w * std::clamp(job.luminaires[l].dim_pct / 100, 0.0, 1.0) : 0;
    powers.transformer_of.push_back(transformer);
    powers.lamp_w.push_back(power_w);
    const std::size_t supply = transformer == no_transformer ? job.transformers.size() : transformer;
    powers.supplies[supply].full_w += power_w;
  }
  return powers;
}

YearBurn::YearBurn(const job::Job& job, const Powers& powers, const TimedProgramme& programme)
    : job_(job), powers_(powers), programme_(programme) {
  for (std::uint32_t l = 0; l < job.luminaires.size(); ++l) {
    if (programme.rules_of[l].empty()) continue;
    const auto supply = std::min(powers.transformer_of[l], static_cast<std::uint32_t>(job.transformers.size()));
    auto group = std::find_if(groups_.begin(), groups_.end(), [&](const Group& each) {
      return each.supply == supply && each.rules == programme.rules_of[l];
    });
    if (group == groups_.end()) group = groups_.insert(groups_.end(), {programme.rules_of[l], supply, 0, {}});
    group->power_w += powers.lamp_w[l];
    group->lamps.push_back(l);
  }
}

almanac::Use YearBurn::Sum::total() const {
  almanac::Use all;
  for (const almanac::Use& each : supplies) {
    all.energy_kwh += each.energy_kwh;
    all.cost_minor += each.cost_minor;
  }
  return all;
}

YearBurn::Sum YearBurn::sum(const std::vector<almanac::DayTimes>& days, const almanac::Tariff& tariff,
                            const almanac::Zone& zone) const {
  Sum result;
  result.supplies.resize(powers_.supplies.size());
  std::vector<std::uint32_t> all_rules;
  for (std::uint32_t r = 0; r < programme_.rules.size(); ++r) {
    if (!programme_.lamps[r].empty()) all_rules.push_back(r);
  }
  result.hours = almanac::burn(almanac::lit_intervals(days, programme_.rules, all_rules)).hours;
  for (std::size_t s = 0; s < powers_.supplies.size(); ++s) {
    std::vector<double> group_w;
    std::vector<std::vector<almanac::Interval>> lit;
    for (const Group& group : groups_) {
      if (group.supply != s) continue;
      group_w.push_back(group.power_w);
      lit.push_back(almanac::lit_intervals(days, programme_.rules, group.rules));
    }
    result.supplies[s] = almanac::supply_use(powers_.supplies[s], group_w, lit, tariff, zone);
  }
  return result;
}

std::vector<LampBurn> YearBurn::lamps(const std::vector<almanac::DayTimes>& days) const {
  std::vector<LampBurn> list;
  for (const job::Luminaire& luminaire : job_.luminaires) list.push_back({luminaire.id, 0, 0});
  for (const Group& group : groups_) {
    const almanac::Burn burn = almanac::burn(almanac::lit_intervals(days, programme_.rules, group.rules));
    for (const std::uint32_t lamp : group.lamps) {
      list[lamp].hours = burn.hours;
      list[lamp].full_hours = burn.full_hours;
    }
  }
  return list;
}

namespace {

// Hours that a lamp lasts: common practice, no source (makers claim 25,000 to 50,000 for LED).
constexpr double led_life_h = 25'000;
constexpr double halogen_life_h = 3'000;

// Watts per lumen of the item whose light is nearest, counted in stops. Nothing where the list has none.
std::optional<double> watts_per_lumen(const job::Catalogue& stock, job::LampKind kind, double flux_lm) {
  const job::LuminaireItem* nearest = nullptr;
  for (const job::LuminaireItem& item : stock.luminaires) {
    if (item.lamp != kind || item.flux_lm <= 0 || item.power_w <= 0) continue;
    const auto distance = [&](const job::LuminaireItem& each) { return std::abs(std::log(each.flux_lm / flux_lm)); };
    if (nearest == nullptr || distance(item) < distance(*nearest)) nearest = &item;
  }
  if (nearest == nullptr) return std::nullopt;
  return nearest->power_w / nearest->flux_lm;
}

void add_lamp(RetrofitSide& side, double power_w, const LampBurn& burn) {
  side.lamps_w += power_w;
  side.energy_kwh += power_w * burn.full_hours / 1000;
  side.lamps_a_year += burn.hours / side.life_h;
}

}  // namespace

std::optional<Retrofit> retrofit_of(const job::Job& job, const job::Catalogue& stock,
                                    const std::vector<LampBurn>& burns, const std::optional<almanac::Tariff>& tariff) {
  Retrofit retrofit;
  retrofit.led.life_h = led_life_h;
  retrofit.halogen.life_h = halogen_life_h;
  for (std::size_t l = 0; l < job.luminaires.size(); ++l) {
    const job::LuminaireItem* item = job::find_luminaire(job.catalogue, job.luminaires[l].item);
    const bool halogen = item != nullptr && item->lamp == job::LampKind::filament;
    const bool known = item != nullptr && item->flux_lm > 0 && item->power_w > 0 && burns[l].hours > 0;
    const auto other =
        known ? watts_per_lumen(stock, halogen ? job::LampKind::regulated_led : job::LampKind::filament, item->flux_lm)
              : std::nullopt;
    if (!other) {
      ++retrofit.left_out;
      continue;
    }
    ++retrofit.lamps;
    const double dim = std::clamp(job.luminaires[l].dim_pct / 100, 0.0, 1.0);
    const double other_w = item->flux_lm * *other;
    add_lamp(retrofit.led, dim * (halogen ? other_w : item->power_w), burns[l]);
    add_lamp(retrofit.halogen, dim * (halogen ? item->power_w : other_w), burns[l]);
  }
  if (retrofit.lamps == 0) return std::nullopt;
  retrofit.saved_kwh = retrofit.halogen.energy_kwh - retrofit.led.energy_kwh;
  if (tariff) {
    retrofit.led.cost_minor = retrofit.led.energy_kwh * tariff->price_minor_per_kwh;
    retrofit.halogen.cost_minor = retrofit.halogen.energy_kwh * tariff->price_minor_per_kwh;
    retrofit.saved_minor = *retrofit.halogen.cost_minor - *retrofit.led.cost_minor;
  }
  return retrofit;
}

}  // namespace duskwire::study
