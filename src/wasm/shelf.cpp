// SPDX-License-Identifier: Apache-2.0
#include "wasm/shelf.hpp"

#include <algorithm>
#include <map>
#include <stdexcept>
#include <utility>

#include "formats/catalogue_file.hpp"
#include "formats/embedded.hpp"
#include "formats/ruleset_file.hpp"

namespace duskwire::wasm {
namespace {

// A broken file of this build is our own bug: the tests of data/ read the same files.
job::Catalogue read_stock() {
  formats::ReadCatalogue read = formats::read_catalogue(formats::embedded_stock_catalogue());
  if (!read.catalogue) throw std::logic_error("the stock catalogue of this build is broken");
  return *std::move(read.catalogue);
}

std::map<std::string, study::Ruleset> read_rulesets() {
  std::map<std::string, study::Ruleset> all;
  for (const std::string& id : formats::embedded_ruleset_ids()) {
    formats::ReadRuleset read = formats::read_ruleset(formats::embedded_ruleset(id));
    if (!read.ruleset) throw std::logic_error("the ruleset " + id + " of this build is broken");
    all.emplace(id, *std::move(read.ruleset));
  }
  return all;
}

}  // namespace

const job::Catalogue& stock() {
  static const job::Catalogue catalogue = read_stock();
  return catalogue;
}

const study::Ruleset* ruleset_of(const std::string& id) {
  static const std::map<std::string, study::Ruleset> all = read_rulesets();
  const auto found = all.find(id);
  return found == all.end() ? nullptr : &found->second;
}

std::vector<job::CableItem> sizes_to_choose(job::DisplayUnits units) {
  std::vector<job::CableItem> sizes;
  for (const job::CableItem& item : stock().cables) {
    if (item.gauge_awg.has_value() == (units == job::DisplayUnits::us)) sizes.push_back(item);
  }
  std::sort(sizes.begin(), sizes.end(), [](const auto& p, const auto& q) { return p.area_mm2 < q.area_mm2; });
  return sizes;
}

}  // namespace duskwire::wasm
