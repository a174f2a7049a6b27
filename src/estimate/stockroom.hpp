// SPDX-License-Identifier: Apache-2.0
// Where an item of the list comes from: the job's own catalogue first, then the stock.
#pragma once

#include <algorithm>
#include <string>
#include <tuple>
#include <vector>

#include "job/catalogue.hpp"

namespace duskwire::estimate {

template <class Item>
struct Picked {
  const Item* item = nullptr;
  const job::Catalogue* source = nullptr;  // whose currency the price is in
  explicit operator bool() const { return item != nullptr; }
};

class Stockroom {
 public:
  Stockroom(const job::Catalogue& own, const job::Catalogue& stock) : own_(own), stock_(stock) {}

  [[nodiscard]] const job::Catalogue& own() const { return own_; }
  [[nodiscard]] const job::Catalogue& stock() const { return stock_; }

  // By id: pick(&job::Catalogue::cables, id). Empty where neither has it.
  template <class Item>
  [[nodiscard]] Picked<Item> pick(std::vector<Item> job::Catalogue::*shelf, const std::string& id) const {
    for (const job::Catalogue* source : {&own_, &stock_}) {
      const auto& items = source->*shelf;
      const auto found = std::find_if(items.begin(), items.end(), [&](const Item& item) { return item.id == id; });
      if (found != items.end()) return {&*found, source};
    }
    return {};
  }

  // The cheapest sundry of a kind; of equal ones the first by id.
  [[nodiscard]] Picked<job::SundryItem> cheapest(job::SundryKind kind) const {
    Picked<job::SundryItem> best;
    for (const job::Catalogue* source : {&own_, &stock_}) {
      for (const job::SundryItem& item : source->sundries) {
        if (item.kind != kind) continue;
        if (!best || std::tie(item.price_minor, item.id) < std::tie(best.item->price_minor, best.item->id)) {
          best = {&item, source};
        }
      }
      if (best) break;
    }
    return best;
  }

 private:
  const job::Catalogue& own_;
  const job::Catalogue& stock_;
};

}  // namespace duskwire::estimate
