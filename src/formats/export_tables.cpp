// SPDX-License-Identifier: Apache-2.0
#include "formats/export_tables.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <unordered_map>

#include "estimate/cable_length.hpp"
#include "estimate/material_tables.hpp"
#include "estimate/stockroom.hpp"
#include "formats/enum_names.hpp"
#include "formats/shape_visit.hpp"

namespace duskwire::formats {
namespace {

using Kind = ColumnKind;

TableCell maybe(const std::optional<double>& value) { return value ? TableCell(*value) : TableCell(); }
TableCell yes(bool value) { return std::string(value ? "yes" : "no"); }

template <class Enum>
std::string name_of(Enum value) {
  const auto all = names(Of<Enum>{});
  const auto index = static_cast<std::size_t>(value);
  return index < all.size() ? all[index] : "";
}

template <class Item>
std::string title_of(const estimate::Picked<Item>& picked) {
  return picked ? picked.item->title : "";
}

template <class Row>
std::unordered_map<std::string_view, const Row*> by_id(const std::vector<Row>& rows) {
  std::unordered_map<std::string_view, const Row*> found;
  for (const Row& row : rows) found.emplace(row.id, &row);
  return found;
}

template <class Map>
auto in(const Map& map, const std::string& id) {
  const auto found = map.find(id);
  return found == map.end() ? typename Map::mapped_type{} : found->second;
}

double rated_va(const job::LuminaireItem& item, const job::Luminaire& lamp) {
  return std::max(item.power_w, item.power_va) * lamp.dim_pct / 100;
}

TableData lamps(const job::Job& job, const estimate::Stockroom& shelf, const study::Report& report) {
  TableData table{"lamps",
                  "Lamps",
                  "",
                  {{"lamp", "Lamp"},
                   {"name", "Name"},
                   {"item", "Item"},
                   {"title", "Title"},
                   {"zone", "Zone"},
                   {"x_m", "East, m", Kind::number},
                   {"y_m", "North, m", Kind::number},
                   {"z_m", "Up, m", Kind::number},
                   {"azimuth_deg", "Turn, degrees", Kind::number},
                   {"tilt_deg", "Tilt, degrees", Kind::number},
                   {"dim_pct", "Level, %", Kind::number},
                   {"joint", "Joint"},
                   {"output", "Output"},
                   {"distance_m", "Along the cables, m", Kind::number},
                   {"power_w", "Watts", Kind::number},
                   {"power_va", "VA", Kind::number},
                   {"nominal_v", "Volts", Kind::number},
                   {"worst_low_v", "Least, V", Kind::number},
                   {"worst_high_v", "Most, V", Kind::number},
                   {"window_min_v", "Window from, V", Kind::number},
                   {"window_max_v", "Window to, V", Kind::number},
                   {"current_a", "Amps", Kind::number},
                   {"light_pct", "Light, %", Kind::number}},
                  {},
                  ""};
  const auto reports = by_id(report.lamps);
  for (const job::Luminaire& lamp : job.luminaires) {
    const auto picked = shelf.pick(&job::Catalogue::luminaires, lamp.item);
    std::vector<TableCell> row{lamp.id, lamp.name, lamp.item, title_of(picked), lamp.zone};
    for (const std::size_t axis : {0u, 1u, 2u}) {
      if (!lamp.position) {
        row.emplace_back();
      } else {
        row.emplace_back(axis == 0 ? lamp.position->x_m : axis == 1 ? lamp.position->y_m : lamp.position->z_m);
      }
    }
    const study::LampReport* seen = in(reports, lamp.id);
    const auto number = [&](double study::LampReport::*field) { return seen ? TableCell(seen->*field) : TableCell(); };
    row.insert(row.end(),
               {lamp.azimuth_deg, lamp.tilt_deg, lamp.dim_pct, lamp.joint, seen ? seen->output : "",
                number(&study::LampReport::distance_m),
                picked ? TableCell(picked.item->power_w * lamp.dim_pct / 100) : TableCell(),
                picked ? TableCell(rated_va(*picked.item, lamp)) : TableCell(), number(&study::LampReport::nominal_v),
                number(&study::LampReport::worst_low_v), number(&study::LampReport::worst_high_v),
                number(&study::LampReport::window_min_v), number(&study::LampReport::window_max_v),
                number(&study::LampReport::current_a), seen ? TableCell(seen->light * 100) : TableCell()});
    table.rows.push_back(std::move(row));
  }
  return table;
}

TableData cables(const job::Job& job, const estimate::Stockroom& shelf, const study::Report& report) {
  TableData table{"cables",
                  "Cables",
                  "",
                  {{"cable", "Cable"},
                   {"item", "Item"},
                   {"title", "Title"},
                   {"from", "From"},
                   {"to", "To"},
                   {"output", "Output"},
                   {"route_m", "Route, m", Kind::number},
                   {"slack_from_m", "Slack from, m", Kind::number},
                   {"slack_to_m", "Slack to, m", Kind::number},
                   {"length_m", "Length, m", Kind::number},
                   {"depth_m", "Cover, m", Kind::number},
                   {"ground", "Ground"},
                   {"sleeve", "Sleeve"},
                   {"crossed", "Crossed"},
                   {"current_a", "Amps", Kind::number},
                   {"worst_current_a", "Most, A", Kind::number},
                   {"drop_v", "Drop, V", Kind::number},
                   {"loss_w", "Loss, W", Kind::number},
                   {"from_v", "Volts from", Kind::number},
                   {"to_v", "Volts to", Kind::number}},
                  {},
                  ""};
  const estimate::EndIndex ends(job);
  const auto reports = by_id(report.cables);
  for (const job::Cable& cable : job.cables) {
    const auto length = estimate::cable_length(job, ends, cable);
    const study::CableReport* seen = in(reports, cable.id);
    const auto number = [&](double study::CableReport::*field) { return seen ? TableCell(seen->*field) : TableCell(); };
    table.rows.push_back({cable.id,
                          cable.item,
                          title_of(shelf.pick(&job::Catalogue::cables, cable.item)),
                          cable.from,
                          cable.to,
                          seen ? seen->output : "",
                          length ? TableCell(length->route_m) : TableCell(),
                          length ? TableCell(length->slack_from_m) : TableCell(),
                          length ? TableCell(length->slack_to_m) : TableCell(),
                          length ? TableCell(length->cut_m()) : TableCell(),
                          maybe(cable.depth_m),
                          cable.ground ? name_of(*cable.ground) : "",
                          cable.sleeve,
                          yes(cable.crossed),
                          number(&study::CableReport::current_a),
                          number(&study::CableReport::worst_current_a),
                          number(&study::CableReport::drop_v),
                          number(&study::CableReport::loss_w),
                          number(&study::CableReport::from_v),
                          number(&study::CableReport::to_v)});
  }
  return table;
}

TableData joints(const job::Job& job) {
  TableData table{"joints",
                  "Joints",
                  "",
                  {{"joint", "Joint"},
                   {"name", "Name"},
                   {"kind", "Kind"},
                   {"x_m", "East, m", Kind::number},
                   {"y_m", "North, m", Kind::number},
                   {"connector", "Connector"},
                   {"connector_count", "Pieces", Kind::count},
                   {"buried", "Buried"},
                   {"fixed_point_1", "First point"},
                   {"offset_1_m", "First tape, m", Kind::number},
                   {"fixed_point_2", "Second point"},
                   {"offset_2_m", "Second tape, m", Kind::number},
                   {"depth_m", "Cover, m", Kind::number},
                   {"recorded", "Recorded"},
                   {"done", "Done"}},
                  {},
                  ""};
  for (const job::Joint& joint : job.joints) {
    const job::AsBuilt built = joint.as_built.value_or(job::AsBuilt{});
    table.rows.push_back({joint.id, joint.name, name_of(joint.kind),
                          joint.position ? TableCell(joint.position->x_m) : TableCell(),
                          joint.position ? TableCell(joint.position->y_m) : TableCell(), joint.connector,
                          joint.connector_count ? TableCell(std::int64_t{*joint.connector_count}) : TableCell(),
                          yes(joint.buried), built.fixed_point_1, maybe(built.offset_1_m), built.fixed_point_2,
                          maybe(built.offset_2_m), maybe(built.depth_m), built.recorded, yes(built.done)});
  }
  return table;
}

// Lamps and their volt-amperes are summed here as in the table of lamps, so that the two can be held together.
TableData outputs(const job::Job& job, const estimate::Stockroom& shelf, const study::Report& report) {
  TableData table{"outputs",
                  "Outputs",
                  "",
                  {{"output", "Output"},
                   {"transformer", "Transformer"},
                   {"tap_v", "Tap, V", Kind::number},
                   {"lamp_count", "Lamps", Kind::count},
                   {"lamp_va", "Lamps, VA", Kind::number},
                   {"terminal_v", "At the terminal, V", Kind::number},
                   {"current_a", "Amps", Kind::number},
                   {"worst_current_a", "Most, A", Kind::number},
                   {"limit_a", "Limit, A", Kind::number},
                   {"lowest_lamp_v", "Lowest lamp, V", Kind::number},
                   {"highest_lamp_v", "Highest lamp, V", Kind::number},
                   {"far_short_a", "Far short, A", Kind::number},
                   {"far_short_at", "Far short at"}},
                  {},
                  ""};
  std::unordered_map<std::string, double> va;
  const auto lamp_reports = by_id(report.lamps);
  for (const job::Luminaire& lamp : job.luminaires) {
    const auto picked = shelf.pick(&job::Catalogue::luminaires, lamp.item);
    const study::LampReport* seen = in(lamp_reports, lamp.id);
    if (picked && seen) va[seen->output] += rated_va(*picked.item, lamp);
  }
  for (const study::OutputReport& output : report.outputs) {
    table.rows.push_back({output.id, output.transformer, output.tap_v, std::int64_t{output.lamp_count}, va[output.id],
                          output.terminal_v, output.current_a, output.worst_current_a, output.limit_a,
                          output.lowest_lamp_v, output.highest_lamp_v, output.far_short_a, output.far_short_at});
  }
  return table;
}

TableData transformers(const job::Job& job, const estimate::Stockroom& shelf, const study::Report& report) {
  TableData table{"transformers",
                  "Transformers",
                  "",
                  {{"transformer", "Transformer"},
                   {"name", "Name"},
                   {"item", "Item"},
                   {"title", "Title"},
                   {"x_m", "East, m", Kind::number},
                   {"y_m", "North, m", Kind::number},
                   {"mounting", "Mounting"},
                   {"mounting_height_m", "Height, m", Kind::number},
                   {"receptacle", "Receptacle"},
                   {"rating_va", "Rating, VA", Kind::number},
                   {"lamp_va", "Lamps, VA", Kind::number},
                   {"load_va", "Load, VA", Kind::number},
                   {"worst_load_va", "Most, VA", Kind::number},
                   {"input_w", "From the mains, W", Kind::number}},
                  {},
                  ""};
  const auto reports = by_id(report.transformers);
  for (const job::Transformer& transformer : job.transformers) {
    const study::TransformerReport* seen = in(reports, transformer.id);
    const auto number = [&](double study::TransformerReport::*field) {
      return seen ? TableCell(seen->*field) : TableCell();
    };
    const auto& place = transformer.position;
    table.rows.push_back({transformer.id, transformer.name, transformer.item,
                          title_of(shelf.pick(&job::Catalogue::transformers, transformer.item)),
                          place ? TableCell(place->x_m) : TableCell(), place ? TableCell(place->y_m) : TableCell(),
                          name_of(transformer.mounting), transformer.mounting_height_m, transformer.receptacle,
                          number(&study::TransformerReport::rating_va), number(&study::TransformerReport::lamp_va),
                          number(&study::TransformerReport::load_va), number(&study::TransformerReport::worst_load_va),
                          number(&study::TransformerReport::input_w)});
  }
  return table;
}

TableData price_table(const estimate::Price& price) {
  TableData table{"price",
                  "Price",
                  price.currency,
                  {{"line", "Line"},
                   {"group", "Group"},
                   {"text", "Text"},
                   {"quantity", "Quantity", Kind::number},
                   {"unit", "Unit"},
                   {"unit_price", "Unit price", Kind::money},
                   {"cost", "Cost", Kind::money},
                   {"price", "Price", Kind::money},
                   {"currency", "Currency"},
                   {"reason", "Reason"}},
                  {},
                  ""};
  for (const estimate::PriceLine& line : price.lines) {
    table.rows.push_back({line.id, std::string(estimate::group_name(line.group)), line.text, line.quantity, line.unit,
                          line.unit_price_minor, line.cost_minor, line.price_minor, price.currency, line.reason});
  }
  return table;
}

TableData readings(const job::Job& job) {
  TableData table{"readings",
                  "Readings",
                  "",
                  {{"visit", "Visit", Kind::count},
                   {"date", "Date"},
                   {"kind", "Kind"},
                   {"by", "By"},
                   {"place", "Place"},
                   {"quantity", "Quantity"},
                   {"value", "Value", Kind::number},
                   {"unit", "Unit"},
                   {"seen", "Seen"},
                   {"load", "Load"},
                   {"clamped", "Clamped"},
                   {"at", "At"},
                   {"lifted", "Lifted"},
                   {"time", "Time"},
                   {"note", "Note"}},
                  {},
                  ""};
  for (std::size_t number = 0; number < job.visits.size(); ++number) {
    const job::Visit& visit = job.visits[number];
    for (const job::Reading& reading : visit.readings) {
      table.rows.push_back({static_cast<std::int64_t>(number + 1), visit.date, name_of(visit.kind), visit.by,
                            reading.place, reading.quantity, maybe(reading.value), reading.unit, name_of(reading.seen),
                            name_of(reading.load), name_of(reading.clamped), reading.at, reading.lifted, reading.time,
                            reading.note});
    }
  }
  return table;
}

}  // namespace

std::vector<TableData> export_tables(const job::Job& job, const job::Catalogue& stock, const study::Report& report,
                                     const estimate::Materials& materials, const estimate::Price& price) {
  const estimate::Stockroom shelf(job.catalogue, stock);
  return {lamps(job, shelf, report),
          cables(job, shelf, report),
          joints(job),
          outputs(job, shelf, report),
          transformers(job, shelf, report),
          estimate::materials_table(materials),
          estimate::cut_table(materials),
          price_table(price),
          readings(job)};
}

}  // namespace duskwire::formats
