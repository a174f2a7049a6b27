// SPDX-License-Identifier: Apache-2.0
#include "cli/catalogue_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "base/units.hpp"
#include "cli/quantity.hpp"
#include "cli/table.hpp"

namespace duskwire::cli {
namespace {

std::string lowered(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return std::tolower(c); });
  return text;
}

template <class Item>
void keep_found(std::vector<Item>& items, const std::string& shelf, const std::string& word) {
  if (shelf.find(word) != std::string::npos) return;
  std::erase_if(items, [&](const Item& item) {
    return lowered(item.id).find(word) == std::string::npos && lowered(item.title).find(word) == std::string::npos;
  });
}

std::string shelf(const std::string& title, const Table& table, const TextStyle& style) {
  if (table.empty()) return "";
  return paint(style, Ink::strong, title) + "\n" + table.text(style) + "\n";
}

Column title_column() { return {"title", Align::left, true, 18}; }

// Prices of one catalogue share a currency, which the head of the column names.
Column price_column(const job::Catalogue& catalogue) { return {catalogue.currency, Align::right}; }

Cell price_cell(std::int64_t minor, const job::Catalogue& catalogue) {
  const std::string text = money(minor, catalogue.currency);
  return {text.substr(0, text.find(' '))};
}

std::string luminaires(const job::Catalogue& catalogue, const TextStyle& style) {
  Table table({{"id"}, title_column(), {"VA", Align::right}, {"lm", Align::right}, {"volts"}, price_column(catalogue)});
  for (const job::LuminaireItem& item : catalogue.luminaires) {
    table.add({{item.id},
               {item.title},
               {fmt::format("{:g}", item.power_va)},
               {fmt::format("{:g}", item.flux_lm)},
               {fmt::format("{:g}{}{:g}", item.window_min_v, style.glyphs.dash, item.window_max_v)},
               price_cell(item.price_minor, catalogue)});
  }
  return shelf("Luminaires  (volts: the window that the lamp is made for)", table, style);
}

std::string cables(const job::Catalogue& catalogue, const TextStyle& style) {
  const bool us = style.units == job::DisplayUnits::us;
  const double m_per_length = us ? units::m_per_ft : 1;
  Table table({{"id"},
               title_column(),
               {us ? "ohm/1000 ft" : "ohm/km", Align::right},
               {catalogue.currency + (us ? "/ft" : "/m"), Align::right}});
  for (const job::CableItem& item : catalogue.cables) {
    const double price = static_cast<double>(item.price_minor_per_m) * m_per_length;
    table.add({{item.id},
               {item.title},
               {number(item.ohm_per_m_20c * 1000 * m_per_length, 2)},
               price_cell(std::llround(price), catalogue)});
  }
  return shelf("Cables  (ohm: of one conductor at 20 degrees C)", table, style);
}

std::string connectors(const job::Catalogue& catalogue, const TextStyle& style) {
  Table table({{"id"}, title_column(), {"sealed"}, {"held"}, price_column(catalogue)});
  for (const job::ConnectorItem& item : catalogue.connectors) {
    table.add({{item.id},
               {item.title},
               {item.sealed ? "sealed" : "not sealed", item.sealed ? Ink::plain : Ink::caution},
               {item.mechanically_held ? "held" : "not held", item.mechanically_held ? Ink::plain : Ink::caution},
               price_cell(item.price_minor, catalogue)});
  }
  return shelf("Connectors", table, style);
}

template <class Item>
std::string others(const std::string& title, const std::vector<Item>& items, const job::Catalogue& catalogue,
                   const TextStyle& style) {
  Table table({{"id"}, title_column(), price_column(catalogue)});
  for (const Item& item : items) table.add({{item.id}, {item.title}, price_cell(item.price_minor, catalogue)});
  return shelf(title, table, style);
}

}  // namespace

job::Catalogue found_in(const job::Catalogue& catalogue, const std::string& word) {
  job::Catalogue found = catalogue;
  const std::string wanted = lowered(word);
  keep_found(found.luminaires, "luminaires", wanted);
  keep_found(found.transformers, "transformers", wanted);
  keep_found(found.cables, "cables", wanted);
  keep_found(found.connectors, "connectors", wanted);
  keep_found(found.controls, "controls", wanted);
  keep_found(found.sundries, "sundries", wanted);
  return found;
}

std::size_t article_count(const job::Catalogue& catalogue) {
  return catalogue.luminaires.size() + catalogue.transformers.size() + catalogue.cables.size() +
         catalogue.connectors.size() + catalogue.controls.size() + catalogue.sundries.size();
}

std::string catalogue_text(const job::Catalogue& catalogue, const TextStyle& style) {
  return luminaires(catalogue, style) + others("Transformers", catalogue.transformers, catalogue, style) +
         cables(catalogue, style) + connectors(catalogue, style) +
         others("Controls", catalogue.controls, catalogue, style) +
         others("Sundries", catalogue.sundries, catalogue, style) +
         "Generic goods of no maker; prices are estimates. Go by the window and the listing marked on the article "
         "itself.\n";
}

}  // namespace duskwire::cli
