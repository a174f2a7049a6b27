// SPDX-License-Identifier: Apache-2.0
#include "paper/table_widths.hpp"

#include <algorithm>
#include <numeric>
#include <string>

#include "paper/words.hpp"

namespace duskwire::paper {
namespace {

// A column wants no more than this for one long text: the rest is broken.
constexpr double most_wanted_mm = 90;
constexpr double least_mm = 6;
// Text beyond this says nothing new about a width.
constexpr std::size_t most_measured = 400;

struct ColumnWish {
  double least_mm = 0;   // its longest word
  double wanted_mm = 0;  // its longest line
};

std::string longest_word(const std::string& text) {
  std::string longest;
  std::size_t from = 0;
  while (from < text.size()) {
    const std::size_t end = std::min(text.find_first_of(" \n\t", from), text.size());
    if (end - from > longest.size()) longest = text.substr(from, end - from);
    from = end + 1;
  }
  return longest;
}

// Figures stay whole: an amount that is broken before its currency reads as two.
void measure(ColumnWish& wish, const std::string& text, const TextLook& look, bool whole = false) {
  if (text.empty()) return;
  const std::string shown = text.substr(0, most_measured);
  const double whole_mm = Words(shown, look, 0).width_mm();
  wish.wanted_mm = std::max(wish.wanted_mm, std::min(whole_mm, most_wanted_mm));
  const std::string word = whole ? shown : longest_word(shown);
  const double word_mm = word.size() == shown.size() ? whole_mm : Words(word, look, 0).width_mm();
  wish.least_mm = std::max(wish.least_mm, std::min(word_mm, most_wanted_mm / 2));
}

double sum_of(const std::vector<double>& widths_mm) { return std::accumulate(widths_mm.begin(), widths_mm.end(), 0.0); }

}  // namespace

std::vector<double> column_widths_mm(const Table& table, double width_mm) {
  std::vector<ColumnWish> wishes(table.columns.size());
  TextLook plain;
  plain.size_pt = table.text_pt;
  TextLook bold = plain;
  bold.bold = true;
  for (std::size_t c = 0; c < wishes.size(); ++c) {
    wishes[c].least_mm = wishes[c].wanted_mm = least_mm;
    measure(wishes[c], table.columns[c].title, bold);
    for (const Row& row : table.rows) {
      if (row.kind == RowKind::group || c >= row.cells.size()) continue;
      measure(wishes[c], row.cells[c], row.kind == RowKind::sum ? bold : plain, table.columns[c].side == Side::end);
    }
    // A trace more than measured, so that what just fits is not broken for a rounding.
    wishes[c].least_mm += 0.2;
    wishes[c].wanted_mm += 0.2;
    if (table.columns[c].width_mm) wishes[c] = {*table.columns[c].width_mm, *table.columns[c].width_mm};
  }
  std::vector<double> widths_mm;
  for (const ColumnWish& wish : wishes) widths_mm.push_back(wish.wanted_mm);
  const double wanted_mm = sum_of(widths_mm);
  if (wanted_mm <= width_mm) {
    // What is left goes to the columns of text, so that numbers stay close together.
    const auto grows = [&](std::size_t c) {
      return !table.columns[c].width_mm && table.columns[c].side == Side::start;
    };
    double growing_mm = 0;
    for (std::size_t c = 0; c < widths_mm.size(); ++c) growing_mm += grows(c) ? widths_mm[c] : 0;
    if (growing_mm > 0) {
      const double left_mm = width_mm - wanted_mm;
      for (std::size_t c = 0; c < widths_mm.size(); ++c) {
        if (grows(c)) widths_mm[c] += left_mm * wishes[c].wanted_mm / growing_mm;
      }
    }
    return widths_mm;
  }
  std::vector<double> least;
  for (const ColumnWish& wish : wishes) least.push_back(wish.least_mm);
  const double needed_mm = sum_of(least);
  if (needed_mm >= width_mm) {
    // Words are broken too.
    for (double& each_mm : least) each_mm *= width_mm / needed_mm;
    return least;
  }
  const double share = (width_mm - needed_mm) / (wanted_mm - needed_mm);
  for (std::size_t c = 0; c < widths_mm.size(); ++c) least[c] += share * (wishes[c].wanted_mm - wishes[c].least_mm);
  return least;
}

}  // namespace duskwire::paper
