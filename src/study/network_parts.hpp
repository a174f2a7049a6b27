// SPDX-License-Identifier: Apache-2.0
// The pieces of a network, each translated from one thing of the job by itself: an output, a cable, a lead, a lamp.
// Values that no real thing has are bounded and reported. Internal to the room.
#pragma once

#include <optional>

#include "electrical/network.hpp"
#include "job/job.hpp"
#include "study/network_builder.hpp"
#include "study/trouble.hpp"

namespace duskwire::study {

// Collects troubles; an item that many things use is reported once.
class TroubleBook {
 public:
  explicit TroubleBook(Troubles& troubles) : troubles_(troubles) {}
  void add(TroubleKind kind, Spot spot, std::string detail = {}, double measured = 0);
  // `value` where it is a number from `least` up, else `instead`, with a bad_value at the spot.
  double at_least(double least, double value, double instead, Spot spot, const char* field);
  // The same for a rating, where 0 stands for not known and the next real value is far from it.
  double rating(double value, double instead, Spot spot, const char* field);

 private:
  Troubles& troubles_;
};

[[nodiscard]] electrical::Transformer transformer_part(const job::TransformerItem& item, Spot item_spot,
                                                       TroubleBook& book);
[[nodiscard]] electrical::Output output_part(const job::Output& output, const job::TransformerItem* item, Spot spot,
                                             Spot item_spot, TroubleBook& book);
[[nodiscard]] double cable_ohm_per_m(const job::CableItem& item, Spot item_spot, TroubleBook& book);
[[nodiscard]] double lead_ohm(const job::Luminaire& luminaire, const job::LuminaireItem& item, double length_m,
                              Spot spot, TroubleBook& book);
[[nodiscard]] electrical::Load load_part(const job::LuminaireItem& item, Spot item_spot, TroubleBook& book);
[[nodiscard]] Lamp lamp_part(const job::LuminaireItem& item, const electrical::Load& load, float level);

}  // namespace duskwire::study
