// SPDX-License-Identifier: Apache-2.0
#include "sites/stock.hpp"

#include "formats/catalogue_file.hpp"
#include "formats/embedded.hpp"
#include "formats/ruleset_file.hpp"

namespace duskwire::sites {

const job::Catalogue& stock() {
  static const job::Catalogue catalogue =
      formats::read_catalogue(formats::embedded_stock_catalogue()).catalogue.value();
  return catalogue;
}

const study::Ruleset& us_rules() {
  static const study::Ruleset rules = formats::read_ruleset(formats::embedded_ruleset("us")).ruleset.value();
  return rules;
}

}  // namespace duskwire::sites
