// SPDX-License-Identifier: Apache-2.0
#include "study/crew_lists.hpp"

#include <fmt/format.h>

#include <optional>
#include <string>

#include "study/ground.hpp"

namespace duskwire::study {
namespace {

using Kind = ColumnKind;

constexpr const char* estimate_note = "Volts and amps are computed estimates for nominal mains with every lamp on.";

TableCell maybe(const std::optional<double>& value) { return value ? TableCell(*value) : TableCell(); }
TableCell whole(std::uint32_t value) { return static_cast<std::int64_t>(value); }
TableCell yes(bool value) { return std::string(value ? "yes" : "no"); }
std::string joined_ids(const std::vector<std::string>& ids) { return fmt::format("{}", fmt::join(ids, " ")); }
std::string ground_id(const std::optional<job::GroundKind>& ground) {
  return ground ? std::string(ground_key(*ground)) : "";
}

std::string kind_id(const std::optional<job::JointKind>& kind) {
  if (!kind) return "";
  switch (*kind) {
    case job::JointKind::in_line:
      return "in_line";
    case job::JointKind::branch:
      return "branch";
    case job::JointKind::hub:
      return "hub";
    case job::JointKind::end_of_run:
      return "end_of_run";
  }
  return "";
}

struct Tape {
  TableCell distance;
  TableCell point;
};

Tape tape_of(const std::optional<TapeOffsets>& offsets, bool first) {
  if (!offsets) return {};
  const TapeOffset& tape = first ? offsets->first : offsets->second;
  return {tape.distance_m, tape.name.empty() ? tape.point : tape.name};
}

TableCell side_of(const std::optional<TapeOffsets>& offsets) {
  if (!offsets || offsets->side == TapeSide::unknown) return {};
  return std::string(offsets->side == TapeSide::left ? "left" : "right");
}

TableData runs_list(const CrewSet& set) {
  TableData table{"runs",
                  "Run schedule",
                  "",
                  {{"output", "Output"},
                   {"tap_v", "Tap, V", Kind::number},
                   {"cable", "Cable"},
                   {"item", "Type"},
                   {"from", "From"},
                   {"to", "To"},
                   {"level", "Cables before it", Kind::count},
                   {"route_m", "Route, m", Kind::number},
                   {"cut_m", "Cut, m", Kind::number},
                   {"cover_m", "Cover, m", Kind::number},
                   {"sleeve", "Sleeve"},
                   {"current_a", "Amps", Kind::number},
                   {"volts_v", "Volts at its end", Kind::number},
                   {"closes_loop", "Closes a loop"},
                   {"lamps", "Lamps there"}},
                  {},
                  estimate_note};
  for (const CrewRun& run : set.runs) {
    for (const CrewStep& step : run.steps) {
      std::vector<std::string> lamps;
      for (const std::uint32_t lamp : step.lamps) lamps.push_back(run.lamps[lamp].id);
      table.rows.push_back({run.output, run.tap_v, step.cable, step.item, step.from, step.to, whole(step.level),
                            maybe(step.route_m), step.cut_m, maybe(step.depth_m), step.sleeve, step.current_a,
                            step.to_v, yes(step.closes_loop), joined_ids(lamps)});
    }
  }
  return table;
}

TableData lamps_list(const CrewSet& set) {
  TableData table{"lamps",
                  "Lamps",
                  "",
                  {{"output", "Output"},
                   {"lamp", "Lamp"},
                   {"name", "Name"},
                   {"item", "Type"},
                   {"zone", "Zone"},
                   {"joint", "Joint"},
                   {"lead_m", "Lead, m", Kind::number},
                   {"power_va", "VA", Kind::number},
                   {"nominal_v", "Volts", Kind::number},
                   {"worst_low_v", "Least, V", Kind::number},
                   {"worst_high_v", "Most, V", Kind::number},
                   {"window_min_v", "Window from, V", Kind::number},
                   {"window_max_v", "Window to, V", Kind::number},
                   {"current_a", "Amps", Kind::number}},
                  {},
                  estimate_note};
  for (const CrewRun& run : set.runs) {
    for (const CrewLamp& lamp : run.lamps) {
      table.rows.push_back({run.output, lamp.id, lamp.name, lamp.item, lamp.zone, lamp.at, lamp.lead_m, lamp.va,
                            lamp.nominal_v, lamp.worst_low_v, lamp.worst_high_v, lamp.window_min_v, lamp.window_max_v,
                            lamp.current_a});
    }
  }
  return table;
}

TableData cuts_list(const CrewSet& set) {
  TableData table{"cuts",
                  "Cut list",
                  "",
                  {{"tag", "Tag"},
                   {"item", "Type"},
                   {"reel", "Reel", Kind::count},
                   {"from", "From"},
                   {"to", "To"},
                   {"route_m", "Route, m", Kind::number},
                   {"slack_from_m", "Slack from, m", Kind::number},
                   {"slack_to_m", "Slack to, m", Kind::number},
                   {"cut_m", "Cut, m", Kind::number},
                   {"running_m", "Off the reel, m", Kind::number}},
                  {},
                  ""};
  for (const estimate::Cut& cut : set.materials.cuts) {
    table.rows.push_back({cut.tag, cut.item, whole(cut.reel), cut.from, cut.to, cut.route_m, cut.slack_from_m,
                          cut.slack_to_m, cut.cut_m, cut.running_m});
  }
  return table;
}

TableData reels_list(const CrewSet& set) {
  TableData table{"reels",
                  "Reels",
                  "",
                  {{"item", "Type"},
                   {"reel", "Reel", Kind::count},
                   {"bought_m", "Bought, m", Kind::number},
                   {"used_m", "Cut off, m", Kind::number}},
                  {},
                  ""};
  for (const estimate::Reel& reel : set.materials.reels) {
    table.rows.push_back({reel.item, whole(reel.number), reel.length_m, reel.used_m});
  }
  return table;
}

TableData joints_list(const CrewSet& set) {
  TableData table{"joints",
                  "Joint list",
                  "",
                  {{"joint", "Joint"},
                   {"name", "Name"},
                   {"kind", "Kind"},
                   {"wires_per_conductor", "Wires per conductor", Kind::count},
                   {"connector", "Connector"},
                   {"suggested", "Suggested"},
                   {"pieces", "Pieces", Kind::count},
                   {"free_per_conductor", "Free per conductor", Kind::count},
                   {"nominal_v", "Volts", Kind::number},
                   {"cover_m", "Cover, m", Kind::number},
                   {"tape_1_m", "First tape, m", Kind::number},
                   {"point_1", "From"},
                   {"tape_2_m", "Second tape, m", Kind::number},
                   {"point_2", "From"},
                   {"side", "Side"},
                   {"measured", "Measured"}},
                  {},
                  estimate_note};
  for (const CrewJoint& joint : set.joints) {
    const Tape first = tape_of(joint.offsets, true);
    const Tape second = tape_of(joint.offsets, false);
    table.rows.push_back({joint.id, joint.name, kind_id(joint.kind), whole(joint.wires_per_conductor), joint.connector,
                          yes(joint.suggested), whole(joint.pieces), whole(joint.spare_ports), joint.nominal_v,
                          maybe(joint.depth_m), first.distance, first.point, second.distance, second.point,
                          side_of(joint.offsets), yes(joint.offsets && joint.offsets->measured)});
  }
  return table;
}

TableData trenches_list(const CrewSet& set) {
  TableData table{"trenches",
                  "Trench list",
                  "",
                  {{"ground", "Ground"},
                   {"cover_m", "Cover, m", Kind::number},
                   {"dug_m", "Dig, m", Kind::number},
                   {"shared_m", "In a trench already dug, m", Kind::number},
                   {"pulled_m", "Through sleeves, m", Kind::number},
                   {"fastened_m", "Fastened, m", Kind::number},
                   {"labour_min", "Minutes, estimate", Kind::number},
                   {"cables", "Cables"}},
                  {},
                  ""};
  for (const CrewTrench& trench : set.ground.trenches) {
    table.rows.push_back({ground_id(trench.ground), maybe(trench.cover_m), trench.dug_m, trench.shared_m,
                          trench.pulled_m, trench.fastened_m, trench.minutes, joined_ids(trench.cables)});
  }
  return table;
}

TableData sleeves_list(const CrewSet& set) {
  TableData table{"sleeves",
                  "Sleeves",
                  "",
                  {{"sleeve", "Sleeve"},
                   {"laid", "In the ground"},
                   {"length_m", "Length, m", Kind::number},
                   {"diameter_mm", "Diameter, mm", Kind::number},
                   {"depth_m", "Depth, m", Kind::number},
                   {"cables", "Cables through it"}},
                  {},
                  ""};
  for (const CrewSleeve& sleeve : set.ground.sleeves) {
    table.rows.push_back(
        {sleeve.id, yes(sleeve.laid), sleeve.length_m, sleeve.diameter_mm, sleeve.depth_m, joined_ids(sleeve.cables)});
  }
  return table;
}

TableData aims_list(const CrewSet& set) {
  TableData table{"aims",
                  "Aiming list",
                  "",
                  {{"lamp", "Lamp"},
                   {"name", "Name"},
                   {"title", "Luminaire"},
                   {"lights", "Lights"},
                   {"setback_m", "Setback, m", Kind::number},
                   {"azimuth_deg", "Turn, degrees from north", Kind::number},
                   {"tilt_deg", "Tilt, degrees", Kind::number},
                   {"beam_deg", "Beam, degrees", Kind::number},
                   {"dim_pct", "Level, %", Kind::number},
                   {"height_m", "Height, m", Kind::number},
                   {"ladder", "Ladder"},
                   {"tape_1_m", "First tape, m", Kind::number},
                   {"point_1", "From"},
                   {"tape_2_m", "Second tape, m", Kind::number},
                   {"point_2", "From"},
                   {"side", "Side"}},
                  {},
                  ""};
  for (const CrewAim& aim : set.aims) {
    const Tape first = tape_of(aim.offsets, true);
    const Tape second = tape_of(aim.offsets, false);
    table.rows.push_back({aim.id, aim.name, aim.title, aim.lights, maybe(aim.setback_m),
                          aim.aimed ? TableCell(aim.azimuth_deg) : TableCell(),
                          aim.aimed ? TableCell(aim.tilt_deg) : TableCell(), aim.beam_deg, aim.dim_pct,
                          maybe(aim.height_m), yes(aim.on_ladder), first.distance, first.point, second.distance,
                          second.point, side_of(aim.offsets)});
  }
  return table;
}

TableData picks_list(const CrewSet& set) {
  TableData table{"picks",
                  "Pick list",
                  "",
                  {{"bag", "Bag"},
                   {"of", "Of"},
                   {"category", "Category"},
                   {"item", "Item"},
                   {"title", "What"},
                   {"quantity", "Quantity", Kind::number},
                   {"unit", "Unit"},
                   {"for", "For"}},
                  {},
                  ""};
  for (const CrewBag& bag : set.bags) {
    const char* kind = bag.kind == BagKind::zone ? "zone" : bag.kind == BagKind::transformer ? "transformer" : "van";
    for (const CrewPick& pick : bag.picks) {
      table.rows.push_back({std::string(kind), bag.name, std::string(estimate::category_name(pick.category)), pick.item,
                            pick.title, pick.quantity, pick.unit, joined_ids(pick.users)});
    }
  }
  return table;
}

TableData readings_list(const CrewSet& set) {
  TableData table{"readings",
                  "Commissioning",
                  "",
                  {{"output", "Output"},
                   {"place", "Place"},
                   {"name", "Name"},
                   {"kind", "Kind"},
                   {"predicted_v", "Predicted, V", Kind::number},
                   {"drop_v", "Drop from the output, V", Kind::number},
                   {"tolerance_v", "Within, V", Kind::number},
                   {"predicted_a", "Predicted, A", Kind::number},
                   {"tolerance_a", "Within, A", Kind::number},
                   {"read_v", "Read, V", Kind::number},
                   {"read_a", "Read, A", Kind::number}},
                  {},
                  estimate_note};
  for (const CommissioningOutput& output : set.commissioning.outputs) {
    table.rows.push_back({output.output, output.output, TableCell(), std::string("output"), output.terminal_v, 0.0,
                          output.terminal_tolerance_v, output.current_a, output.tolerance_a, TableCell(), TableCell()});
    for (const CommissioningRow& row : output.rows) {
      const char* kind = row.kind == CommissioningKind::lamp ? "lamp" : "joint";
      table.rows.push_back({output.output, row.id, row.name, std::string(kind), row.nominal_v, row.drop_v,
                            row.tolerance_v, TableCell(), TableCell(), TableCell(), TableCell()});
    }
  }
  return table;
}

}  // namespace

std::vector<TableData> crew_lists(const CrewSet& set) {
  return {runs_list(set),     lamps_list(set),   cuts_list(set), reels_list(set), joints_list(set),
          trenches_list(set), sleeves_list(set), aims_list(set), picks_list(set), readings_list(set)};
}

}  // namespace duskwire::study
