// SPDX-License-Identifier: Apache-2.0
// Reads catalogue items, in a job and in a catalogue's own file.
#include "formats/read_shape.hpp"
#include "formats/shape_catalogue.hpp"
#include "light/intensity_reader.hpp"

namespace duskwire::formats {
namespace {

void must_not_exceed(Context& context, const char* low_key, double low, const char* high_key, double high,
                     const char* unit, const char* why) {
  if (low <= high) return;
  const Context::Scope scope(context, low_key);
  context.report(
      Severity::error, fmt::format("{}", low), fmt::format("at most {} = {} {}", high_key, high, unit),
      fmt::format("\"{}\" is {} {}, above \"{}\" of {} {}: {}", low_key, low, unit, high_key, high, unit, why));
}

// Light that cannot be read is no reason to refuse a job: its lamp then shines by beam and lumens.
void check_intensity_file(Context& context, const job::LuminaireItem& item) {
  if (item.intensity_file.empty()) return;
  for (const Problem& problem : light::read_intensities(item.intensity_file).problems) {
    if (problem.severity != Severity::error) continue;
    const Context::Scope scope(context, "intensity_file");
    const std::string where = problem.pointer.empty() ? "" : problem.pointer + ": ";
    context.report(
        Severity::warning, problem.value, problem.expected,
        fmt::format("The intensity file cannot be used. {}{} Until then beam and lumens say how the light goes.", where,
                    problem.message));
    return;
  }
}

}  // namespace

void check_whole(Context& context, const job::LuminaireItem& item) {
  check_intensity_file(context, item);
  must_not_exceed(context, "window_min_v", item.window_min_v, "window_max_v", item.window_max_v, "V",
                  "swap or correct them.");
  must_not_exceed(context, "power_w", item.power_w, "power_va", item.power_va, "VA",
                  "apparent power is never less than real power.");
  const bool is_led = item.lamp == job::LampKind::regulated_led || item.lamp == job::LampKind::constant_current_led;
  if (!is_led) return;
  must_not_exceed(context, "v_cut_off", item.v_cut_off, "v_regulation_min", item.v_regulation_min, "V",
                  "a driver goes dark below the voltage from which it gives full light.");
  if (item.v_regulation_min <= 0) {
    const Context::Scope scope(context, "v_regulation_min");
    context.report(Severity::error, fmt::format("{}", item.v_regulation_min), "a number above 0, to 60 V",
                   "An LED needs \"v_regulation_min\": the voltage from which it gives full light. Where it is not "
                   "known, take the lower end of its window.");
  }
}

void check_whole(Context& context, const job::ConnectorFill& fill) {
  must_not_exceed(context, "area_min_mm2", fill.area_min_mm2, "area_max_mm2", fill.area_max_mm2, "mm2",
                  "swap or correct them.");
  must_not_exceed(context, "count_min", fill.count_min, "count_max", fill.count_max, "conductors",
                  "swap or correct them.");
}

void read_part(Context& context, const Json& value, job::Catalogue& out) { read_shape(context, value, out); }

void read_catalogue_body(Context& context, const Json& value, job::Catalogue& out) {
  read_shape(context, value, out, {"format", "version", "remove"});
}

}  // namespace duskwire::formats
