// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <array>

#include "cli/commands.hpp"
#include "cli/levels_page.hpp"
#include "cli/quantity.hpp"
#include "cli/session.hpp"
#include "formats/choice_json.hpp"
#include "formats/json_text.hpp"
#include "formats/level_set_file.hpp"
#include "study/choose.hpp"

namespace duskwire::cli {
namespace {

// Reads lengths of the line and keeps every slip.
class Lengths {
 public:
  explicit Lengths(job::DisplayUnits bare) : bare_(bare) {}

  std::optional<double> read(const char* option, const std::string& text) {
    if (text.empty()) return std::nullopt;
    const Result<double> length_m = read_length_m(text, bare_);
    if (length_m && length_m.value() >= 0) return length_m.value();
    slips_ += fmt::format("duskwire choose: --{} {}: {}\n", option, text,
                          length_m ? "a length is not below 0." : length_m.error().message);
    return std::nullopt;
  }

  // "5m:2m:7.5m" as so many lengths.
  template <std::size_t count>
  std::optional<std::array<double, count>> row(const char* option, const std::string& text) {
    std::array<double, count> lengths{};
    std::size_t begin = 0;
    for (std::size_t i = 0; i < count; ++i) {
      const std::size_t end = i + 1 < count ? text.find(':', begin) : text.size();
      if (end == std::string::npos || (i + 1 == count && text.find(':', begin) != std::string::npos)) {
        slips_ += fmt::format("duskwire choose: --{} {}: {} lengths with colons between were expected.\n", option, text,
                              count);
        return std::nullopt;
      }
      const std::optional<double> length_m = read(option, text.substr(begin, end - begin));
      if (!length_m) return std::nullopt;
      lengths[i] = *length_m;
      begin = end + 1;
    }
    return lengths;
  }

  [[nodiscard]] const std::string& slips() const { return slips_; }

 private:
  job::DisplayUnits bare_;
  std::string slips_;
};

// A garden of one thing, by the sizes typed: a tree at the origin seen from the south, a walk to the east, a wall that
// faces south.
job::Job typed_garden(const ChooseRequest& request, Lengths& lengths, study::ChooseRequest& asked) {
  job::Job garden;
  if (const auto crown = request.crown.empty() ? std::nullopt : lengths.row<3>("crown", request.crown)) {
    job::Tree tree;
    tree.id = asked.tree = "tree";
    tree.crown_width_m = (*crown)[0];
    tree.crown_base_m = (*crown)[1];
    tree.height_m = (*crown)[2];
    garden.plan.trees.push_back(tree);
  }
  job::Area area;
  if (const auto walk = request.walk.empty() ? std::nullopt : lengths.row<2>("walk", request.walk)) {
    area.id = asked.area = "walk";
    area.kind = job::GroundKind::paving;
    area.outline = {
        {0, -(*walk)[1] / 2}, {(*walk)[0], -(*walk)[1] / 2}, {(*walk)[0], (*walk)[1] / 2}, {0, (*walk)[1] / 2}};
    garden.plan.areas.push_back(area);
  }
  if (const auto wall = request.wall.empty() ? std::nullopt : lengths.row<2>("wall", request.wall)) {
    area.id = "wall";
    asked.face = "wall/0";
    area.kind = job::GroundKind::building;
    area.height_m = (*wall)[1];
    area.outline = {{0, 0}, {(*wall)[0], 0}, {(*wall)[0], 3}, {0, 3}};
    garden.plan.areas.push_back(area);
  }
  return garden;
}

}  // namespace

Outcome choose_command(const ChooseRequest& request, const Common& common, const TextStyle& style) {
  study::ChooseRequest asked;
  asked.tree = request.tree;
  asked.area = request.area;
  asked.face = request.face;
  asked.item = request.item;
  asked.targets = request.targets;
  Session session{{}, {}, {}, style, ""};
  if (request.job.empty()) {
    Or<Stock> loaded = load_stock(common.catalogue, style);
    if (const auto* refused = std::get_if<Outcome>(&loaded)) return *refused;
    session.stock = std::get<Stock>(loaded).catalogue;
    session.remarks = std::get<Stock>(loaded).remarks;
    session.style.units = common.units.value_or(job::DisplayUnits::metric);
  } else {
    Or<Session> opened = open_session(request.job, common, style);
    if (const auto* refused = std::get_if<Outcome>(&opened)) return *refused;
    session = std::get<Session>(std::move(opened));
  }
  Lengths lengths(session.style.units);
  if (request.job.empty()) {
    session.job = typed_garden(request, lengths, asked);
    session.job.site.units = session.style.units;
  }
  asked.setback_m = lengths.read("setback", request.setback);
  asked.longest_m = lengths.read("spacing", request.spacing);
  asked.pool_m = lengths.read("pool", request.pool);
  for (const std::string& text : request.risers) {
    if (const auto riser_m = lengths.read("riser", text)) asked.risers_m.push_back(*riser_m);
  }
  if (!lengths.slips().empty()) return {exit_bad_input, "", lengths.slips() + "Try duskwire choose --help.\n"};
  const Result<study::Choice> chosen = study::choose(session.job, asked, session.stock, formats::embedded_level_sets());
  if (!chosen) return refuse(chosen.error());
  const bool fits = !chosen.value().options.empty() && chosen.value().options.front().fits;
  Outcome outcome{fits ? exit_sound : exit_findings, "", session.remarks};
  outcome.text = common.json ? formats::indented_text(formats::choice_json(chosen.value())) + "\n"
                             : choice_text(chosen.value(), session.style);
  return outcome;
}

}  // namespace duskwire::cli
