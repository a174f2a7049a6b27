// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/catalogue_page.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "formats/catalogue_file.hpp"

namespace duskwire::cli {

Outcome catalogue_command(const CatalogueRequest& request, const Common& common, const TextStyle& style) {
  const Or<Stock> loaded = load_stock(common.catalogue, style);
  if (const auto* refused = std::get_if<Outcome>(&loaded)) return *refused;
  const std::string& remarks = std::get<Stock>(loaded).remarks;
  TextStyle own = style;
  own.units = common.units.value_or(job::DisplayUnits::metric);
  const job::Catalogue found = found_in(std::get<Stock>(loaded).catalogue, request.word);
  if (common.json) return {exit_sound, formats::write_catalogue(found), remarks};
  if (article_count(found) == 0)
    return {exit_sound, fmt::format("Nothing in the catalogue is called \"{}\".\n", request.word), remarks};
  return {exit_sound, catalogue_text(found, own), remarks};
}

}  // namespace duskwire::cli
