// SPDX-License-Identifier: Apache-2.0
#include "cli/session.hpp"

#include <fmt/format.h>

#include "base/nearest.hpp"
#include "cli/findings_page.hpp"
#include "cli/output_file.hpp"
#include "cli/problems_page.hpp"
#include "formats/catalogue_file.hpp"
#include "formats/embedded.hpp"
#include "formats/job_reader.hpp"
#include "formats/ruleset_file.hpp"
#include "job/catalogue_merge.hpp"

namespace duskwire::cli {
namespace {

std::string headline(const std::string& file, const std::string& what, const Problems& problems) {
  return fmt::format("{} cannot be used as {}: {}.", file == "-" ? "standard input" : file, what,
                     tally(severities_of(problems)));
}

// A name that is neither an id nor the file of a ruleset.
Outcome no_ruleset(const std::string& name) {
  const std::vector<std::string> ids = formats::embedded_ruleset_ids();
  const std::string meant = nearest(name, ids);
  return {exit_bad_input, "",
          fmt::format("There is no ruleset \"{}\" and no file of that name.{} Rulesets: {}.\n", name,
                      meant.empty() ? "" : fmt::format(" Did you mean {}?", meant), fmt::join(ids, ", "))};
}

}  // namespace

Outcome refuse(const std::string& headline, const Problems& problems, const TextStyle& style) {
  return {exit_bad_input, "", headline + "\n\n" + problems_text(problems, style)};
}

Outcome refuse(const Error& error) { return {exit_bad_input, "", error.message + "\n"}; }

Or<study::Ruleset> load_ruleset(const std::string& name, const TextStyle& style) {
  std::string text(formats::embedded_ruleset(name));
  if (text.empty()) {
    const Result<std::string> file = read_file(name);
    if (!file) return no_ruleset(name);
    text = file.value();
  }
  formats::ReadRuleset read = formats::read_ruleset(text);
  if (!read.ruleset) return refuse(headline(name, "a ruleset", read.problems), read.problems, style);
  return *std::move(read.ruleset);
}

Or<Stock> load_stock(const std::string& shop_file, const TextStyle& style) {
  const formats::ReadCatalogue stock = formats::read_catalogue(formats::embedded_stock_catalogue());
  if (!stock.catalogue) return refuse("The stock catalogue of this build is broken.", stock.problems, style);
  if (shop_file.empty()) return Stock{*stock.catalogue, ""};
  const Result<std::string> text = read_file(shop_file);
  if (!text) return refuse(text.error());
  const formats::ReadCatalogue shop = formats::read_catalogue(text.value());
  if (!shop.catalogue) return refuse(headline(shop_file, "a catalogue", shop.problems), shop.problems, style);
  job::MergedCatalogue merged = job::merge_catalogue(*stock.catalogue, *shop.catalogue, shop.remove);
  return Stock{std::move(merged.catalogue),
               problems_text(shop.problems, style) + problems_text(merged.problems, style)};
}

Or<Session> open_session(const std::string& job_file, const Common& common, TextStyle style) {
  const Result<std::string> text = read_file(job_file);
  if (!text) return refuse(text.error());
  return session_of(job_file, text.value(), common, std::move(style));
}

Or<Session> session_of(const std::string& name, const std::string& text, const Common& common, TextStyle style,
                       JobReading reading) {
  formats::ReadJob read = reading == JobReading::strict ? formats::read_job(text) : formats::read_job_leniently(text);
  if (!read.job) return refuse(headline(name, "a job", read.problems), read.problems, style);
  Or<Stock> loaded = load_stock(common.catalogue, style);
  if (auto* refused = std::get_if<Outcome>(&loaded)) return std::move(*refused);
  auto& stock = std::get<Stock>(loaded);
  const job::DisplayUnits file_units = read.job->site.units;
  Session session{*std::move(read.job), file_units, std::move(stock.catalogue), std::move(style),
                  std::move(stock.remarks)};
  if (common.units) session.job.site.units = *common.units;
  session.style.units = session.job.site.units;
  session.remarks += problems_text(read.problems, session.style);
  return session;
}

std::string ruleset_name(const Session& session, const Common& common) {
  return common.ruleset.empty() ? session.job.site.ruleset : common.ruleset;
}

}  // namespace duskwire::cli
