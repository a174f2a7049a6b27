// SPDX-License-Identifier: Apache-2.0
// Collects the lines of the list: prices each once, in one currency, and says where that cannot be done.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "estimate/materials.hpp"
#include "estimate/stockroom.hpp"

namespace duskwire::estimate {

// Up to eight names, then how many more.
[[nodiscard]] std::string name_list(const std::vector<std::string>& names);

class LineBook {
 public:
  explicit LineBook(std::string currency) : currency_(std::move(currency)) {}

  // `quantity` of an item whose price and labour are per piece (or per metre, where `unit` says so).
  template <class Item>
  void add(Category category, const Picked<Item>& picked, double quantity, const std::string& unit, std::string note) {
    const Item& item = *picked.item;
    add_line({category, item.id, item.title, quantity, unit, item.price_minor, 0, item.labour_min * quantity,
              std::move(note)},
             *picked.source);
  }
  // Cable: bought by one length, laid along another.
  void add_cable(const Picked<job::CableItem>& picked, double bought_m, double route_m, std::string note);

  void problem(Severity severity, std::string pointer, std::string value, std::string expected, std::string message);

  // Sorts and sums; the book is empty afterwards.
  void hand_over(Materials& materials);

 private:
  void add_line(MaterialLine line, const job::Catalogue& source);

  std::string currency_;
  std::vector<MaterialLine> lines_;
  std::vector<std::string> foreign_;  // currencies met that are not the site's
  Problems problems_;
};

}  // namespace duskwire::estimate
