// SPDX-License-Identifier: Apache-2.0
#include "paper/crew_tables.hpp"

#include <fmt/format.h>

#include <cmath>

#include "paper/crew_words.hpp"
#include "study/ground.hpp"

namespace duskwire::paper {
namespace {

constexpr const char* box = "\u2610";

std::string headed(const char* what, job::DisplayUnits units) {
  return fmt::format("{}, {}", what, length_unit_name(units));
}

std::string zone_words(const std::string& zone) { return zone.empty() ? "No zone" : zone; }

std::string ground_name(const std::optional<job::GroundKind>& ground) {
  if (!ground) return "Not on the plan";
  std::string words(study::ground_words(*ground));
  for (const char* article : {"a ", "the "}) {
    if (words.rfind(article, 0) == 0) words.erase(0, std::char_traits<char>::length(article));
  }
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::string some(double length_m, job::DisplayUnits units) {
  return length_m < 0.05 ? "\u2013" : length_figure(length_m, units);
}

std::string hours_words(double minutes) {
  const double hours = minutes / 60;
  return hours > 0 && hours < 0.05 ? "< 0.1" : fmt::format("{:.1f}", hours);
}

struct TapeCells {
  std::string first = "measure";
  std::string second = "measure";
  std::string side;
  std::string source;
};

TapeCells tape_cells(const std::optional<study::TapeOffsets>& offsets, job::DisplayUnits units) {
  if (!offsets) return {};
  const auto words = [&](const study::TapeOffset& tape) {
    return fmt::format("{}, {}", tape_words(tape.distance_m, units), tape.name.empty() ? tape.point : tape.name);
  };
  TapeCells cells{words(offsets->first), words(offsets->second), "", offsets->measured ? "site" : "plan"};
  if (offsets->side == study::TapeSide::left) cells.side = "left";
  if (offsets->side == study::TapeSide::right) cells.side = "right";
  return cells;
}

}  // namespace

Table gate_table(const study::CrewGate& gate) {
  Table table;
  table.columns = {
      {"", Side::middle, 11}, {"What must be so"}, {"What the job says of it"}, {"By, date", Side::start, 24}};
  for (const study::GateLine& line : gate.lines) {
    const bool blocked = line.state == study::GateState::blocked;
    table.rows.push_back({{blocked ? "STOP" : box, line.text, line.detail, ""}, RowKind::plain});
  }
  table.least_row_mm = 8;
  return table;
}

Table run_summary_table(const study::CrewSet& set, job::DisplayUnits units) {
  Table table;
  table.columns = {{"Output"},
                   {"Transformer"},
                   {"Tap, V", Side::end},
                   {"Terminals, V", Side::end},
                   {"Amps", Side::end},
                   {"Limit, A", Side::end},
                   {"Lamps", Side::end},
                   {"VA", Side::end},
                   {"Cables", Side::end},
                   {headed("Route", units), Side::end},
                   {headed("Cut", units), Side::end}};
  for (const study::CrewRun& run : set.runs) {
    table.rows.push_back(
        {{run.output.empty() ? "not fed" : run.output, id_and_name(run.transformer, run.transformer_name),
          fmt::format("{:g}", run.tap_v), volts_figure(run.terminal_v), amps_figure(run.current_a),
          fmt::format("{:g}", run.limit_a), std::to_string(run.lamps.size()), va_figure(run.va),
          std::to_string(run.steps.size()), length_figure(run.route_m, units), length_figure(run.cut_m, units)},
         RowKind::plain});
  }
  table.rows.push_back({{"All", "", "", "", "", "", std::to_string(set.totals.luminaires),
                         va_figure(set.totals.lamp_va), std::to_string(set.totals.cables),
                         length_figure(set.totals.route_m, units), length_figure(set.totals.cut_m, units)},
                        RowKind::sum});
  return table;
}

Table run_table(const study::CrewRun& run, job::DisplayUnits units) {
  Table table;
  table.columns = {{"Cable"},
                   {"From"},
                   {"To"},
                   {"Type"},
                   {headed("Route", units), Side::end},
                   {headed("Cut", units), Side::end},
                   {"Cover", Side::end},
                   {"Amps", Side::end},
                   {"Volts there", Side::end},
                   {"Lamps there: volts, worst to best, amps"}};
  for (const study::CrewStep& step : run.steps) {
    std::vector<std::string> lamps;
    for (const std::uint32_t index : step.lamps) {
      const study::CrewLamp& lamp = run.lamps[index];
      lamps.push_back(fmt::format("{}: {} ({}\u2013{}), {}", lamp.id, volts_figure(lamp.nominal_v),
                                  volts_figure(lamp.worst_low_v), volts_figure(lamp.worst_high_v),
                                  amps_figure(lamp.current_a)));
    }
    std::string to = step.to;
    if (step.closes_loop) to += " (closes a loop: same conductor to same conductor)";
    if (!step.sleeve.empty()) to += " (through " + step.sleeve + ")";
    table.rows.push_back(
        {{step.cable, step.from, to, step.item, step.route_m ? length_figure(*step.route_m, units) : "\u2013",
          length_figure(step.cut_m, units), cover_words(step.depth_m, units), amps_figure(step.current_a),
          volts_figure(step.to_v), joined(lamps, "\n")},
         RowKind::plain});
  }
  table.rows.push_back({{fmt::format("{}", run.steps.size()), "", "", "", length_figure(run.route_m, units),
                         length_figure(run.cut_m, units), "", "", "",
                         fmt::format("{} lamps, {} VA", run.lamps.size(), va_figure(run.va))},
                        RowKind::sum});
  table.text_pt = 8;
  return table;
}

Table cut_table(const estimate::Materials& materials, job::DisplayUnits units) {
  Table table;
  table.columns = {{"", Side::middle, 6},
                   {"Tag for both ends"},
                   {"Reel", Side::end},
                   {"From"},
                   {"To"},
                   {headed("Route", units), Side::end},
                   {headed("Slack from", units), Side::end},
                   {headed("Slack to", units), Side::end},
                   {headed("Cut", units), Side::end},
                   {headed("Off the reel", units), Side::end}};
  for (const estimate::CableTotal& total : materials.cables) {
    table.rows.push_back(
        {{fmt::format("{} ({})", total.title.empty() ? total.item : total.title, total.item)}, RowKind::group});
    for (const estimate::Cut& cut : materials.cuts) {
      if (cut.item != total.item) continue;
      table.rows.push_back(
          {{box, cut.tag, std::to_string(cut.reel), cut.from, cut.to, length_figure(cut.route_m, units),
            length_figure(cut.slack_from_m, units), length_figure(cut.slack_to_m, units),
            length_figure(cut.cut_m, units), length_figure(cut.running_m, units)},
           RowKind::plain});
    }
    table.rows.push_back({{"", fmt::format("{} cuts", total.cuts), "", "", "", length_figure(total.route_m, units), "",
                           "slack " + length_figure(total.slack_m, units), length_figure(total.cut_m, units), ""},
                          RowKind::sum});
  }
  return table;
}

Table reel_table(const estimate::Materials& materials, job::DisplayUnits units) {
  Table table;
  table.columns = {{"Cable"},
                   {"Reel", Side::end},
                   {headed("Bought", units), Side::end},
                   {headed("Cut off", units), Side::end},
                   {headed("Left for waste", units), Side::end}};
  for (const estimate::Reel& reel : materials.reels) {
    table.rows.push_back({{reel.item, std::to_string(reel.number), length_figure(reel.length_m, units),
                           length_figure(reel.used_m, units), length_figure(reel.length_m - reel.used_m, units)},
                          RowKind::plain});
  }
  return table;
}

Table joint_table(const study::CrewSet& set, job::DisplayUnits units) {
  Table table;
  table.columns = {{"", Side::middle, 6},
                   {"Joint"},
                   {"Kind"},
                   {"Wires", Side::end},
                   {"Connector"},
                   {"Pieces", Side::end},
                   {"Free", Side::end},
                   {"Volts", Side::end},
                   {"Cover", Side::end, 14},
                   {"First tape"},
                   {"Second tape"},
                   {"Side", Side::start, 12},
                   {"Known", Side::start, 13}};
  for (const study::CrewJoint& joint : set.joints) {
    std::string connector = joint.connector_title.empty() ? "none that fits" : joint.connector_title;
    if (joint.suggested) connector += " (suggested)";
    if (!joint.fits && !joint.connector.empty()) connector += " (does not fit)";
    const TapeCells tapes = tape_cells(joint.offsets, units);
    table.rows.push_back({{box, id_and_name(joint.id, joint.name), joint_kind_words(joint.kind),
                           std::to_string(joint.wires_per_conductor), connector, std::to_string(joint.pieces),
                           std::to_string(joint.spare_ports), volts_figure(joint.nominal_v),
                           cover_words(joint.depth_m, units), tapes.first, tapes.second, tapes.side, tapes.source},
                          RowKind::plain});
  }
  table.rows.push_back({{"", fmt::format("{} joints", set.totals.joints), "", "", "",
                         std::to_string(set.totals.connectors), "", "", "", "", "", "", ""},
                        RowKind::sum});
  table.text_pt = 8;
  return table;
}

Table trench_table(const study::CrewGround& ground, job::DisplayUnits units) {
  Table table;
  table.columns = {{"Ground"},
                   {"Cover to the top of the cable", Side::end},
                   {headed("Dig", units), Side::end},
                   {headed("In a trench already dug", units), Side::end},
                   {headed("Through sleeves", units), Side::end},
                   {headed("Fastened", units), Side::end},
                   {"Hours, estimate", Side::end},
                   {"Cables"}};
  double shared_m = 0;
  double pulled_m = 0;
  double fastened_m = 0;
  for (const study::CrewTrench& trench : ground.trenches) {
    shared_m += trench.shared_m;
    pulled_m += trench.pulled_m;
    fastened_m += trench.fastened_m;
    std::string cables = joined(trench.cables);
    if (!trench.deeper_in_shared.empty()) {
      cables += fmt::format(". Dig to this cover for {} where they share a trench", joined(trench.deeper_in_shared));
    }
    table.rows.push_back({{ground_name(trench.ground), cover_words(trench.cover_m, units), some(trench.dug_m, units),
                           some(trench.shared_m, units), some(trench.pulled_m, units), some(trench.fastened_m, units),
                           hours_words(trench.minutes), cables},
                          RowKind::plain});
  }
  table.rows.push_back({{"All", "", length_figure(ground.dug_m, units), some(shared_m, units), some(pulled_m, units),
                         some(fastened_m, units), hours_words(ground.minutes), ""},
                        RowKind::sum});
  return table;
}

Table sleeve_table(const study::CrewGround& ground, job::DisplayUnits units) {
  Table table;
  table.columns = {
      {"Found", Side::middle, 14}, {"Sleeve"},           {"By the job"},       {headed("Length", units), Side::end},
      {"Diameter", Side::end},     {"Depth", Side::end}, {"Cables through it"}};
  for (const study::CrewSleeve& sleeve : ground.sleeves) {
    table.rows.push_back(
        {{box, sleeve.id, sleeve.laid ? "in the ground" : "to be laid", length_figure(sleeve.length_m, units),
          fmt::format("{:g} mm", sleeve.diameter_mm), cover_words(sleeve.depth_m, units),
          sleeve.cables.empty() ? "none: a spare" : joined(sleeve.cables)},
         RowKind::plain});
  }
  return table;
}

Table aim_table(const std::vector<study::CrewAim>& aims, job::DisplayUnits units) {
  Table table;
  table.columns = {{"", Side::middle, 6},
                   {"Lamp"},
                   {"Luminaire"},
                   {"Lights"},
                   {"Turn", Side::end},
                   {"Tilt", Side::end, 15},
                   {"Beam", Side::end, 15},
                   {"Height", Side::end, 16},
                   {"First tape"},
                   {"Second tape"},
                   {"Side", Side::start, 10}};
  for (const study::CrewAim& aim : aims) {
    const std::string turn = aim.aimed ? fmt::format("{:.0f}\u00b0", std::fmod(aim.azimuth_deg + 360, 360)) : "\u2013";
    const std::string tilt =
        !aim.aimed ? "upright"
                   : fmt::format("{:.0f}\u00b0 {}", std::abs(aim.tilt_deg), aim.tilt_deg < 0 ? "down" : "up");
    std::string beam = aim.beam_deg >= 360 ? "all round" : fmt::format("{:g}\u00b0", aim.beam_deg);
    if (aim.dim_pct < 100) beam += fmt::format(", {:g} %", aim.dim_pct);
    std::string lights = study::lights_in_words(aim, units);
    if (aim.shield_cut_off_deg) lights += fmt::format("; shield, {:g}\u00b0", *aim.shield_cut_off_deg);
    if (aim.on_ladder) lights += "; ladder";
    const TapeCells tapes = tape_cells(aim.offsets, units);
    table.rows.push_back(
        {{box, id_and_name(aim.id, aim.name), aim.title, lights, turn, tilt, beam,
          aim.height_m ? tape_words(*aim.height_m, units) : "\u2013", tapes.first, tapes.second, tapes.side},
         RowKind::plain});
  }
  table.text_pt = 8;
  return table;
}

Table pick_table(const study::CrewSet& set, job::DisplayUnits units) {
  Table table;
  table.columns = {{"", Side::middle, 6}, {"Quantity", Side::end}, {"Unit"}, {"What"}, {"For"}};
  for (const study::CrewBag& bag : set.bags) {
    std::string title = "Zone: " + zone_words(bag.name);
    if (bag.kind == study::BagKind::transformer) title = "Transformer " + bag.name;
    if (bag.kind == study::BagKind::van) title = "In the van, for the whole job";
    table.rows.push_back({{title}, RowKind::group});
    for (const study::CrewPick& pick : bag.picks) {
      const bool metres = pick.unit == "m";
      table.rows.push_back({{box, metres ? length_figure(pick.quantity, units) : fmt::format("{:.0f}", pick.quantity),
                             metres               ? length_unit_name(units)
                             : pick.quantity == 1 ? "piece"
                                                  : "pieces",
                             pick.title.empty() ? pick.item : pick.title, joined(pick.users)},
                            RowKind::plain});
    }
  }
  return table;
}

}  // namespace duskwire::paper
