// SPDX-License-Identifier: Apache-2.0
// Signs of a plan: a shape for each kind of thing, told apart without colour. Plans, legends and wiring diagrams draw
// the same ones.
#pragma once

#include <string>

#include "job/job.hpp"
#include "paper/pen.hpp"

namespace duskwire::paper {

// About so many millimetres across.
inline constexpr double sign_mm = 3.2;

// `towards_deg`: where it shines, on paper, clockwise from the right.
void draw_luminaire(Pen& pen, PointMm at, job::LuminaireKind kind, double towards_deg = -90);
void draw_transformer(Pen& pen, PointMm at);
void draw_joint(Pen& pen, PointMm at, job::JointKind kind);
void draw_receptacle(Pen& pen, PointMm at);
void draw_fixed_point(Pen& pen, PointMm at);
void draw_view_point(Pen& pen, PointMm at);
void draw_tree(Pen& pen, PointMm at, double radius_mm);
void draw_sleeve(Pen& pen, const PathMm& path);
void draw_property_line(Pen& pen, const PathMm& outline, bool closed = true);

// How a kind of ground looks: filled white, then hatched, then outlined.
void draw_ground(Pen& pen, const PathMm& outline, job::GroundKind kind);

[[nodiscard]] const char* words_of(job::LuminaireKind kind);  // "bullet uplight"
[[nodiscard]] const char* words_of(job::JointKind kind);
[[nodiscard]] const char* words_of(job::GroundKind kind);

// The line that a cable is drawn with, by its place among the job's kinds of cable.
[[nodiscard]] Stroke cable_stroke(const job::Job& job, const std::string& item);

}  // namespace duskwire::paper
