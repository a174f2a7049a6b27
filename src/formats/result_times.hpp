// SPDX-License-Identifier: Apache-2.0
// The shape of times: the sun, switching, hours and energy of a year.
#pragma once

#include "formats/result_shape.hpp"
#include "study/times.hpp"

namespace duskwire::formats {

constexpr auto names(Of<study::DayState>) { return std::array{"rises_and_sets", "polar_day", "polar_night"}; }
constexpr auto names(Of<study::EntryState>) { return std::array{"lit", "no_sunset", "over_before_it_begins"}; }

template <class Visitor>
void describe_result(Of<study::SunTimes>, Visitor& v) {
  using T = study::SunTimes;
  v.result("state", &T::state, "Whether the sun rises and sets that day");
  v.result("sunrise", &T::sunrise, "Upper edge on an open horizon");
  v.result("noon", &T::noon, "Highest");
  v.result("sunset", &T::sunset, "Of that day, even where it comes after midnight");
  v.result("civil_dawn", &T::civil_dawn, "The sun's middle 6 degrees below, rising");
  v.result("civil_dusk", &T::civil_dusk, "The same, setting");
  v.result("nautical_dawn", &T::nautical_dawn, "12 degrees below, rising");
  v.result("nautical_dusk", &T::nautical_dusk, "The same, setting");
  v.result("astronomical_dawn", &T::astronomical_dawn, "18 degrees below, rising");
  v.result("astronomical_dusk", &T::astronomical_dusk, "The same, setting");
}

template <class Visitor>
void describe_result(Of<study::EntryTimes>, Visitor& v) {
  using T = study::EntryTimes;
  v.result("entry", &T::entry, "Id of the programme's entry");
  v.result("state", &T::state, "Whether it gives light that day, and if not why");
  v.result("on", &T::on, "When it switches on");
  v.result("off", &T::off, "When it switches off");
  v.result("hours", &T::hours, "Hours between both");
  v.result("words", &T::words, "What is particular that day; empty: nothing");
}

template <class Visitor>
void describe_result(Of<study::DayRow>, Visitor& v) {
  using T = study::DayRow;
  v.result("date", &T::date, "The date");
  v.result("weekday", &T::weekday, "mon to sun");
  v.result("clock_change_min", &T::clock_change_min, "Clocks go forward (positive) or back that day; 0: neither");
  v.result("sun", &T::sun, "The sun that day");
  v.result("entries", &T::entries, "Entries of the programme that run that day");
}

template <class Visitor>
void describe_result(Of<study::MonthTimes>, Visitor& v) {
  using T = study::MonthTimes;
  v.result("month", &T::month, "1 to 12");
  v.result("days", &T::days, "Its 1st, 11th and 21st");
  v.result("hours", &T::hours, "Hours with any light in the garden");
  v.result("energy_kwh", &T::energy_kwh, "From the mains, an estimate");
}

template <class Visitor>
void describe_result(Of<study::ClockChangeDay>, Visitor& v) {
  using T = study::ClockChangeDay;
  v.result("date", &T::date, "The date");
  v.result("by_min", &T::by_min, "Forward positive");
  v.result("abbreviation", &T::abbreviation, "Of the time in force from then on");
}

template <class Visitor>
void describe_result(Of<study::EntryYear>, Visitor& v) {
  using T = study::EntryYear;
  v.result("id", &T::id, "Id of the programme's entry");
  v.result("name", &T::name, "Name for people");
  v.result("words", &T::words, "What it says, in words");
  v.result("lamps", &T::lamps, "Ids of the luminaires that it switches");
  v.result("nights_lit", &T::nights_lit, "Nights on which it gives light");
  v.result("nights_without_sunset", &T::nights_without_sunset, "Polar days: it stays off");
  v.result("nights_too_short", &T::nights_too_short, "Nights that are over before it begins");
  v.result("hours", &T::hours, "Hours of light");
}

template <class Visitor>
void describe_result(Of<study::LampBurn>, Visitor& v) {
  using T = study::LampBurn;
  v.result("id", &T::id, "Id of the luminaire");
  v.result("hours", &T::hours, "Hours with light");
  v.result("full_hours", &T::full_hours, "The same weighted by the programme's dimming");
}

template <class Visitor>
void describe_result(Of<study::SupplyEnergy>, Visitor& v) {
  using T = study::SupplyEnergy;
  v.result("transformer", &T::transformer, "Id of the transformer; empty: lamps that hang on none");
  v.result("full_w", &T::full_w, "Its lamps, all on");
  v.result("loss_w", &T::loss_w, "Core, windings and cables then");
  v.result("energy_kwh", &T::energy_kwh, "From the mains in the year");
  v.result("cost_minor", &T::cost_minor, "By the tariff, in minor units");
}

template <class Visitor>
void describe_result(Of<study::RetrofitSide>, Visitor& v) {
  using T = study::RetrofitSide;
  v.result("lamps_w", &T::lamps_w, "Power of the lamps");
  v.result("energy_kwh", &T::energy_kwh, "In the year, at the lamps");
  v.result("cost_minor", &T::cost_minor, "By the tariff's plain price, in minor units");
  v.result("life_h", &T::life_h, "How long a lamp is taken to last: common practice, no source");
  v.result("lamps_a_year", &T::lamps_a_year, "Lamps that burn out in a year");
}

template <class Visitor>
void describe_result(Of<study::Retrofit>, Visitor& v) {
  using T = study::Retrofit;
  v.result("led", &T::led, "The same light by LED");
  v.result("halogen", &T::halogen, "The same light by halogen");
  v.result("saved_kwh", &T::saved_kwh, "Halogen less LED");
  v.result("saved_minor", &T::saved_minor, "The same by the tariff, in minor units");
  v.result("lamps", &T::lamps, "Lamps compared");
  v.result("left_out", &T::left_out, "Lamps whose light is not known or that nothing switches");
}

template <class Visitor>
void describe_result(Of<study::Times>, Visitor& v) {
  using T = study::Times;
  v.result("year", &T::year, "The year");
  v.result("zone", &T::zone, "Name of the time zone");
  v.result("latitude_deg", &T::latitude_deg, "North positive");
  v.result("longitude_deg", &T::longitude_deg, "East positive");
  v.result("clock_changes", &T::clock_changes, "Days on which clocks change");
  v.result("entries", &T::entries, "Each entry of the programme over the year");
  v.result("days", &T::days, "Each day; empty where not asked for");
  v.result("months", &T::months, "Each month, for a card at the timer");
  v.result("hours", &T::hours, "Hours with any light in the garden");
  v.result("lamps", &T::lamps, "Each luminaire");
  v.result("supplies", &T::supplies, "Each transformer");
  v.result("energy_kwh", &T::energy_kwh, "From the mains in the year, an estimate");
  v.result("cost_minor", &T::cost_minor, "By the tariff, in minor units; absent without one");
  v.result("currency", &T::currency, "Of all costs");
  v.result("retrofit", &T::retrofit, "LED against halogen for the same light; absent where no lamp can be compared");
  v.result("assumptions", &T::assumptions, "What was taken for granted, in sentences");
  v.result("findings", &T::findings, "What is wrong or odd, errors first");
  v.result("sound", &T::sound, "No finding is an error");
}

}  // namespace duskwire::formats
