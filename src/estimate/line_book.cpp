// SPDX-License-Identifier: Apache-2.0
#include "estimate/line_book.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "estimate/money.hpp"

namespace duskwire::estimate {
namespace {

void append_note(std::string& note, const std::string& more) {
  if (!note.empty()) note += "; ";
  note += more;
}

}  // namespace

std::string name_list(const std::vector<std::string>& names) {
  constexpr std::size_t most = 8;
  std::string text;
  for (std::size_t i = 0; i < std::min(names.size(), most); ++i) {
    if (i > 0) text += ", ";
    text += names[i];
  }
  if (names.size() > most) text += fmt::format(" and {} more", names.size() - most);
  return text;
}

void LineBook::add_line(MaterialLine line, const job::Catalogue& source) {
  if (!(line.quantity > 0)) return;
  if (source.currency != currency_) {
    append_note(line.note, fmt::format("no price in {}", currency_));
    line.unit_price_minor = 0;
    if (std::find(foreign_.begin(), foreign_.end(), source.currency) == foreign_.end()) {
      foreign_.push_back(source.currency);
      problem(Severity::error, "/site/currency", currency_, source.currency,
              fmt::format("Prices in {} are left out of a list in {}: give the catalogue in the site's currency.",
                          source.currency, currency_));
    }
  }
  const std::optional<std::int64_t> price_minor = amount_minor(line.quantity, line.unit_price_minor);
  if (!price_minor) {
    append_note(line.note, "price not counted");
    problem(Severity::error, "/catalogue", line.item, "a price of 0 or more whose total can be written in 64 bits",
            fmt::format("The price of {} cannot be counted: correct its price or its quantity.", line.item));
  }
  line.price_minor = price_minor.value_or(0);
  lines_.push_back(std::move(line));
}

void LineBook::add_cable(const Picked<job::CableItem>& picked, double bought_m, double route_m, std::string note) {
  const job::CableItem& item = *picked.item;
  add_line({Category::cable, item.id, item.title, bought_m, "m", item.price_minor_per_m, 0,
            item.labour_min_per_m * route_m, std::move(note)},
           *picked.source);
}

void LineBook::problem(Severity severity, std::string pointer, std::string value, std::string expected,
                       std::string message) {
  problems_.push_back({severity, std::move(pointer), std::move(value), std::move(expected), std::move(message)});
}

void LineBook::hand_over(Materials& materials) {
  std::stable_sort(lines_.begin(), lines_.end(), [](const MaterialLine& p, const MaterialLine& q) {
    return std::tie(p.category, p.item) < std::tie(q.category, q.item);
  });
  for (const MaterialLine& line : lines_) {
    materials.labour_min += line.labour_min;
    if (__builtin_add_overflow(materials.price_minor, line.price_minor, &materials.price_minor)) {
      problem(Severity::error, "/catalogue", line.item, "a total that can be written in 64 bits",
              "The sum of the list is too large to be counted: correct the prices.");
      materials.price_minor = 0;
    }
  }
  materials.lines = std::move(lines_);
  materials.problems.insert(materials.problems.end(), problems_.begin(), problems_.end());
  lines_.clear();
  problems_.clear();
}

}  // namespace duskwire::estimate
