// SPDX-License-Identifier: Apache-2.0
#include "paper/burial_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "paper/crew_words.hpp"
#include "paper/pen.hpp"

namespace duskwire::paper {
namespace {

constexpr double height_mm = 72;
constexpr double grade_mm = 20;  // the surface, from the top
constexpr Stroke fine{Width::w018};
constexpr Stroke cable_line{Width::w070};
constexpr Lettering small{2.2, false, Anchor::start, 0, true, black};

struct Words {
  std::string cover;
  std::string slack_luminaire;
  std::string slack_splice;
  std::string slack_transformer;
};

// "6 in" where all are alike, "6 in to 18 in" else; the list says which where.
std::string cover_range(const study::CrewGround& ground, job::DisplayUnits units) {
  double least_m = 1e9;
  double most_m = 0;
  for (const study::CrewTrench& trench : ground.trenches) {
    if (!trench.cover_m) continue;
    least_m = std::min(least_m, *trench.cover_m);
    most_m = std::max(most_m, *trench.cover_m);
  }
  if (most_m <= 0) return "not given: ask the office";
  const std::string least = cover_words(least_m, units);
  const std::string most = cover_words(most_m, units);
  return least == most ? least : least + " to " + most + ", by the trench list";
}

void soil(Pen& pen, double from_mm, double to_mm) {
  pen.hatch({{from_mm, grade_mm}, {to_mm, grade_mm}, {to_mm, height_mm - 8}, {from_mm, height_mm - 8}}, Hatch::slanted);
  pen.line({from_mm, grade_mm}, {to_mm, grade_mm}, {Width::w070});
}

void arrow(Pen& pen, PointMm tip, double toward) {
  pen.fill({{tip.x_mm, tip.y_mm}, {tip.x_mm - 0.8, tip.y_mm + toward * 2.2}, {tip.x_mm + 0.8, tip.y_mm + toward * 2.2}},
           black);
}

// The trench across: opened, cable on firm ground, cover to the top of the cable.
void draw_section(Pen& pen, double left, double width, const Words& words) {
  soil(pen, left, left + width);
  const double middle = left + width * 0.36;
  const PathMm trench{
      {middle - 7, grade_mm}, {middle + 7, grade_mm}, {middle + 5, grade_mm + 30}, {middle - 5, grade_mm + 30}};
  pen.fill(trench, white);
  pen.hatch(trench, Hatch::dotted);
  pen.path({trench[0], trench[3], trench[2], trench[1]}, {Width::w035, Dash::dashed});
  const double cable_y = grade_mm + 27.5;
  for (const double side : {-1.3, 1.3}) {
    pen.disc({middle + side, cable_y}, 1.5, white);
    pen.circle({middle + side, cable_y}, 1.5, {Width::w050});
    pen.disc({middle + side, cable_y}, 0.7, black);
  }
  const double dimension = middle + 10.5;
  pen.line({middle + 2, cable_y - 1.5}, {dimension + 2, cable_y - 1.5}, fine);
  pen.line({dimension, grade_mm}, {dimension, cable_y - 1.5}, fine);
  arrow(pen, {dimension, grade_mm}, 1);
  arrow(pen, {dimension, cable_y - 1.5}, -1);
  pen.words({dimension + 2, grade_mm + 9}, left + width - dimension - 3, "Cover " + words.cover,
            {2.2, true, Anchor::start, 0, true});
  pen.words({left, 3}, width - 2, "Trench across. Cover is measured to the top of the cable.", {2.2, true});
  pen.words({left, height_mm - 6.5}, width - 2,
            "Sharp stones out. Backfill in layers and tread it firm. Lay sods back last.", small);
}

// Along the trench: the joint beside a luminaire, above the wet low point, with its loops.
void draw_joint(Pen& pen, double left, double width, const Words& words) {
  soil(pen, left, left + width);
  const double y = grade_mm + 24;
  const double joint_x = left + width * 0.52;
  const double lamp_x = left + width * 0.80;
  pen.curve(
      {{left, y + 4}, {left + 9, y + 4}, {left + 16, y - 5}, {left + 25, y + 9}, {left + 34, y - 3}, {joint_x - 5, y}},
      cable_line);
  const PathMm body{{joint_x - 5, y - 3.5}, {joint_x + 5, y - 3.5}, {joint_x + 5, y + 3.5}, {joint_x - 5, y + 3.5}};
  pen.fill(body, white);
  pen.path(body, {Width::w070}, true);
  pen.letters({joint_x, y + 1}, "joint", {2.2, true, Anchor::middle});
  pen.curve({{joint_x + 5, y},
             {joint_x + 10, y},
             {joint_x + 14, y + 7},
             {joint_x + 19, y - 5},
             {lamp_x, y + 2},
             {lamp_x, grade_mm + 6},
             {lamp_x, grade_mm - 4}},
            {Width::w035});
  pen.path({{lamp_x - 1.2, grade_mm + 8},
            {lamp_x, grade_mm + 11},
            {lamp_x + 1.2, grade_mm + 8},
            {lamp_x + 1.2, grade_mm},
            {lamp_x - 1.2, grade_mm}},
           {Width::w035}, true);
  const PathMm lamp{{lamp_x - 3, grade_mm - 5},
                    {lamp_x + 5, grade_mm - 9.5},
                    {lamp_x + 7, grade_mm - 5.5},
                    {lamp_x - 1, grade_mm - 1}};
  pen.fill(lamp, white);
  pen.path(lamp, {Width::w050}, true);
  pen.words({left, 3}, width,
            "Joint beside a luminaire, never in the wet low point. Slack lies as a loose S, never as a tight coil.",
            {2.2, true});
  pen.words({left + 2, y + 11}, joint_x - left - 4,
            fmt::format("Slack at each cable end at a joint: {}", words.slack_splice),
            {2.2, true, Anchor::start, 0, true});
  pen.words({joint_x + 3, y + 11}, left + width - joint_x - 4,
            fmt::format("Slack at a luminaire: {}", words.slack_luminaire), {2.2, true, Anchor::start, 0, true});
  pen.words(
      {left, height_mm - 6.5}, width,
      fmt::format("At a transformer {} more, with a drip loop and a tag on each cable. Picture, two tapes and depth "
                  "before backfill.",
                  words.slack_transformer),
      small);
}

}  // namespace

Drawing burial_drawing(const job::Job& job, const study::CrewGround& ground, job::DisplayUnits units, double width_mm) {
  const Words words{cover_range(ground, units), tape_words(job.practice.slack_at_luminaire_m, units),
                    tape_words(job.practice.slack_at_splice_m, units),
                    tape_words(job.practice.slack_at_transformer_m, units)};
  Drawing drawing;
  drawing.width_mm = width_mm;
  drawing.height_mm = height_mm;
  drawing.draw = [words, width_mm](Pen& pen) {
    const double section_mm = width_mm * 0.38;
    draw_section(pen, 0, section_mm, words);
    draw_joint(pen, section_mm + 6, width_mm - section_mm - 6, words);
  };
  drawing.alternative = fmt::format(
      "Detail of burial: cover {} to the top of the cable; slack as a loose S, {} at each cable end at a joint, {} at "
      "a "
      "luminaire, {} at a transformer. Not to scale.",
      words.cover, words.slack_splice, words.slack_luminaire, words.slack_transformer);
  drawing.caption = "Detail of burial. Not to scale.";
  return drawing;
}

}  // namespace duskwire::paper
