// SPDX-License-Identifier: Apache-2.0
// The shape of a file of rules on deposits.
#pragma once

#include "formats/deposit_rules_file.hpp"
#include "formats/shape_ruleset.hpp"

namespace duskwire::formats {

constexpr const char* type_name(Of<estimate::DepositRule>) { return "deposit rule"; }
constexpr const char* type_name(Of<DepositRules>) { return "deposit rules"; }

template <class Visitor>
void describe(Of<estimate::DepositRule>, Visitor& v) {
  using T = estimate::DepositRule;
  v.field("id", &T::id, Id{Kind::rule}, required, "Id that an offer's terms name");
  v.field("title", &T::title, Text{200}, required, "What it allows, in words");
  v.field("most_pct", &T::most_pct, Number{0, 100, "%"}, optional, "Highest share of the price");
  v.field("most_minor", &T::most_minor, Number{0, 1e12, "minor units"}, optional, "Highest amount; the lower counts");
  v.field("currency", &T::currency, Text{3, Form::currency}, optional, "Currency of the amount");
  v.field("clause", &T::clause, Text{500}, optional, "Where it comes from");
  v.field("status", &T::status, Choice{std::begin(provenance_statuses), std::end(provenance_statuses)}, required,
          "How sure we are of it");
  v.field("note", &T::note, Text{2000}, optional, "Anything else, such as where it was seen");
}

template <class Visitor>
void describe(Of<DepositRules>, Visitor& v) {
  using T = DepositRules;
  v.field("notice", &T::notice, Text{5000}, required, "That it is no legal advice");
  v.field("rules", &T::rules, List{500}, required, "The rules");
}

}  // namespace duskwire::formats
