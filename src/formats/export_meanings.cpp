// SPDX-License-Identifier: Apache-2.0
// The meaning of each column of an export. A row without a table holds for each table that has the column and no row
// of its own.
#include <array>

#include "formats/export_tables.hpp"

namespace duskwire::formats {
namespace {

struct Meaning {
  std::string_view table;
  std::string_view column;
  std::string_view text;
};

constexpr std::string_view lamps = "lamps";
constexpr std::string_view cables = "cables";
constexpr std::string_view joints = "joints";
constexpr std::string_view outputs = "outputs";
constexpr std::string_view transformers = "transformers";
constexpr std::string_view materials = "materials";
constexpr std::string_view cuts = "cut-list";
constexpr std::string_view price = "price";
constexpr std::string_view readings = "readings";

constexpr std::array meanings{
    Meaning{"", "name", "Its name for people"},
    Meaning{"", "item", "The article: its id in the job's catalogue"},
    Meaning{"", "title", "The article's name for people"},
    Meaning{"", "x_m", "Place: metres east of the plan's zero"},
    Meaning{"", "y_m", "Place: metres north of the plan's zero"},
    Meaning{"", "z_m", "Place: metres over the ground at the plan's zero"},
    Meaning{"", "output", "Id of the output of a transformer that feeds it; empty: none"},
    Meaning{"", "transformer", "Id of the transformer"},
    Meaning{"", "depth_m", "Cover over it: metres from the surface"},
    Meaning{"", "current_a", "Calculated amperes at nominal mains, all lamps on"},
    Meaning{"", "worst_current_a", "Calculated amperes in the worst corner of mains, cable temperature and length"},
    Meaning{"", "currency", "ISO 4217 code of the amounts in this row"},
    Meaning{"", "unit", "Unit of the quantity"},
    Meaning{"", "quantity", "How much, in the unit of the row"},

    Meaning{lamps, "lamp", "Id of the lamp"},
    Meaning{lamps, "zone", "What is switched together"},
    Meaning{lamps, "azimuth_deg", "Aim: degrees clockwise from north"},
    Meaning{lamps, "tilt_deg", "Aim: degrees over level, 90 straight up, -90 straight down"},
    Meaning{lamps, "dim_pct", "Level that it is set to, per cent of full"},
    Meaning{lamps, "joint", "Id of the joint that its own lead goes to; empty: a cable ends at the lamp"},
    Meaning{lamps, "distance_m", "Metres along the cables from the transformer"},
    Meaning{lamps, "power_w", "Watts of the article times the level"},
    Meaning{lamps, "power_va", "Volt-amperes of the article times the level"},
    Meaning{lamps, "nominal_v", "Calculated volts at the lamp at nominal mains, all lamps on"},
    Meaning{lamps, "worst_low_v", "Calculated least volts over all corners"},
    Meaning{lamps, "worst_high_v", "Calculated most volts over all corners"},
    Meaning{lamps, "window_min_v", "Least volts that the article is made for"},
    Meaning{lamps, "window_max_v", "Most volts that the article is made for"},
    Meaning{lamps, "light_pct", "Calculated light at nominal mains, per cent of full"},

    Meaning{cables, "cable", "Id of the cable"},
    Meaning{cables, "from", "Id of the output, joint or lamp where it begins"},
    Meaning{cables, "to", "Id of the output, joint or lamp where it ends"},
    Meaning{cables, "route_m", "Way along the ground, one way, without slack, metres"},
    Meaning{cables, "slack_from_m", "Loose cable left at its beginning, metres"},
    Meaning{cables, "slack_to_m", "Loose cable left at its end, metres"},
    Meaning{cables, "length_m", "Route and both slacks: what is cut and what the current runs through, metres"},
    Meaning{cables, "ground", "What it lies under where the plan does not tell; a name as in job.json"},
    Meaning{cables, "sleeve", "Id of the sleeve that it goes through; empty: none"},
    Meaning{cables, "crossed", "yes: conductors found swapped at its end"},
    Meaning{cables, "drop_v", "Calculated volts lost in both conductors, nominal"},
    Meaning{cables, "loss_w", "Calculated watts lost in it, nominal"},
    Meaning{cables, "from_v", "Calculated volts at its beginning, nominal"},
    Meaning{cables, "to_v", "Calculated volts at its end, nominal"},

    Meaning{joints, "joint", "Id of the joint"},
    Meaning{joints, "kind", "in_line, branch, hub or end_of_run"},
    Meaning{joints, "connector", "The connector: its id in the job's catalogue; empty: not chosen"},
    Meaning{joints, "connector_count", "Pieces as fitted; empty: one per conductor"},
    Meaning{joints, "buried", "yes: in the ground, not inside a fixture or an enclosure"},
    Meaning{joints, "fixed_point_1", "Id of the point of the plan that the first tape starts at"},
    Meaning{joints, "offset_1_m", "Reading of the first tape, metres"},
    Meaning{joints, "fixed_point_2", "Id of the point of the plan that the second tape starts at"},
    Meaning{joints, "offset_2_m", "Reading of the second tape, metres"},
    Meaning{joints, "recorded", "When that was recorded, ISO 8601"},
    Meaning{joints, "done", "yes: the joint is made"},

    Meaning{outputs, "output", "Id of the output"},
    Meaning{outputs, "tap_v", "Volts of the tap without load at nominal mains"},
    Meaning{outputs, "lamp_count", "How many lamps it feeds"},
    Meaning{outputs, "lamp_va", "Sum of power_va in lamps.csv over its lamps"},
    Meaning{outputs, "terminal_v", "Calculated volts at its terminals, nominal"},
    Meaning{outputs, "limit_a", "Amperes at which its protection ends the flow"},
    Meaning{outputs, "lowest_lamp_v", "Calculated least volts of its lamps over all corners"},
    Meaning{outputs, "highest_lamp_v", "Calculated most volts of its lamps over all corners"},
    Meaning{outputs, "far_short_a", "Calculated least amperes of a bolted short anywhere on it"},
    Meaning{outputs, "far_short_at", "Id of the joint or lamp where that is"},

    Meaning{transformers, "mounting", "wall, post or indoors"},
    Meaning{transformers, "mounting_height_m", "Its lower edge over the ground, metres"},
    Meaning{transformers, "receptacle", "Id of the receptacle of the plan that it is plugged into"},
    Meaning{transformers, "rating_va", "Volt-amperes that it may give for good"},
    Meaning{transformers, "lamp_va", "Sum of the rated volt-amperes of its lamps, times their levels"},
    Meaning{transformers, "load_va", "Calculated volt-amperes at its terminals, nominal, with the loss in the cables"},
    Meaning{transformers, "worst_load_va", "The same in the worst corner"},
    Meaning{transformers, "input_w", "Estimated watts taken from the mains"},

    Meaning{materials, "category", "Group of the list"},
    Meaning{materials, "unit_price", "Price of one unit, with the decimals of the currency"},
    Meaning{materials, "price", "Price of the row, with the decimals of the currency"},
    Meaning{materials, "labour_min", "Minutes of work for the row, an estimate"},
    Meaning{materials, "note", "What it is for"},

    Meaning{cuts, "tag", "Id of the cable: what is written on both ends"},
    Meaning{cuts, "item", "The cable's article"},
    Meaning{cuts, "from", "Id of the end where it begins"},
    Meaning{cuts, "from_name", "The same, for people"},
    Meaning{cuts, "to", "Id of the end where it ends"},
    Meaning{cuts, "to_name", "The same, for people"},
    Meaning{cuts, "route_m", "Way along the ground, metres"},
    Meaning{cuts, "slack_from_m", "Loose cable at its beginning, metres"},
    Meaning{cuts, "slack_to_m", "Loose cable at its end, metres"},
    Meaning{cuts, "cut_m", "What is cut off the reel, metres"},
    Meaning{cuts, "reel", "Number of the reel of this article, from 1"},
    Meaning{cuts, "running_m", "Cut off that reel so far, this cut included, metres"},

    Meaning{price, "line", "Id of the line, the same from one price of the job to the next"},
    Meaning{price, "group", "material, labour, extra or tax"},
    Meaning{price, "text", "What is charged for"},
    Meaning{price, "unit_price", "Price of one unit as shown, with the decimals of the currency"},
    Meaning{price, "cost", "Cost to the contractor, with the decimals of the currency"},
    Meaning{price, "price", "Price to the client, with the decimals of the currency; their sum is the total"},
    Meaning{price, "reason", "How the line came about"},

    Meaning{readings, "visit", "Number of the visit in job.json, from 1"},
    Meaning{readings, "date", "Date of the visit, ISO 8601"},
    Meaning{readings, "kind", "What the visit was for; a name as in job.json"},
    Meaning{readings, "by", "Who was there"},
    Meaning{readings, "place", "Id of the thing that was measured"},
    Meaning{readings, "quantity", "What was measured, such as voltage or current"},
    Meaning{readings, "value", "The reading, in the unit of the row"},
    Meaning{readings, "unit", "Unit of the reading"},
    Meaning{readings, "seen", "What the eye saw instead of a number; measured: there is a number"},
    Meaning{readings, "load", "loaded: lamps on meanwhile; open_circuit: none"},
    Meaning{readings, "clamped", "Of a current: one conductor, the other, or net: both at once"},
    Meaning{readings, "at", "Of a cable: the end beside which it was read"},
    Meaning{readings, "lifted", "Id of the cable that was off its transformer meanwhile"},
    Meaning{readings, "time", "Time of the reading, ISO 8601"},
    Meaning{readings, "note", "What was noted beside it"},
};

}  // namespace

std::string_view meaning_of(std::string_view table, std::string_view column) {
  std::string_view general;
  for (const Meaning& meaning : meanings) {
    if (meaning.column != column) continue;
    if (meaning.table == table) return meaning.text;
    if (meaning.table.empty()) general = meaning.text;
  }
  return general;
}

}  // namespace duskwire::formats
