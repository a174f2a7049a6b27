// SPDX-License-Identifier: Apache-2.0
// The shape of a set of levels, data/levels/*.json.
#pragma once

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "formats/shape_ruleset.hpp"
#include "study/level_targets.hpp"

namespace duskwire::formats {

constexpr auto names(Of<study::LitPlace>) {
  return std::array{"path",   "steps", "drive",  "terrace",       "bed",    "background",
                    "facade", "tree",  "ground", "property_line", "window", "lamp"};
}

constexpr const char* type_name(Of<study::LevelTarget>) { return "level_target"; }
constexpr const char* type_name(Of<study::LevelSet>) { return "level_set"; }

inline constexpr Number lux{0, 10'000, "lx"};

template <class Visitor>
void describe(Of<study::LevelTarget>, Visitor& v) {
  using T = study::LevelTarget;
  v.field("id", &T::id, Id{Kind::rule}, required, "Id of the target within its set");
  v.field("title", &T::title, Text{300}, required, "What it is for");
  v.field("place", &T::place, OneOf{}, required, "What it is asked of");
  v.field("chosen", &T::chosen, Flag{}, optional, "Of several for one place the one that judges");
  v.field("average_lx", &T::average_lx, lux, optional, "Asked on average");
  v.field("minimum_lx", &T::minimum_lx, lux, optional, "Asked everywhere");
  v.field("uniformity", &T::uniformity, Number{0, 1, ""}, optional, "Asked of minimum over average");
  v.field("upright_average_lx", &T::upright_average_lx, lux, optional, "Asked on average upright at eye height");
  v.field("most_lx", &T::most_lx, lux, optional, "Allowed at most");
  v.field("most_colour_temperature_k", &T::most_colour_temperature_k, Number{1000, 20'000, "K"}, optional,
          "Allowed at most of a lamp's colour temperature");
  v.field("most_flux_lm", &T::most_flux_lm, Number{0, 100'000, "lm"}, optional, "Allowed at most of a lamp");
  v.field("most_upward_pct", &T::most_upward_pct, Number{0, 100, "%"}, optional,
          "Allowed at most of a lamp's light above the level");
  v.field("provenance", &T::provenance, Part{}, required, "Where it comes from");
}

template <class Visitor>
void describe(Of<study::LevelSet>, Visitor& v) {
  using T = study::LevelSet;
  v.field("id", &T::id, Text{longest_id, Form::name}, required, "Id that a job's light names");
  v.field("title", &T::title, Text{500}, required, "Name for people");
  v.field("notice", &T::notice, Text{5000}, required, "Who decides, in plain words");
  v.field("targets", &T::targets, List{500}, required, "Its levels");
}

}  // namespace duskwire::formats
