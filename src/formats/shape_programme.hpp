// SPDX-License-Identifier: Apache-2.0
// The shape of the switching programme. Transformers that it names are not looked up.
#pragma once

#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "job/programme.hpp"

namespace duskwire::formats {

template <class Visitor>
void describe(Of<job::SwitchRule>, Visitor& v) {
  using T = job::SwitchRule;
  v.field("at", &T::at, OneOf{}, required, "What the moment is counted from");
  v.field("time", &T::time, Text{5, Form::clock}, optional, "Time of day, where `at` is clock");
  v.field("offset_min", &T::offset_min, Number{-720, 720, "min"}, optional, "After sunset or sunrise; negative before");
}

template <class Visitor>
void describe(Of<job::ProgrammeEntry>, Visitor& v) {
  using T = job::ProgrammeEntry;
  v.field("id", &T::id, Id{Kind::programme_entry}, required, "Id of the entry");
  v.field("name", &T::name, Text{200}, optional, "Name for people");
  v.field("zones", &T::zones, Texts{{200}, 100}, optional, "Zones of luminaires that it switches; none: all");
  v.field("transformers", &T::transformers, Texts{other_id, 100}, optional, "Transformers that it switches; none: all");
  v.field("days", &T::days, Texts{{3, Form::weekday}, 7}, optional, "Days of the week, mon to sun; none: every day");
  v.field("from_day", &T::from_day, Text{5, Form::month_day}, optional, "First day of its season");
  v.field("to_day", &T::to_day, Text{5, Form::month_day}, optional, "Last day of its season");
  v.field("on", &T::on, Part{}, required, "When it switches on");
  v.field("off", &T::off, Part{}, required, "When it switches off");
  v.field("dim_pct", &T::dim_pct, Number{0, 100, "%"}, optional, "Dimmed to");
}

}  // namespace duskwire::formats
