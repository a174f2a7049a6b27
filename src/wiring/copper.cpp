// SPDX-License-Identifier: Apache-2.0
#include "wiring/copper.hpp"

#include <algorithm>
#include <cmath>

#include "electrical/loads.hpp"

namespace duskwire::wiring {
namespace {

constexpr double loop = 2;  // both conductors
constexpr double settled_v = 5e-4;
constexpr int most_rounds = 12;

}  // namespace

Copper::Copper(const PlanProblem& problem, std::vector<bool> allowed)
    : problem_(problem), allowed_(std::move(allowed)), last_v_(problem.lamps.size(), 0) {
  for (std::size_t i = 0; i < last_v_.size(); ++i) last_v_[i] = problem.lamps[i].load.rated_v;
}

std::uint32_t Copper::thicker(std::uint32_t type) const {
  for (std::uint32_t t = type + 1; t < problem_.cables.size(); ++t) {
    if (allowed_[t]) return t;
  }
  return none;
}

std::uint32_t Copper::thinnest(double current_a, double device_a) const {
  for (std::uint32_t t = 0; t < problem_.cables.size(); ++t) {
    const double ampacity_a = problem_.cables[t].ampacity_a;
    if (allowed_[t] && ampacity_a >= device_a && ampacity_a >= current_a) return t;
  }
  return none;
}

double Copper::device_for(double current_a, const Feed& feed) const {
  double least_a = 0;
  const auto offer = [&](double device_a) {
    if (device_a > feed.limit_a || device_a * problem_.output_share < current_a) return;
    if (least_a == 0 || device_a < least_a) least_a = device_a;
  };
  for (const double device_a : problem_.devices_a) offer(device_a);
  offer(feed.built_a);
  return least_a;
}

// What the transformer delivers at its terminals. Lamps that keep their VA draw most when mains are low, losses
// included; others may draw more in another corner, and count at the tap's full volts.
double Copper::load_va(double tap_v, const Feed& feed) const {
  const bool keep_va = std::all_of(hangs_.begin(), hangs_.end(), [&](const Hang& hang) {
    return problem_.lamps[hang.lamp].load.kind == electrical::LoadKind::regulated_led;
  });
  if (!keep_va) return output_a_ * tap_v;
  const double lost_v = feed.r_own_ohm * output_a_ + feed.r_shared_ohm * (output_a_ + feed.siblings_a);
  return output_a_ * (tap_v * problem_.extremes.low_mains - lost_v);
}

double Copper::contact_of(const Layout& layout, const Spot& spot) const {
  const std::uint32_t wires = layout.wires_at(spot);
  if (wires < 2) return 0;
  // By the thinnest sizes: which connector it will be is not known before the copper is.
  return problem_.joints.of(wires, 0, 0).contact_ohm;
}

void Copper::set_type(Piece& piece, std::uint32_t type) {
  piece.type = type;
  piece.r_ohm = loop * problem_.cables[type].ohm_per_m * piece.cut_m * problem_.extremes.low_copper + piece.contact_ohm;
}

// The tree as a row of pieces; false where a joint lies where none may.
Hindrance Copper::gather(const Layout& layout, std::uint32_t output) {
  pieces_.clear();
  hangs_.clear();
  ends_cost_ = 0;
  const Output& record = layout.outputs[output];
  const auto visit = [&](std::uint32_t first, std::uint32_t parent) {
    for (std::uint32_t lay = first; lay != none; lay = layout.lays[lay].next) {
      Piece piece;
      piece.lay = lay;
      piece.parent = parent;
      piece.spot = layout.lays[lay].to;
      pieces_.push_back(piece);
    }
  };
  visit(record.first_out, none);
  Hindrance met = Hindrance::nothing;
  for (std::uint32_t k = 0; k < pieces_.size(); ++k) {
    const Spot& spot = layout.spots[pieces_[k].spot];
    const Lay& lay = layout.lays[pieces_[k].lay];
    const std::uint32_t lamp_end = layout.lamp_end(spot);
    const bool from_output = lay.from == none;
    Piece& piece = pieces_[k];
    piece.contact_ohm = loop * (from_output ? 0 : contact_of(layout, layout.spots[lay.from]));
    piece.contact_ohm += loop * contact_of(layout, spot);
    const double end_slack_m = lamp_end == none ? problem_.slack_splice_m : problem_.slack_luminaire_m;
    const double rise_m = lamp_end == none ? 0 : problem_.lamps[lamp_end].rise_m;
    piece.cut_m = lay.kept ? lay.kept_cut_m
                           : lay.way->length_m + rise_m + end_slack_m +
                                 (from_output ? problem_.slack_output_m : problem_.slack_splice_m);
    ends_cost_ += problem_.cable_end_cost * (lamp_end == none ? 2 : 1);
    piece.first_load = static_cast<std::uint32_t>(hangs_.size());
    const double lead_contact_ohm = loop * contact_of(layout, spot);
    for (std::uint32_t lamp = spot.first_lamp; lamp != none; lamp = layout.next_lamp[lamp]) {
      const PlanLamp& item = problem_.lamps[lamp];
      const double lead_ohm = lamp == lamp_end ? 0 : item.lead_ohm * problem_.extremes.low_copper + lead_contact_ohm;
      hangs_.push_back(
          {lamp, lead_ohm, item.load.power_va / std::max(last_v_[lamp], item.load.v_regulation_min), last_v_[lamp]});
    }
    piece.last_load = static_cast<std::uint32_t>(hangs_.size());
    if (lamp_end == none && !lay.kept) {
      if (!problem_.ground.nodes[spot.node].joint_allowed) met = Hindrance::joint_place;
      if (layout.wires_at(spot) > problem_.most_wires && met == Hindrance::nothing) met = Hindrance::joint_wires;
    }
    visit(spot.first_out, k);
  }
  return met;
}

// Volts everywhere, all lamps on, in the low corner: currents from the volts of the round before, volts from those.
void Copper::settle(double emf_v, const Feed& feed) {
  for (int round = 0; round < most_rounds; ++round) {
    for (Piece& piece : pieces_) piece.current_a = 0;
    output_a_ = 0;
    for (std::uint32_t k = static_cast<std::uint32_t>(pieces_.size()); k-- > 0;) {
      Piece& piece = pieces_[k];
      for (std::uint32_t h = piece.first_load; h < piece.last_load; ++h) piece.current_a += hangs_[h].current_a;
      (piece.parent == none ? output_a_ : pieces_[piece.parent].current_a) += piece.current_a;
    }
    const double terminal_v = emf_v - feed.r_own_ohm * output_a_ - feed.r_shared_ohm * (output_a_ + feed.siblings_a);
    double moved_v = 0;
    for (Piece& piece : pieces_) {
      const double above_v = piece.parent == none ? terminal_v : pieces_[piece.parent].v;
      piece.v = above_v - piece.r_ohm * piece.current_a;
      for (std::uint32_t h = piece.first_load; h < piece.last_load; ++h) {
        Hang& hang = hangs_[h];
        const double v = piece.v - hang.lead_ohm * hang.current_a;
        moved_v = std::max(moved_v, std::abs(v - hang.v));
        hang.v = v;
        const electrical::Load& load = problem_.lamps[hang.lamp].load;
        if (load.kind == electrical::LoadKind::regulated_led) {
          hang.current_a = load.power_va / std::max(v, load.v_regulation_min);
        } else {
          hang.current_a = electrical::load_point(load, load.power_va, std::max(v, 0.0)).current_a;
        }
      }
    }
    // The first round only repeats what the volts were shifted to by the currents of before.
    if (round > 0 && moved_v < settled_v) break;
  }
  for (const Hang& hang : hangs_) last_v_[hang.lamp] = hang.v;
}

void Copper::shift_beyond(std::uint32_t piece, double gained_v) {
  beyond_.assign(pieces_.size(), 0);
  beyond_[piece] = 1;
  for (std::uint32_t k = piece; k < pieces_.size(); ++k) {
    Piece& at = pieces_[k];
    if (k != piece && (at.parent == none || beyond_[at.parent] == 0)) continue;
    beyond_[k] = 1;
    at.v += gained_v;
    for (std::uint32_t h = at.first_load; h < at.last_load; ++h) hangs_[h].v += gained_v;
  }
}

void Copper::find_rooms() {
  room_v_.assign(pieces_.size(), HUGE_VAL);
  for (std::uint32_t k = static_cast<std::uint32_t>(pieces_.size()); k-- > 0;) {
    const Piece& at = pieces_[k];
    for (std::uint32_t h = at.first_load; h < at.last_load; ++h) {
      room_v_[k] = std::min(room_v_[k], hangs_[h].v - problem_.lamps[hangs_[h].lamp].floor_v - problem_.safety_v);
    }
    if (at.parent != none) room_v_[at.parent] = std::min(room_v_[at.parent], room_v_[k]);
  }
}

void Copper::find_worst() {
  least_room_v_ = HUGE_VAL;
  worst_piece_ = worst_lamp_ = none;
  for (std::uint32_t k = 0; k < pieces_.size(); ++k) {
    for (std::uint32_t h = pieces_[k].first_load; h < pieces_[k].last_load; ++h) {
      const double room_v = hangs_[h].v - problem_.lamps[hangs_[h].lamp].floor_v - problem_.safety_v;
      if (room_v >= least_room_v_) continue;
      least_room_v_ = room_v;
      worst_piece_ = k;
      worst_lamp_ = hangs_[h].lamp;
    }
  }
}

double Copper::short_a(const Piece& piece, double emf_v, const Feed& feed, double beyond_ohm) const {
  double r_ohm = feed.r_own_ohm + feed.r_shared_ohm + beyond_ohm;
  for (const Piece* at = &piece;; at = &pieces_[at->parent]) {
    r_ohm += at->r_ohm;
    if (at->parent == none) break;
  }
  return r_ohm > 0 ? emf_v / r_ohm : HUGE_VAL;
}

// The end at which a short draws least, where that is less than the device needs.
std::uint32_t Copper::blind_end(double emf_v, const Feed& feed, double device_a) const {
  std::uint32_t found = none;
  double least_a = device_a * 1.005;
  for (std::uint32_t k = 0; k < pieces_.size(); ++k) {
    double lead_ohm = 0;
    for (std::uint32_t h = pieces_[k].first_load; h < pieces_[k].last_load; ++h) {
      lead_ohm = std::max(lead_ohm, hangs_[h].lead_ohm);
    }
    const double seen_a = short_a(pieces_[k], emf_v, feed, lead_ohm);
    if (seen_a >= least_a) continue;
    least_a = seen_a;
    found = k;
  }
  return found;
}

// One cable on the way to the piece gets thicker: that which gives most for its money.
bool Copper::upgrade_towards(std::uint32_t piece, bool for_volts) {
  std::uint32_t best = none;
  double best_gain = 0;
  for (std::uint32_t k = piece; k != none; k = pieces_[k].parent) {
    const Piece& at = pieces_[k];
    if (floor_type_[k] == none) continue;  // kept as it is
    const std::uint32_t next = thicker(at.type);
    if (next == none) continue;
    const CableType& now = problem_.cables[at.type];
    const CableType& then = problem_.cables[next];
    const double saved_ohm = (now.ohm_per_m - then.ohm_per_m) * at.cut_m;
    const double price = std::max(1e-9, (then.cost_per_m - now.cost_per_m) * at.cut_m);
    const double gain = saved_ohm * (for_volts ? at.current_a : 1.0) / price;
    if (gain <= best_gain) continue;
    best_gain = gain;
    best = k;
  }
  if (best == none) return false;
  const double before_ohm = pieces_[best].r_ohm;
  set_type(pieces_[best], thicker(pieces_[best].type));
  if (for_volts) shift_beyond(best, (before_ohm - pieces_[best].r_ohm) * pieces_[best].current_a);
  thickened_ = true;
  return true;
}

Hindrance Copper::thicken(double emf_v, const Feed& feed, double device_a) {
  settle(emf_v, feed);
  find_worst();
  while (least_room_v_ < 0) {
    // By the currents as they were, which only fall as the volts rise; then in earnest.
    while (least_room_v_ < 0) {
      if (!upgrade_towards(worst_piece_, true)) return Hindrance::low_volts;
      find_worst();
    }
    settle(emf_v, feed);
    find_worst();
  }
  for (;;) {
    const std::uint32_t blind = blind_end(emf_v, feed, device_a);
    if (blind == none) break;
    if (!upgrade_towards(blind, false)) return Hindrance::far_short;
  }
  return Hindrance::nothing;
}

// What was thickened for one lamp may have become needless through what was thickened later for another.
void Copper::thin_again(double emf_v, const Feed& feed, double device_a) {
  find_rooms();
  for (std::uint32_t k = static_cast<std::uint32_t>(pieces_.size()); k-- > 0;) {
    if (floor_type_[k] == none) continue;
    while (pieces_[k].type > floor_type_[k]) {
      const std::uint32_t was = pieces_[k].type;
      std::uint32_t less = was;
      do --less;
      while (!allowed_[less]);
      const double before_ohm = pieces_[k].r_ohm;
      set_type(pieces_[k], less);
      const double lost_v = (pieces_[k].r_ohm - before_ohm) * pieces_[k].current_a;
      if (lost_v <= room_v_[k]) {
        settle(emf_v, feed);
        find_worst();
        if (least_room_v_ >= 0 && blind_end(emf_v, feed, device_a) == none) {
          find_rooms();
          continue;
        }
        set_type(pieces_[k], was);
        settle(emf_v, feed);
        find_rooms();
        break;
      }
      set_type(pieces_[k], was);
      break;
    }
  }
  settle(emf_v, feed);
  find_worst();
}

Hindrance Copper::price_joints(const Layout& layout) {
  joints_cost_ = 0;
  for (const Piece& piece : pieces_) {
    const Spot& spot = layout.spots[piece.spot];
    const std::uint32_t wires = layout.wires_at(spot);
    if (wires < 2) continue;  // a lamp's end, or a kept cable to a joint where nothing is joined any more
    std::uint32_t thin = problem_.cables[piece.type].size;
    std::uint32_t thick = thin;
    const auto meet = [&](std::uint32_t size) {
      thin = std::min(thin, size);
      thick = std::max(thick, size);
    };
    for (std::uint32_t lay = spot.first_out; lay != none; lay = layout.lays[lay].next) {
      meet(problem_.cables[layout.lays[lay].type].size);
    }
    for (std::uint32_t lamp = spot.first_lamp; lamp != none; lamp = layout.next_lamp[lamp]) {
      meet(problem_.lamps[lamp].lead_size);
    }
    const JointCosts::Entry& entry = problem_.joints.of(wires, thin, thick);
    if (!entry.possible) return Hindrance::joint_wires;
    joints_cost_ += entry.cost + (spot.lamps == 0 ? problem_.joint_away_cost : 0);
  }
  return Hindrance::nothing;
}

Hindrance Copper::size(Layout& layout, std::uint32_t output, const Feed& feed) {
  Output& record = layout.outputs[output];
  record.cost = record.current_a = record.load_va = 0;
  const Hindrance met = gather(layout, output);
  if (met != Hindrance::nothing) return met;
  double highest_v = HUGE_VAL;
  for (const Hang& hang : hangs_) {
    const double most_v = problem_.lamps[hang.lamp].window_max_v;
    if (most_v > 0) highest_v = std::min(highest_v, most_v - problem_.safety_v / 2);
  }
  double tap_v = 0;
  for (const double offered_v : *feed.taps_v) {
    if (offered_v * problem_.extremes.high_mains <= highest_v) tap_v = offered_v;
  }
  if (tap_v == 0) return Hindrance::tap;
  const double emf_v = tap_v * problem_.extremes.low_mains;

  // The device follows the current, the thinnest cable the device, the current the copper: a little only.
  double device_a = 0;
  double rough_a = 0;
  for (const Hang& hang : hangs_) rough_a += problem_.lamps[hang.lamp].load.power_va / emf_v;
  Hindrance hindrance = Hindrance::nothing;
  for (int round = 0; round < 3; ++round) {
    const double needed_a = device_for(std::max(rough_a, output_a_ * (round > 0)), feed);
    if (needed_a == 0) return Hindrance::current;
    if (needed_a <= device_a) break;
    device_a = needed_a;
    const std::uint32_t floor_type = thinnest(0, device_a);
    if (floor_type == none) return Hindrance::current;
    floor_type_.assign(pieces_.size(), floor_type);
    for (std::uint32_t k = 0; k < pieces_.size(); ++k) {
      const Lay& lay = layout.lays[pieces_[k].lay];
      if (lay.kept) floor_type_[k] = none;
      set_type(pieces_[k], lay.kept ? lay.type : floor_type);
    }
    thickened_ = false;
    hindrance = thicken(emf_v, feed, device_a);
    if (hindrance != Hindrance::nothing) return hindrance;
  }
  if (device_a * problem_.output_share < output_a_) return Hindrance::current;
  if (thickened_) thin_again(emf_v, feed, device_a);

  double cable_cost = 0;
  for (const Piece& piece : pieces_) {
    layout.lays[piece.lay].type = piece.type;
    cable_cost += piece.cut_m * problem_.cables[piece.type].cost_per_m;
  }
  hindrance = price_joints(layout);
  if (hindrance != Hindrance::nothing) return hindrance;
  record.cost = cable_cost + ends_cost_ + joints_cost_;
  record.current_a = output_a_;
  record.tap_v = tap_v;
  record.device_a = device_a;
  record.load_va = load_va(tap_v, feed);
  return Hindrance::nothing;
}

void Copper::lower_tap(Layout& layout, std::uint32_t output, const Feed& feed) {
  Output& record = layout.outputs[output];
  if (gather(layout, output) != Hindrance::nothing) return;
  for (Piece& piece : pieces_) set_type(piece, layout.lays[piece.lay].type);
  for (const double tap_v : *feed.taps_v) {
    if (tap_v >= record.tap_v) return;
    const double emf_v = tap_v * problem_.extremes.low_mains;
    settle(emf_v, feed);
    find_worst();
    const double device_a = device_for(output_a_, feed);
    const bool carried = device_a > 0 && thinnest(0, device_a) != none;
    bool held = carried && device_a <= record.device_a;
    if (!held || least_room_v_ < 0 || blind_end(emf_v, feed, record.device_a) != none) continue;
    record.tap_v = tap_v;
    record.current_a = output_a_;
    record.load_va = load_va(tap_v, feed);
    return;
  }
}

}  // namespace duskwire::wiring
