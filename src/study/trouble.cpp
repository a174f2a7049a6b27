// SPDX-License-Identifier: Apache-2.0
#include "study/trouble.hpp"

#include <fmt/format.h>

namespace duskwire::study {
namespace {

struct KindRow {
  TroubleKind kind;
  const char* id;
  Severity severity;
};

// Ids are stored and compared by users of the report: never change one. In the order of the enum.
constexpr KindRow rows[] = {
    {TroubleKind::duplicate_id, "duplicate-id", Severity::error},
    {TroubleKind::bad_value, "bad-value", Severity::error},
    {TroubleKind::unknown_item, "unknown-item", Severity::error},
    {TroubleKind::unknown_joint, "unknown-joint", Severity::error},
    {TroubleKind::dangling_cable, "dangling-cable", Severity::error},
    {TroubleKind::cable_on_itself, "cable-on-itself", Severity::error},
    {TroubleKind::length_missing, "cable-length-missing", Severity::error},
    {TroubleKind::length_zero, "cable-length-zero", Severity::warning},
    {TroubleKind::lead_size_missing, "lead-size-missing", Severity::warning},
    {TroubleKind::tap_not_offered, "tap-not-offered", Severity::error},
    {TroubleKind::too_many_outputs, "too-many-outputs", Severity::error},
    {TroubleKind::no_lamps, "no-lamps", Severity::note},
    {TroubleKind::output_unused, "output-unused", Severity::note},
    {TroubleKind::cables_at_lamp, "cables-at-luminaire", Severity::note},
    {TroubleKind::lamp_fed_twice, "lamp-fed-twice", Severity::warning},
    {TroubleKind::island, "island", Severity::error},
    {TroubleKind::lamp_no_supply, "lamp-no-supply", Severity::error},
    {TroubleKind::outputs_joined, "outputs-joined", Severity::error},
    {TroubleKind::crossed_loop, "crossed-loop", Severity::error},
    {TroubleKind::unsolved, "unsolved", Severity::error},
    {TroubleKind::lamp_off, "lamp-off", Severity::error},
    {TroubleKind::lamp_not_regulated, "lamp-not-regulated", Severity::error},
    {TroubleKind::lamp_over, "lamp-over", Severity::error},
    {TroubleKind::lamp_low, "lamp-window", Severity::error},
    {TroubleKind::lamp_high, "lamp-window", Severity::error},
    {TroubleKind::output_overload, "output-overload", Severity::error},
    {TroubleKind::output_headroom, "output-headroom", Severity::warning},
    {TroubleKind::transformer_overload, "transformer-overload", Severity::error},
    {TroubleKind::transformer_headroom, "transformer-headroom", Severity::warning},
    {TroubleKind::far_short, "far-short", Severity::warning},
    {TroubleKind::load_margin, "load-margin", Severity::warning},
    {TroubleKind::length_margin, "length-margin", Severity::warning},
};

constexpr bool in_order() {
  for (std::size_t i = 0; i < std::size(rows); ++i) {
    if (static_cast<std::size_t>(rows[i].kind) != i) return false;
  }
  return std::size(rows) == static_cast<std::size_t>(TroubleKind::length_margin) + 1;
}
static_assert(in_order());

const KindRow& row_of(TroubleKind kind) { return rows[static_cast<std::size_t>(kind)]; }

}  // namespace

const char* finding_id(TroubleKind kind) { return row_of(kind).id; }
Severity severity_of(TroubleKind kind) { return row_of(kind).severity; }
bool is_electrical(TroubleKind kind) { return kind >= TroubleKind::island && kind != TroubleKind::unsolved; }

std::string id_of(const job::Job& job, const Spot& spot) {
  switch (spot.kind) {
    case SpotKind::job:
      return job.id;
    case SpotKind::luminaire:
      return job.luminaires[spot.index].id;
    case SpotKind::transformer:
      return job.transformers[spot.index].id;
    case SpotKind::output:
      return job.transformers[spot.index].outputs[spot.output].id;
    case SpotKind::cable:
      return job.cables[spot.index].id;
    case SpotKind::joint:
      return job.joints[spot.index].id;
    case SpotKind::luminaire_item:
      return job.catalogue.luminaires[spot.index].id;
    case SpotKind::transformer_item:
      return job.catalogue.transformers[spot.index].id;
    case SpotKind::cable_item:
      return job.catalogue.cables[spot.index].id;
    case SpotKind::connector_item:
      return job.catalogue.connectors[spot.index].id;
  }
  return "";
}

std::string pointer_of(const Spot& spot) {
  switch (spot.kind) {
    case SpotKind::job:
      return "";
    case SpotKind::luminaire:
      return fmt::format("/luminaires/{}", spot.index);
    case SpotKind::transformer:
      return fmt::format("/transformers/{}", spot.index);
    case SpotKind::output:
      return fmt::format("/transformers/{}/outputs/{}", spot.index, spot.output);
    case SpotKind::cable:
      return fmt::format("/cables/{}", spot.index);
    case SpotKind::joint:
      return fmt::format("/joints/{}", spot.index);
    case SpotKind::luminaire_item:
      return fmt::format("/catalogue/luminaires/{}", spot.index);
    case SpotKind::transformer_item:
      return fmt::format("/catalogue/transformers/{}", spot.index);
    case SpotKind::cable_item:
      return fmt::format("/catalogue/cables/{}", spot.index);
    case SpotKind::connector_item:
      return fmt::format("/catalogue/connectors/{}", spot.index);
  }
  return "";
}

}  // namespace duskwire::study
