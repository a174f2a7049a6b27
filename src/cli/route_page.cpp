// SPDX-License-Identifier: Apache-2.0
#include "cli/route_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/check_page.hpp"
#include "cli/quantity.hpp"
#include "cli/route_comparison.hpp"
#include "cli/text_width.hpp"
#include "estimate/laid_sleeves.hpp"

namespace duskwire::cli {
namespace {

std::string counted(std::size_t count, const std::string& word) {
  return fmt::format("{} {}{}", count, word, count == 1 ? "" : "s");
}

// "F1, F2, F3 and 12 more"
std::string listed(const std::vector<std::string>& ids) {
  constexpr std::size_t most = 8;
  const auto end = ids.begin() + static_cast<std::ptrdiff_t>(std::min(ids.size(), most));
  std::string text = fmt::format("{}", fmt::join(ids.begin(), end, ", "));
  if (ids.size() > most) text += fmt::format(" and {} more", ids.size() - most);
  return text;
}

// Against today's wiring, where that is one.
std::string gain_text(const study::RouteAnswer& answer, const std::string& currency) {
  const study::RouteFigures& today = answer.today;
  if (!today.wired) return "Today not every lamp is fed.";
  const std::int64_t gain_minor = today.cost.cost_minor - answer.planned.cost.cost_minor;
  const double share = today.cost.cost_minor > 0
                           ? std::abs(static_cast<double>(gain_minor)) / static_cast<double>(today.cost.cost_minor)
                           : 0;
  std::string text = gain_minor == 0
                         ? "That is what today's wiring costs"
                         : fmt::format("That is {} ({}) {} than today's wiring", money(std::abs(gain_minor), currency),
                                       percent(share), gain_minor > 0 ? "less" : "more");
  if (!today.sound) text += fmt::format(", which is not sound ({})", counted(today.errors, "error"));
  return text + ".";
}

std::string bound_text(const study::RouteAnswer& answer, const std::string& currency) {
  const auto cost_minor = static_cast<double>(answer.planned.cost.cost_minor);
  if (!(answer.bound_minor > 0) || !(cost_minor > 0)) return "";
  const double left = std::max(0.0, 1 - answer.bound_minor / cost_minor);
  return fmt::format(" No wiring on the same ways costs less than {}: at most {} % could still be saved.",
                     money(std::llround(answer.bound_minor), currency), number(left * 100, 1));
}

std::string verdict(const RoutePage& page, const TextStyle& style) {
  const std::string lamps = counted(page.job.luminaires.size(), "lamp");
  const std::string& currency = page.job.site.currency;
  if (!page.answer.job) {
    return paragraph(paint(style, Ink::bad, "Not planned: "),
                     fmt::format("no sound wiring of the {} was found. What stands in the way is said below.", lamps),
                     style.width, 0);
  }
  const std::string text = fmt::format("a sound wiring of {} that costs {} to put in. {}{}", lamps,
                                       money(page.answer.planned.cost.cost_minor, currency),
                                       gain_text(page.answer, currency), bound_text(page.answer, currency));
  return paragraph(paint(style, Ink::good, "Planned: "), text, style.width, 0);
}

// The sentence says how the run is built: nothing of it is said twice.
std::string run_text(const study::RouteRun& run, const TextStyle& style) {
  constexpr int margin_cells = 4;
  return paragraph("  " + paint(style, Ink::strong, run.cable) + "  ", run.sentence, style.width, margin_cells) +
         paragraph("    feeds  ", listed(run.lamps), style.width);
}

std::string runs(const study::RouteAnswer& answer, const TextStyle& style) {
  std::string out;
  for (const study::RouteRun& run : answer.runs) out += (out.empty() ? "" : "\n") + run_text(run, style);
  return out;
}

// A cure that serves several neighbours is said once, below the last of them.
std::string obstacles(const std::vector<study::RouteObstacle>& all, const TextStyle& style) {
  std::string out;
  for (std::size_t i = 0; i < all.size(); ++i) {
    out += paragraph(fmt::format("  {:2}. ", i + 1), all[i].message, style.width);
    const bool is_last = i + 1 == all.size() || all[i + 1].cure != all[i].cure;
    if (is_last && !all[i].cure.empty()) out += paragraph("      cure  ", all[i].cure, style.width);
  }
  return out;
}

std::string sleeves(const study::RouteAnswer& answer, const TextStyle& style) {
  std::vector<std::string> parts;
  for (const std::string& id : answer.sleeves_to_lay) {
    std::string part = id;
    for (const job::Sleeve& sleeve : answer.job->plan.sleeves) {
      if (sleeve.id == id) part += fmt::format(" ({})", length(estimate::length_m(sleeve.path), style));
    }
    parts.push_back(part);
  }
  return paragraph("  ", fmt::format("{}", fmt::join(parts, ", ")), style.width);
}

std::string closing(const RoutePage& page, const TextStyle& style) {
  std::string text =
      "Costs are estimates from the plan and the catalogue: the soil decides, and nothing is dug before "
      "the lines in the ground are marked.";
  if (page.answer.job && !page.is_written) text += " Nothing was written: --output FILE keeps the planned job.";
  if (!page.answer.job && page.is_written) text += " Nothing was written.";
  return paragraph("", text, style.width);
}

}  // namespace

std::string route_summary(const RoutePage& page, const TextStyle& style) {
  if (!page.answer.job) {
    return fmt::format("No sound wiring found: {}.", counted(page.answer.obstacles.size(), "obstacle"));
  }
  const study::RouteFigures& planned = page.answer.planned;
  return fmt::format("{}, {} dug, {} of cable, {}, {} at worst", money(planned.cost.cost_minor, page.job.site.currency),
                     length(planned.cost.trench_m, style), length(planned.cost.cable_m, style),
                     counted(planned.cost.joints, "joint"), volts(planned.lowest_v));
}

std::string route_text(const RoutePage& page, const TextStyle& style) {
  const study::RouteAnswer& answer = page.answer;
  std::string out = verdict(page, style);
  out += heading(answer.job ? "Today and planned" : "Today", style) + comparison(answer, page.job.site.currency, style);
  if (!answer.runs.empty()) out += heading("Runs", style) + runs(answer, style);
  if (answer.job && !answer.sleeves_to_lay.empty()) out += heading("Sleeves to lay", style) + sleeves(answer, style);
  if (!answer.obstacles.empty()) {
    out += heading("In the way", style) + obstacles(answer.obstacles, style);
  }
  if (!page.proof.empty()) out += heading("How good it is", style) + paragraph("  ", page.proof, style.width);
  out += "\n" + closing(page, style) + cautions(style);
  return out + "\n" + paint(style, Ink::strong, route_summary(page, style)) + "\n";
}

}  // namespace duskwire::cli
