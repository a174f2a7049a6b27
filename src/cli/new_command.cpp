// SPDX-License-Identifier: Apache-2.0
#include <fmt/chrono.h>
#include <fmt/format.h>

#include <ctime>

#include "cli/commands.hpp"
#include "cli/output_file.hpp"
#include "cli/session.hpp"
#include "formats/job_writer.hpp"
#include "formats/lamps_csv.hpp"
#include "study/starter.hpp"

namespace duskwire::cli {
namespace {

std::string today() { return fmt::format("{:%Y-%m-%d}", fmt::localtime(std::time(nullptr))); }

// Mains and units as usual where these rules hold.
job::Site site_of(const Common& common) {
  job::Site site;
  site.ruleset = common.ruleset.empty() ? "us" : common.ruleset;
  const bool iec = site.ruleset == "iec";
  const bool feet = site.ruleset.rfind("us", 0) == 0;
  site.units = common.units.value_or(feet ? job::DisplayUnits::us : job::DisplayUnits::metric);
  site.mains_v = iec ? 230 : 120;
  site.mains_hz = iec ? 50 : 60;
  return site;
}

job::Luminaire lamp(const std::string& name, const std::string& item, double x_m, double y_m, const std::string& zone) {
  job::Luminaire lamp;
  lamp.name = name;
  lamp.item = item;
  lamp.position = geometry::Point3{x_m, y_m, 0};
  lamp.zone = zone;
  return lamp;
}

// Where no list is given: a walk and a tree, to be changed by hand.
std::vector<job::Luminaire> first_lamps() {
  return {lamp("Walk, by the door", "path-3w", 3, -2, "walk"), lamp("Walk, second", "path-3w", 4.5, -4, "walk"),
          lamp("Walk, third", "path-3w", 3, -6, "walk"),       lamp("Walk, by the gate", "path-3w", 4.5, -8, "walk"),
          lamp("Tree, left", "bullet-6w-36", -7, -6, "tree"),  lamp("Tree, right", "bullet-6w-36", -5, -7, "tree")};
}

Or<std::vector<job::Luminaire>> lamps_of(const NewRequest& request, const job::Catalogue& stock,
                                         const TextStyle& style) {
  if (request.lamps.empty()) return first_lamps();
  const Result<std::string> text = read_file(request.lamps);
  if (!text) return refuse(text.error());
  formats::ReadLamps read = formats::read_lamps_csv(text.value(), stock);
  if (has_errors(read.problems) || read.lamps.empty()) {
    return refuse(fmt::format("{} cannot be used as a table of lamps.", request.lamps), read.problems, style);
  }
  return std::move(read.lamps);
}

}  // namespace

Outcome new_command(const NewRequest& request, const Common& common, const TextStyle& style) {
  const Or<Stock> loaded = load_stock(common.catalogue, style);
  if (const auto* refused = std::get_if<Outcome>(&loaded)) return *refused;
  const job::Catalogue& stock = std::get<Stock>(loaded).catalogue;
  study::StarterRequest start;
  start.title = request.title.empty() ? "New garden" : request.title;
  start.created = today();
  start.site = site_of(common);
  const Or<study::Ruleset> ruleset = load_ruleset(start.site.ruleset, style);
  if (const auto* refused = std::get_if<Outcome>(&ruleset)) return *refused;
  Or<std::vector<job::Luminaire>> lamps = lamps_of(request, stock, style);
  if (const auto* refused = std::get_if<Outcome>(&lamps)) return *refused;
  start.lamps = std::get<std::vector<job::Luminaire>>(std::move(lamps));
  const Result<job::Job> job = study::start_job(start, std::get<study::Ruleset>(ruleset), stock);
  if (!job) return refuse(job.error());
  return {exit_sound, formats::write_job(job.value()), std::get<Stock>(loaded).remarks};
}

}  // namespace duskwire::cli
