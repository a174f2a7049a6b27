// SPDX-License-Identifier: Apache-2.0
#include "study/network_parts.hpp"

#include <algorithm>
#include <cmath>

#include "electrical/conductor.hpp"

namespace duskwire::study {
namespace {

// Far above anything in a garden and below what the engine accepts.
constexpr double largest_value = 1e8;

electrical::LoadKind load_kind(job::LampKind kind) {
  switch (kind) {
    case job::LampKind::regulated_led:
      return electrical::LoadKind::regulated_led;
    case job::LampKind::filament:
      return electrical::LoadKind::filament;
    case job::LampKind::resistive:
      return electrical::LoadKind::resistive;
    case job::LampKind::constant_current_led:
      return electrical::LoadKind::constant_current_led;
  }
  return electrical::LoadKind::regulated_led;
}

bool is_led(job::LampKind kind) {
  return kind == job::LampKind::regulated_led || kind == job::LampKind::constant_current_led;
}

}  // namespace

void TroubleBook::add(TroubleKind kind, Spot spot, std::string detail, double measured) {
  const bool told = std::any_of(troubles_.begin(), troubles_.end(), [&](const Trouble& old) {
    return old.kind == kind && old.spot == spot && old.detail == detail;
  });
  if (told) return;
  Trouble trouble;
  trouble.kind = kind;
  trouble.spot = spot;
  trouble.detail = std::move(detail);
  trouble.measured = measured;
  troubles_.push_back(std::move(trouble));
}

double TroubleBook::at_least(double least, double value, double instead, Spot spot, const char* field) {
  if (value >= least && value <= largest_value) return value;
  add(TroubleKind::bad_value, spot, field, std::isfinite(value) ? value : 0);
  return instead;
}

double TroubleBook::rating(double value, double instead, Spot spot, const char* field) {
  constexpr double least_known = 1e-3;
  return value == 0 ? 0 : at_least(least_known, value, instead, spot, field);
}

electrical::Transformer transformer_part(const job::TransformerItem& item, Spot item_spot, TroubleBook& book) {
  electrical::Transformer part;
  part.r_shared_ohm = book.at_least(0, item.r_shared_ohm, 0, item_spot, "r_shared_ohm");
  part.rating_va = book.rating(item.rating_va, 0, item_spot, "rating_va");
  part.core_loss_w = book.at_least(0, item.core_loss_w, 0, item_spot, "core_loss_w");
  return part;
}

electrical::Output output_part(const job::Output& output, const job::TransformerItem* item, Spot spot, Spot item_spot,
                               TroubleBook& book) {
  electrical::Output part;
  part.emf_v = book.at_least(0, output.tap_v, 0, spot, "tap_v");
  if (item) {
    part.r_own_ohm = book.at_least(0, item->r_own_ohm, 0, item_spot, "r_own_ohm");
    part.limit_a = book.rating(item->output_limit_a, 0, item_spot, "output_limit_a");
  }
  if (output.limit_a) part.limit_a = book.rating(*output.limit_a, part.limit_a, spot, "limit_a");
  return part;
}

// An item without a resistance has that of copper of its area (electrical/conductor.hpp).
double cable_ohm_per_m(const job::CableItem& item, Spot item_spot, TroubleBook& book) {
  if (item.ohm_per_m_20c > 0 && item.ohm_per_m_20c < largest_value) return item.ohm_per_m_20c;
  book.add(TroubleKind::bad_value, item_spot, "ohm_per_m_20c",
           std::isfinite(item.ohm_per_m_20c) ? item.ohm_per_m_20c : 0);
  const bool known_area = item.area_mm2 > 1e-3 && item.area_mm2 < largest_value;
  return known_area ? electrical::copper_ohm_per_m_20c(item.area_mm2) : 0;
}

double lead_ohm(const job::Luminaire& luminaire, const job::LuminaireItem& item, double length_m, Spot spot,
                TroubleBook& book) {
  if (length_m <= 0) return 0;
  if (item.lead_area_mm2 > 1e-3 && item.lead_area_mm2 < largest_value) {
    return electrical::copper_ohm_per_m_20c(item.lead_area_mm2) * length_m;
  }
  book.add(TroubleKind::lead_size_missing, spot, luminaire.item);
  return 0;
}

electrical::Load load_part(const job::LuminaireItem& item, Spot item_spot, TroubleBook& book) {
  constexpr double usual_rated_v = 12;
  constexpr double usual_regulation_v = 9;  // widest window of the trade: common practice, no source
  electrical::Load load;
  load.kind = load_kind(item.lamp);
  const double power_w = book.at_least(0, item.power_w, 0, item_spot, "power_w");
  // Apparent power is never below the true one: an item that gives watts only counts those.
  load.power_va = std::max(power_w, book.at_least(0, item.power_va, 0, item_spot, "power_va"));
  load.v_max = book.at_least(0, item.window_max_v, 0, item_spot, "window_max_v");
  const double window_min_v = book.at_least(0, item.window_min_v, 0, item_spot, "window_min_v");
  load.rated_v = item.rated_v;
  if (load.kind != electrical::LoadKind::regulated_led) {
    constexpr double least_rated_v = 0.1;
    load.rated_v = book.at_least(least_rated_v, item.rated_v, usual_rated_v, item_spot, "rated_v");
  }
  if (!is_led(item.lamp)) {
    load.v_regulation_min = window_min_v;  // only where it is called dim
    return load;
  }
  load.v_regulation_min = book.at_least(0, item.v_regulation_min, 0, item_spot, "v_regulation_min");
  if (load.v_regulation_min == 0) load.v_regulation_min = window_min_v > 0 ? window_min_v : usual_regulation_v;
  load.v_cut_off = book.at_least(0, item.v_cut_off, 0, item_spot, "v_cut_off");
  if (load.v_cut_off > load.v_regulation_min) {
    book.add(TroubleKind::bad_value, item_spot, "v_cut_off", load.v_cut_off);
    load.v_cut_off = load.v_regulation_min;
  }
  return load;
}

Lamp lamp_part(const job::LuminaireItem& item, const electrical::Load& load, float level) {
  Lamp lamp;
  lamp.window_min_v = std::isfinite(item.window_min_v) ? std::max(0.0, item.window_min_v) : 0;
  lamp.window_max_v = load.v_max;
  lamp.floor_v = is_led(item.lamp) ? std::max(lamp.window_min_v, load.v_regulation_min) : lamp.window_min_v;
  const bool known_watts = item.power_w > 0 && load.power_va > 0;
  lamp.power_factor = known_watts ? std::min(1.0, item.power_w / load.power_va) : 1;
  lamp.counts = load.power_va > 0 && level > 0;
  return lamp;
}

}  // namespace duskwire::study
