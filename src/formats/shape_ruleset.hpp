// SPDX-License-Identifier: Apache-2.0
// The shape of a ruleset file.
#pragma once

#include <iterator>

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "study/rules.hpp"

namespace duskwire::formats {

inline constexpr const char* provenance_statuses[] = {"seen", "from memory", "common practice, no source", "computed"};

template <class Visitor>
void describe(Of<study::Provenance>, Visitor& v) {
  using T = study::Provenance;
  v.field("clause", &T::clause, Text{500}, optional, "Document and clause that the limit comes from");
  v.field("edition", &T::edition, Text{200}, optional, "Edition of that document");
  v.field("status", &T::status, Choice{std::begin(provenance_statuses), std::end(provenance_statuses)}, required,
          "How sure we are of it");
  v.field("note", &T::note, Text{2000}, optional, "Anything else, such as where it was seen");
}

template <class Visitor>
void describe(Of<study::Rule>, Visitor& v) {
  using T = study::Rule;
  v.field("id", &T::id, Id{Kind::rule}, required, "Id of the rule within its ruleset");
  v.field("check", &T::check, Text{longest_id, Form::name}, required, "The check that it drives");
  v.field("severity", &T::severity, OneOf{}, required, "How a breach is reported");
  v.field("title", &T::title, Text{500}, optional, "What it asks for");
  v.field("values", &T::values, NumberMap{}, optional, "Its limits by name; the name ends in the unit");
  v.field("tables", &T::tables, NumberMap{}, optional, "Its tables by name: numbers by what they apply to");
  v.field("provenance", &T::provenance, Part{}, required, "Where it comes from");
  v.field("alternative_to", &T::alternative_to, Ref{Kind::rule}, optional, "The rule that it disagrees with");
}

template <class Visitor>
void describe(Of<study::Ruleset>, Visitor& v) {
  using T = study::Ruleset;
  v.field("id", &T::id, Text{longest_id, Form::name}, required, "Id that a job's site names");
  v.field("title", &T::title, Text{500}, optional, "Name for people");
  v.field("notice", &T::notice, Text{5000}, required, "Who decides, in plain words");
  v.field("rules", &T::rules, List{2000}, required, "The rules");
}

}  // namespace duskwire::formats
