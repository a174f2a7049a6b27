// SPDX-License-Identifier: Apache-2.0
#include "paper/plan_legend.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "paper/plan_symbols.hpp"

namespace duskwire::paper {
namespace {

constexpr double head_mm = 27;  // north, ratio and bar
constexpr double sign_column_mm = 11;
constexpr double row_gap_mm = 1.2;
constexpr double least_row_mm = 4.2;
constexpr Lettering text_look{1.8};

double text_width_mm() { return legend_column_mm - sign_column_mm - 2; }

double row_mm(const LegendEntry& entry) {
  return std::max(least_row_mm, height_of_words_mm(text_width_mm(), entry.text, text_look)) + row_gap_mm;
}

double note_mm(const std::string& note) {
  return note.empty() ? 0 : height_of_words_mm(legend_column_mm - 2, note, text_look) + 2;
}

// Entries in columns: each column takes rows up to `height_mm`. The first column begins below the head.
struct Spread {
  std::vector<std::size_t> first_of_column;
  bool fits = false;
};

Spread spread(const Legend& legend, std::size_t columns, double height_mm) {
  Spread out;
  std::size_t next = 0;
  for (std::size_t c = 0; c < columns; ++c) {
    out.first_of_column.push_back(next);
    double used_mm = c == 0 ? head_mm + note_mm(legend.note) : 0;
    while (next < legend.entries.size() && used_mm + row_mm(legend.entries[next]) <= height_mm + 1e-6) {
      used_mm += row_mm(legend.entries[next++]);
    }
  }
  out.fits = next == legend.entries.size();
  out.first_of_column.push_back(next);
  return out;
}

std::size_t columns_in(double width_mm) {
  return static_cast<std::size_t>(std::max(1.0, std::floor((width_mm + 1e-6) / legend_column_mm)));
}

PathMm swatch(PointMm centre) {
  return {{centre.x_mm - 4, centre.y_mm - 1.8},
          {centre.x_mm + 4, centre.y_mm - 1.8},
          {centre.x_mm + 4, centre.y_mm + 1.8},
          {centre.x_mm - 4, centre.y_mm + 1.8}};
}

void add_lamps(std::vector<LegendEntry>& entries, const job::Job& job) {
  std::map<job::LuminaireKind, int> kinds;
  for (const job::Luminaire& lamp : job.luminaires) {
    const job::LuminaireItem* item = job::find_luminaire(job.catalogue, lamp.item);
    if (item != nullptr && lamp.position) ++kinds[item->kind];
  }
  for (const auto& [kind, count] : kinds) {
    entries.push_back({[kind = kind](Pen& pen, PointMm at) { draw_luminaire(pen, at, kind); },
                       std::to_string(count) + " \u00d7 " + words_of(kind)});
  }
}

void add_wiring(std::vector<LegendEntry>& entries, const job::Job& job, const PlanLook& look) {
  const bool transformer = std::any_of(job.transformers.begin(), job.transformers.end(),
                                       [](const auto& t) { return t.position.has_value(); });
  if (look.transformers && transformer) {
    entries.push_back({[](Pen& pen, PointMm at) { draw_transformer(pen, at); }, "transformer"});
  }
  if (look.cables) {
    std::set<std::string> seen;
    for (const job::Cable& cable : job.cables) {
      if (cable.path.size() < 2 || !seen.insert(cable.item).second) continue;
      const job::CableItem* item = job::find_cable(job.catalogue, cable.item);
      entries.push_back({[stroke = cable_stroke(job, cable.item)](Pen& pen, PointMm at) {
                           pen.line({at.x_mm - 4.5, at.y_mm}, {at.x_mm + 4.5, at.y_mm}, stroke);
                         },
                         item == nullptr || item->title.empty() ? cable.item : item->title});
    }
  }
  if (!look.joints) return;
  std::set<job::JointKind> kinds;
  for (const job::Joint& joint : job.joints) {
    if (joint.position) kinds.insert(joint.kind);
  }
  for (const job::JointKind kind : kinds) {
    entries.push_back({[kind](Pen& pen, PointMm at) { draw_joint(pen, at, kind); }, words_of(kind)});
  }
}

void add_site(std::vector<LegendEntry>& entries, const job::Job& job, const PlanLook& look) {
  if (look.sleeves && !job.plan.sleeves.empty()) {
    entries.push_back({[](Pen& pen, PointMm at) {
                         draw_sleeve(pen, {{at.x_mm - 4, at.y_mm}, {at.x_mm + 4, at.y_mm}});
                       },
                       "sleeve"});
  }
  if (look.receptacles && !job.plan.receptacles.empty()) entries.push_back({draw_receptacle, "receptacle"});
  if (look.fixed_points && !job.plan.fixed_points.empty())
    entries.push_back({draw_fixed_point, "fixed point for tape offsets"});
  if (look.view_points && !job.plan.view_points.empty()) entries.push_back({draw_view_point, "looked at from here"});
  if (look.trees && !job.plan.trees.empty()) {
    entries.push_back({[](Pen& pen, PointMm at) { draw_tree(pen, at, 1.9); }, "tree with its crown"});
  }
  if (job.plan.property_line.size() > 2) {
    entries.push_back({[](Pen& pen, PointMm at) {
                         draw_property_line(pen, {{at.x_mm - 5, at.y_mm}, {at.x_mm + 5, at.y_mm}}, false);
                       },
                       "property line"});
  }
  std::set<job::GroundKind> kinds;
  for (const job::Area& area : job.plan.areas) kinds.insert(area.kind);
  for (const job::GroundKind kind : kinds) {
    entries.push_back({[kind](Pen& pen, PointMm at) { draw_ground(pen, swatch(at), kind); }, words_of(kind)});
  }
}

}  // namespace

std::vector<LegendEntry> legend_of(const job::Job& job, const PlanLook& look) {
  std::vector<LegendEntry> entries;
  add_lamps(entries, job);
  add_wiring(entries, job, look);
  add_site(entries, job, look);
  return entries;
}

double legend_height_mm(const Legend& legend, double width_mm) {
  const std::size_t columns = columns_in(width_mm);
  double height_mm = head_mm + note_mm(legend.note);
  while (!spread(legend, columns, height_mm).fits) height_mm += 1;
  return height_mm;
}

void draw_legend(Pen& pen, PointMm top_left, double width_mm, const Legend& legend, const PlanScale& scale) {
  draw_north_arrow(pen, {top_left.x_mm + legend_column_mm - 8, top_left.y_mm + 8.5}, 4, legend.north_deg);
  pen.letters({top_left.x_mm + 1, top_left.y_mm + 5.5}, "Scale", {1.8});
  const std::size_t bracket = scale.words.find(" (");
  pen.letters({top_left.x_mm + 1, top_left.y_mm + 10.5}, scale.words.substr(0, bracket), {2.5, true});
  if (bracket != std::string::npos)
    pen.letters({top_left.x_mm + 1, top_left.y_mm + 14.5}, scale.words.substr(bracket + 1), {1.8});
  draw_scale_bar(pen, {top_left.x_mm + 3, top_left.y_mm + 20.5}, scale_bar(scale, legend.units, legend_column_mm - 9));
  if (!legend.note.empty()) {
    pen.words({top_left.x_mm + 1, top_left.y_mm + head_mm - 1.5}, legend_column_mm - 2, legend.note, text_look);
  }
  const std::size_t columns = columns_in(width_mm);
  const Spread rows = spread(legend, columns, legend_height_mm(legend, width_mm));
  for (std::size_t c = 0; c < columns; ++c) {
    const double x_mm = top_left.x_mm + static_cast<double>(c) * legend_column_mm;
    double y_mm = top_left.y_mm + (c == 0 ? head_mm + note_mm(legend.note) : 0);
    for (std::size_t i = rows.first_of_column[c]; i < rows.first_of_column[c + 1]; ++i) {
      const double height_mm = row_mm(legend.entries[i]) - row_gap_mm;
      const double words_mm = height_of_words_mm(text_width_mm(), legend.entries[i].text, text_look);
      legend.entries[i].sign(pen, {x_mm + sign_column_mm / 2, y_mm + height_mm / 2});
      pen.words({x_mm + sign_column_mm + 1, y_mm + (height_mm - words_mm) / 2}, text_width_mm(), legend.entries[i].text,
                text_look);
      y_mm += height_mm + row_gap_mm;
    }
  }
}

}  // namespace duskwire::paper
