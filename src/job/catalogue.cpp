// SPDX-License-Identifier: Apache-2.0
#include "job/catalogue.hpp"

#include <algorithm>

namespace duskwire::job {
namespace {

template <class Item>
const Item* find(const std::vector<Item>& items, const std::string& id) {
  const auto found = std::find_if(items.begin(), items.end(), [&](const Item& item) { return item.id == id; });
  return found == items.end() ? nullptr : &*found;
}

}  // namespace

const LuminaireItem* find_luminaire(const Catalogue& catalogue, const std::string& id) {
  return find(catalogue.luminaires, id);
}
const TransformerItem* find_transformer(const Catalogue& catalogue, const std::string& id) {
  return find(catalogue.transformers, id);
}
const CableItem* find_cable(const Catalogue& catalogue, const std::string& id) { return find(catalogue.cables, id); }
const ConnectorItem* find_connector(const Catalogue& catalogue, const std::string& id) {
  return find(catalogue.connectors, id);
}

}  // namespace duskwire::job
