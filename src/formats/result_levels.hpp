// SPDX-License-Identifier: Apache-2.0
// The shape of levels: light by place, spill, sight lines, the night plan.
#pragma once

#include "formats/result_shape.hpp"
#include "formats/shape_level_set.hpp"
#include "study/levels.hpp"

namespace duskwire::formats {

constexpr auto names(Of<study::SightState>) {
  return std::array{"visible", "shielded", "turned_away", "blocked", "accepted"};
}
constexpr auto names(Of<study::BrightnessRole>) { return std::array{"focal", "support", "background", "dark"}; }

template <class Visitor>
void describe_result(Of<study::LuxFigures>, Visitor& v) {
  using T = study::LuxFigures;
  v.result("average_lx", &T::average_lx, "Mean over the points");
  v.result("minimum_lx", &T::minimum_lx, "Least");
  v.result("maximum_lx", &T::maximum_lx, "Most");
  v.result("uniformity", &T::uniformity, "Least over mean; 0 where it is dark");
  v.result("bounced_lx", &T::bounced_lx, "Of the mean, what bounced once; 0 where that was not asked for");
  v.result("points", &T::points, "Points that were looked at");
  v.result("minimum_at", &T::minimum_at, "Where the least is: [x, y, z] in metres");
}

template <class Visitor>
void describe_result(Of<study::LevelVerdict>, Visitor& v) {
  using T = study::LevelVerdict;
  v.result("set", &T::set, "Id of the set of levels");
  v.result("target", &T::target, "Id of the target within it");
  v.result("title", &T::title, "What the target is for");
  v.result("in_force", &T::in_force, "It judges: of the set in force, and chosen there");
  v.result("met", &T::met, "The place has what is asked");
  v.result("asked", &T::asked, "What is asked, in words");
  v.result("missed", &T::missed, "What of it the place has not; empty where it has all");
  v.result("provenance", &T::provenance, "Where the target comes from");
}

template <class Visitor>
void describe_result(Of<study::TreadLevels>, Visitor& v) {
  using T = study::TreadLevels;
  v.result("number", &T::number, "1 for the lowest");
  v.result("height_m", &T::height_m, "Over grade");
  v.result("lit", &T::lit, "Light on it");
}

template <class Visitor>
void describe_result(Of<study::PlaceLevels>, Visitor& v) {
  using T = study::PlaceLevels;
  v.result("id", &T::id, "Id of the area or tree; a face: area/edge");
  v.result("name", &T::name, "Name for people");
  v.result("pointer", &T::pointer, "JSON pointer of the area or tree");
  v.result("place", &T::place, "What it is judged as");
  v.result("lit", &T::lit, "Light on its own plane: ground, treads, face, crown");
  v.result("centreline", &T::centreline, "Light along the middle of a walk");
  v.result("upright", &T::upright, "Light upright at 1.5 m, mean of the ways that faces turn");
  v.result("length_m", &T::length_m, "Of a walk");
  v.result("width_m", &T::width_m, "Of a walk");
  v.result("treads", &T::treads, "Steps: each tread, lowest first");
  v.result("verdicts", &T::verdicts, "Targets of every set, the set in force first");
}

template <class Visitor>
void describe_result(Of<study::LampLevels>, Visitor& v) {
  using T = study::LampLevels;
  v.result("id", &T::id, "Id of the luminaire");
  v.result("share", &T::share, "Share of full light: dimming, and what its volts leave");
  v.result("dim_share", &T::dim_share, "Dimming alone");
  v.result("flux_lm", &T::flux_lm, "Light at that share");
  v.result("azimuth_deg", &T::azimuth_deg, "Aim, clockwise from north");
  v.result("tilt_deg", &T::tilt_deg, "Aim: 0 level, 90 up");
  v.result("aim_assumed", &T::aim_assumed, "The job does not say where it looks");
  v.result("upward_share", &T::upward_share, "Share of its light that leaves it above the level");
}

template <class Visitor>
void describe_result(Of<study::SpillEdge>, Visitor& v) {
  using T = study::SpillEdge;
  v.result("edge", &T::edge, "Edge of the property line, from 0");
  v.result("average_lx", &T::average_lx, "Mean over the upright plane in it, up to 4.5 m");
  v.result("maximum_lx", &T::maximum_lx, "Most");
  v.result("maximum_at", &T::maximum_at, "Where: [x, y, z] in metres");
  v.result("lamp", &T::lamp, "The lamp that gives most of it there");
  v.result("lamp_lx", &T::lamp_lx, "What that lamp gives");
}

template <class Visitor>
void describe_result(Of<study::WindowSpill>, Visitor& v) {
  using T = study::WindowSpill;
  v.result("view_point", &T::view_point, "Id of the view point");
  v.result("lx", &T::lx, "On the upright plane there that catches most");
  v.result("lamp", &T::lamp, "The lamp that gives most of it");
  v.result("lamp_lx", &T::lamp_lx, "What that lamp gives");
}

template <class Visitor>
void describe_result(Of<study::SightLine>, Visitor& v) {
  using T = study::SightLine;
  v.result("view_point", &T::view_point, "Id of the view point");
  v.result("lamp", &T::lamp, "Id of the luminaire");
  v.result("distance_m", &T::distance_m, "From lamp to eye");
  v.result("off_axis_deg", &T::off_axis_deg, "Between the lamp's aim and the way to the eye");
  v.result("intensity_cd", &T::intensity_cd, "What it sends there, at its share");
  v.result("state", &T::state, "Whether the bare lamp is seen, and why not");
  v.result("words", &T::words, "The same in words");
}

template <class Visitor>
void describe_result(Of<study::BrightnessRow>, Visitor& v) {
  using T = study::BrightnessRow;
  v.result("id", &T::id, "Id of the place");
  v.result("name", &T::name, "Name for people");
  v.result("place", &T::place, "What it is");
  v.result("average_lx", &T::average_lx, "Light on it");
  v.result("reflectance", &T::reflectance, "Usual of its kind: common practice, no source");
  v.result("luminance_cd_m2", &T::luminance_cd_m2, "Illuminance times reflectance over pi");
  v.result("ratio", &T::ratio, "To the brightest");
  v.result("role", &T::role, "From 0.6 a focal point, from 0.2 a support, from 0.03 a background");
}

template <class Visitor>
void describe_result(Of<study::UpwardLight>, Visitor& v) {
  using T = study::UpwardLight;
  v.result("flux_lm", &T::flux_lm, "Light of all lamps");
  v.result("upward_lm", &T::upward_lm, "Of it above the level as it leaves the lamps");
  v.result("upward_share", &T::upward_share, "The second over the first");
}

template <class Visitor>
void describe_result(Of<study::BounceLevels>, Visitor& v) {
  using T = study::BounceLevels;
  v.result("patch_m", &T::patch_m, "Walls and ground were parted into patches no longer than this");
  v.result("patches", &T::patches, "Of them, those that get light and send it on");
  v.result("sent_lm", &T::sent_lm, "Light that they send");
}

template <class Visitor>
void describe_result(Of<study::LightContour>, Visitor& v) {
  using T = study::LightContour;
  v.result("lx", &T::lx, "The light along it");
  v.result("lines", &T::lines, "Each a list of [x, y] in metres; a closed one ends where it began");
}

template <class Visitor>
void describe_result(Of<study::NightPlan>, Visitor& v) {
  using T = study::NightPlan;
  v.result("origin", &T::origin, "South-west corner of the first cell: [x, y] in metres");
  v.result("cell_m", &T::cell_m, "Side of a cell");
  v.result("columns", &T::columns, "Cells from west to east");
  v.result("rows", &T::rows, "Cells from south to north");
  v.result("lx", &T::lx, "Light on the level in each cell, row by row from the south, three figures; -1: not ground");
  v.result("maximum_lx", &T::maximum_lx, "Most of any cell");
  v.result("contours", &T::contours, "Lines of equal light, ascending");
}

template <class Visitor>
void describe_result(Of<study::Levels>, Visitor& v) {
  using T = study::Levels;
  v.result("targets", &T::targets, "Id of the set of levels in force");
  v.result("lamps", &T::lamps, "Each lamp that gives light");
  v.result("places", &T::places, "Light by place");
  v.result("property_line_limit_lx", &T::property_line_limit_lx, "Limit in force at the property line");
  v.result("property_line", &T::property_line, "What leaves the lot, edge by edge");
  v.result("window_limit_lx", &T::window_limit_lx, "Limit in force on neighbours' windows");
  v.result("windows", &T::windows, "What falls on neighbours' windows");
  v.result("sights", &T::sights, "From every view point to every lamp");
  v.result("upward", &T::upward, "What goes up");
  v.result("bounce", &T::bounce,
           "Light that bounced once; absent where it was not asked for: all figures are then of straight light");
  v.result("brightness", &T::brightness, "The order in which the eye finds things");
  v.result("plan", &T::plan, "The night plan");
  v.result("findings", &T::findings, "What is wrong, errors first");
  v.result("sound", &T::sound, "No finding is an error");
  v.result("blocks_quote", &T::blocks_quote, "A neighbour's window sees a lamp or has too much light, unaccepted");
}

}  // namespace duskwire::formats
