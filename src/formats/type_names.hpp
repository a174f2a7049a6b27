// SPDX-License-Identifier: Apache-2.0
// What each shape is called in the schema and in the tables of docs/job-format.md.
#pragma once

#include "formats/shape.hpp"
#include "job/change.hpp"
#include "job/job.hpp"
#include "study/rules.hpp"

namespace duskwire::formats {

constexpr const char* type_name(Of<job::LuminaireItem>) { return "luminaire_item"; }
constexpr const char* type_name(Of<job::TransformerItem>) { return "transformer_item"; }
constexpr const char* type_name(Of<job::CableItem>) { return "cable_item"; }
constexpr const char* type_name(Of<job::ConnectorFill>) { return "connector_fill"; }
constexpr const char* type_name(Of<job::ConnectorItem>) { return "connector_item"; }
constexpr const char* type_name(Of<job::ControlItem>) { return "control_item"; }
constexpr const char* type_name(Of<job::SundryItem>) { return "sundry_item"; }
constexpr const char* type_name(Of<job::Catalogue>) { return "catalogue"; }
constexpr const char* type_name(Of<job::Corners>) { return "corners"; }
constexpr const char* type_name(Of<job::Site>) { return "site"; }
constexpr const char* type_name(Of<job::Wish>) { return "wish"; }
constexpr const char* type_name(Of<job::Client>) { return "client"; }
constexpr const char* type_name(Of<job::Practice>) { return "practice"; }
constexpr const char* type_name(Of<job::Area>) { return "area"; }
constexpr const char* type_name(Of<job::Underlay>) { return "underlay"; }
constexpr const char* type_name(Of<job::Sleeve>) { return "sleeve"; }
constexpr const char* type_name(Of<job::Receptacle>) { return "receptacle"; }
constexpr const char* type_name(Of<job::ViewPoint>) { return "view_point"; }
constexpr const char* type_name(Of<job::Tree>) { return "tree"; }
constexpr const char* type_name(Of<job::FixedPoint>) { return "fixed_point"; }
constexpr const char* type_name(Of<job::Plan>) { return "plan"; }
constexpr const char* type_name(Of<job::LightPlan>) { return "light"; }
constexpr const char* type_name(Of<job::AcceptedSight>) { return "accepted_sight"; }
constexpr const char* type_name(Of<job::Luminaire>) { return "luminaire"; }
constexpr const char* type_name(Of<job::Output>) { return "output"; }
constexpr const char* type_name(Of<job::Transformer>) { return "transformer"; }
constexpr const char* type_name(Of<job::Cable>) { return "cable"; }
constexpr const char* type_name(Of<job::AsBuilt>) { return "as_built"; }
constexpr const char* type_name(Of<job::Joint>) { return "joint"; }
constexpr const char* type_name(Of<job::Job>) { return "job"; }
constexpr const char* type_name(Of<job::Change>) { return "change"; }
constexpr const char* type_name(Of<job::ViewReference>) { return "view_reference"; }
constexpr const char* type_name(Of<job::KnownWall>) { return "known_wall"; }
constexpr const char* type_name(Of<job::Calibration>) { return "calibration"; }
constexpr const char* type_name(Of<job::PictureSurface>) { return "picture_surface"; }
constexpr const char* type_name(Of<job::PictureTree>) { return "picture_tree"; }
constexpr const char* type_name(Of<job::PictureMask>) { return "picture_mask"; }
constexpr const char* type_name(Of<job::PictureMeasure>) { return "picture_measure"; }
constexpr const char* type_name(Of<job::NightLook>) { return "night_look"; }
constexpr const char* type_name(Of<job::View>) { return "view"; }
constexpr const char* type_name(Of<job::SwitchRule>) { return "switch_rule"; }
constexpr const char* type_name(Of<job::ProgrammeEntry>) { return "programme_entry"; }
constexpr const char* type_name(Of<job::GroundRate>) { return "ground_rate"; }
constexpr const char* type_name(Of<job::Rates>) { return "rates"; }
constexpr const char* type_name(Of<job::Margins>) { return "margins"; }
constexpr const char* type_name(Of<job::Warranty>) { return "warranty"; }
constexpr const char* type_name(Of<job::Terms>) { return "terms"; }
constexpr const char* type_name(Of<job::ItemSwap>) { return "item_swap"; }
constexpr const char* type_name(Of<job::OfferExtra>) { return "offer_extra"; }
constexpr const char* type_name(Of<job::OfferOption>) { return "offer_option"; }
constexpr const char* type_name(Of<job::Offer>) { return "offer"; }
constexpr const char* type_name(Of<job::Reading>) { return "reading"; }
constexpr const char* type_name(Of<job::Answers>) { return "answers"; }
constexpr const char* type_name(Of<job::LogEntry>) { return "log_entry"; }
constexpr const char* type_name(Of<job::Visit>) { return "visit"; }
constexpr const char* type_name(Of<study::Provenance>) { return "provenance"; }
constexpr const char* type_name(Of<study::Rule>) { return "rule"; }
constexpr const char* type_name(Of<study::Ruleset>) { return "ruleset"; }

}  // namespace duskwire::formats
