// SPDX-License-Identifier: Apache-2.0
// The shape of the job and of what is wired in it.
#pragma once

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "formats/shape_catalogue.hpp"
#include "formats/shape_light.hpp"
#include "formats/shape_offer.hpp"
#include "formats/shape_plan.hpp"
#include "formats/shape_programme.hpp"
#include "formats/shape_site.hpp"
#include "formats/shape_view.hpp"
#include "formats/shape_visit.hpp"
#include "job/job.hpp"

namespace duskwire::formats {

inline constexpr Ref cable_end{Kind::output, Kind::joint, Kind::luminaire};

template <class Visitor>
void describe(Of<job::Luminaire>, Visitor& v) {
  using T = job::Luminaire;
  v.field("id", &T::id, Id{Kind::luminaire}, required, "Id of the luminaire");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("item", &T::item, Ref{Kind::luminaire_item}, required, "Luminaire item of the job's catalogue");
  v.field("position", &T::position, Place{}, optional, "The light centre; z over grade");
  v.field("azimuth_deg", &T::azimuth_deg, Number{-360, 360, "deg"}, optional, "Aim, clockwise from north");
  v.field("tilt_deg", &T::tilt_deg, Number{-90, 90, "deg"}, optional, "Aim: 0 level, 90 up, -90 down");
  v.field("dim_pct", &T::dim_pct, Number{0, 100, "%"}, optional, "Dimmed to");
  v.field("shield_cut_off_deg", &T::shield_cut_off_deg, Number{0, 180, "deg"}, optional,
          "A shield hides the lamp from eyes farther than this off its axis; none where absent");
  v.field("zone", &T::zone, Text{200}, optional, "Zone that is switched together");
  v.field("joint", &T::joint, Ref{Kind::joint}, optional,
          "Joint where its own lead is spliced; none where a cable ends at the luminaire");
  v.field("lead_length_m", &T::lead_length_m, Number{0, 100, "m"}, optional,
          "Length of its own lead where it differs from the item's");
  v.field("slack_m", &T::slack_m, short_length, optional,
          "Loose cable at this fixture where it differs from the practice");
}

template <class Visitor>
void describe(Of<job::Output>, Visitor& v) {
  using T = job::Output;
  v.field("id", &T::id, Id{Kind::output}, required, "Id of the output: a cable starts at it");
  v.field("tap_v", &T::tap_v, Number{0, 60, "V", true}, required, "The tap in use, one of the item's");
  v.field("limit_a", &T::limit_a, Number{0, 500, "A", true}, optional,
          "What a smaller protective device allows, where one is fitted");
}

template <class Visitor>
void describe(Of<job::Transformer>, Visitor& v) {
  using T = job::Transformer;
  v.field("id", &T::id, Id{Kind::transformer}, required, "Id of the transformer");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("item", &T::item, Ref{Kind::transformer_item}, required, "Transformer item of the job's catalogue");
  v.field("position", &T::position, Place{}, optional, "Where it hangs");
  v.field("mounting_height_m", &T::mounting_height_m, Number{-5, 30, "m"}, optional, "Lower edge over grade");
  v.field("mounting", &T::mounting, OneOf{}, optional, "What it hangs on");
  v.field("receptacle", &T::receptacle, Ref{Kind::receptacle}, optional, "Receptacle of the plan; none: not known");
  v.field("extension_cord", &T::extension_cord, Flag{}, optional, "Reaches its receptacle by an extension cord");
  v.field("controls", &T::controls, Refs{{Kind::control_item}, 20}, optional, "Control items of the job's catalogue");
  v.field("outputs", &T::outputs, List{16}, required, "Its secondary circuits in use");
}

template <class Visitor>
void describe(Of<job::Cable>, Visitor& v) {
  using T = job::Cable;
  v.field("id", &T::id, Id{Kind::cable}, required, "Id of the cable");
  v.field("item", &T::item, Ref{Kind::cable_item}, required, "Cable item of the job's catalogue");
  v.field("from", &T::from, cable_end, required, "Output, joint or luminaire that it starts at");
  v.field("to", &T::to, cable_end, required, "Output, joint or luminaire that it ends at");
  v.field("path", &T::path, Places{2, true}, optional, "Route on the plan, both ends included");
  v.field("length_m", &T::length_m, Number{0, 10'000, "m"}, optional,
          "One way, without slack; where absent the path's length");
  v.field("slack_from_m", &T::slack_from_m, short_length, optional, "Loose cable at `from` where not as the practice");
  v.field("slack_to_m", &T::slack_to_m, short_length, optional, "Loose cable at `to` where not as the practice");
  v.field("depth_m", &T::depth_m, Number{0, 10, "m"}, optional, "Cover over the cable");
  v.field("ground", &T::ground, OneOf{}, optional, "What it lies under where the plan does not tell");
  v.field("sleeve", &T::sleeve, Ref{Kind::sleeve}, optional, "Sleeve of the plan that it runs through");
  v.field("crossed", &T::crossed, Flag{}, optional, "Conductors are swapped at `to`, as seen on site");
}

template <class Visitor>
void describe(Of<job::AsBuilt>, Visitor& v) {
  using T = job::AsBuilt;
  v.field("fixed_point_1", &T::fixed_point_1, Ref{Kind::fixed_point}, optional, "Fixed point of the first tape");
  v.field("fixed_point_2", &T::fixed_point_2, Ref{Kind::fixed_point}, optional, "Fixed point of the second tape");
  v.field("offset_1_m", &T::offset_1_m, Number{0, 10'000, "m"}, optional, "Reading of the first tape");
  v.field("offset_2_m", &T::offset_2_m, Number{0, 10'000, "m"}, optional, "Reading of the second tape");
  v.field("depth_m", &T::depth_m, Number{0, 10, "m"}, optional, "Cover over the joint");
  v.field("pictures", &T::pictures, Texts{{500}, 200}, optional, "Content hashes or file names");
  v.field("recorded", &T::recorded, Text{40, Form::date_or_time}, optional, "When it was measured");
  v.field("done", &T::done, Flag{}, optional, "The joint is made");
}

template <class Visitor>
void describe(Of<job::Joint>, Visitor& v) {
  using T = job::Joint;
  v.field("id", &T::id, Id{Kind::joint}, required, "Id of the joint");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("kind", &T::kind, OneOf{}, optional, "How cables meet in it");
  v.field("position", &T::position, Place{}, optional, "Where it is");
  v.field("connector", &T::connector, Ref{Kind::connector_item}, optional,
          "Connector item of the job's catalogue; none: not chosen yet");
  v.field("connector_count", &T::connector_count, Number{0, 100, "pieces"}, optional,
          "Pieces as fitted; where absent one per conductor");
  v.field("buried", &T::buried, Flag{}, optional, "In the ground, not inside a fixture or an enclosure");
  v.field("as_built", &T::as_built, Part{}, optional, "Where it really is, for whoever digs");
}

template <class Visitor>
void describe(Of<job::Job>, Visitor& v) {
  using T = job::Job;
  v.field("id", &T::id, Text{longest_id, Form::name}, required, "Id of the job");
  v.field("title", &T::title, Text{200}, optional, "Name for people");
  v.field("created", &T::created, Text{10, Form::date}, optional, "When it was begun");
  v.field("site", &T::site, Part{}, required, "Where it is and by which rules it is judged");
  v.field("client", &T::client, Part{}, optional, "Whose it is and what they asked for");
  v.field("practice", &T::practice, Part{}, optional, "How this shop works");
  v.field("catalogue", &T::catalogue, Part{}, optional, "A copy of each catalogue item that the job uses");
  v.field("plan", &T::plan, Part{}, optional, "The measured plan");
  v.field("light", &T::light, Part{}, optional, "How its light is judged");
  v.field("luminaires", &T::luminaires, List{20'000}, optional, "Luminaires in place");
  v.field("transformers", &T::transformers, List{1000}, optional, "Transformers in place");
  v.field("cables", &T::cables, List{50'000}, optional, "Cables");
  v.field("joints", &T::joints, List{50'000}, optional, "Joints where conductors meet");
  v.field("views", &T::views, List{1000}, optional, "Photographs: camera, surfaces, measures, the night");
  v.field("programme", &T::programme, List{500}, optional, "When what is on");
  v.field("offer", &T::offer, Part{}, optional, "Rates, margins, terms, options");
  v.field("visits", &T::visits, List{5000}, optional, "What was found and measured when");
}

}  // namespace duskwire::formats
