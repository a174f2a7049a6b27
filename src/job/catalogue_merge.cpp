// SPDX-License-Identifier: Apache-2.0
#include "job/catalogue_merge.hpp"

#include <algorithm>
#include <unordered_map>
#include <unordered_set>
#include <utility>

namespace duskwire::job {
namespace {

using Ids = std::unordered_set<std::string>;

// Applies `change` to each list of items of a catalogue and the list of the same kind of another.
template <class Change>
void for_each_list(Catalogue& catalogue, const Catalogue& other, Change change) {
  change(catalogue.luminaires, other.luminaires);
  change(catalogue.transformers, other.transformers);
  change(catalogue.cables, other.cables);
  change(catalogue.connectors, other.connectors);
  change(catalogue.controls, other.controls);
  change(catalogue.sundries, other.sundries);
}

template <class Item>
void take_out(std::vector<Item>& items, const Ids& ids, Ids& found) {
  std::erase_if(items, [&](const Item& item) {
    const bool goes = ids.contains(item.id);
    if (goes) found.insert(item.id);
    return goes;
  });
}

template <class Item>
void put_over(std::vector<Item>& items, const std::vector<Item>& own) {
  std::unordered_map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < items.size(); ++i) places.emplace(items[i].id, i);
  for (const Item& item : own) {
    const auto [place, is_new] = places.emplace(item.id, items.size());
    if (is_new) {
      items.push_back(item);
    } else {
      items[place->second] = item;
    }
  }
}

template <class Item>
void forget_price(Item& item) {
  if constexpr (requires { item.price_minor_per_m; }) {
    item.price_minor_per_m = 0;
  } else {
    item.price_minor = 0;
  }
}

void convert_to(Catalogue& catalogue, const Catalogue& shop, Problems& problems) {
  problems.push_back({Severity::warning, "/currency", shop.currency, "the stock's currency, " + catalogue.currency,
                      "The shop's prices are in " + shop.currency + ", the stock's in " + catalogue.currency +
                          ": stock items that the shop does not price itself have no price now."});
  for_each_list(catalogue, shop, [](auto& items, const auto&) {
    for (auto& item : items) forget_price(item);
  });
  catalogue.currency = shop.currency;
}

}  // namespace

MergedCatalogue merge_catalogue(const Catalogue& stock, const Catalogue& shop, const std::vector<std::string>& remove) {
  MergedCatalogue merged{stock, {}};
  const Ids ids(remove.begin(), remove.end());
  Ids found;
  for_each_list(merged.catalogue, shop, [&](auto& items, const auto&) { take_out(items, ids, found); });
  for (std::size_t i = 0; i < remove.size(); ++i) {
    if (found.contains(remove[i])) continue;
    merged.problems.push_back({Severity::warning, "/remove/" + std::to_string(i), remove[i], "the id of a stock item",
                               "The stock has no item \"" + remove[i] + "\" to remove: strike it from the list."});
  }
  if (shop.currency != stock.currency) convert_to(merged.catalogue, shop, merged.problems);
  for_each_list(merged.catalogue, shop, [](auto& items, const auto& own) { put_over(items, own); });
  return merged;
}

}  // namespace duskwire::job
