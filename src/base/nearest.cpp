// SPDX-License-Identifier: Apache-2.0
#include "base/nearest.hpp"

#include <algorithm>
#include <numeric>

namespace duskwire {
namespace {

// Longer words are not mistyped ones, and the work grows with the square of the length.
constexpr std::size_t longest_word = 100;

// Fewest letters to add, drop, change or swap with the next one to turn p into q (restricted Damerau-Levenshtein).
std::size_t edits(std::string_view p, std::string_view q) {
  std::vector<std::size_t> before;
  std::vector<std::size_t> above(q.size() + 1);
  std::vector<std::size_t> row(q.size() + 1);
  std::iota(above.begin(), above.end(), std::size_t{0});
  for (std::size_t i = 1; i <= p.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= q.size(); ++j) {
      const std::size_t change = above[j - 1] + (p[i - 1] == q[j - 1] ? 0 : 1);
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, change});
      const bool swapped = i > 1 && j > 1 && p[i - 1] == q[j - 2] && p[i - 2] == q[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before = above;
    above = row;
  }
  return above[q.size()];
}

}  // namespace

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  if (word.size() > longest_word) return "";
  std::size_t best = std::max<std::size_t>(1, word.size() / 3) + 1;
  std::string found;
  for (const std::string& candidate : known) {
    if (candidate.size() > longest_word) continue;
    const std::size_t distance = edits(word, candidate);
    if (distance >= best) continue;
    best = distance;
    found = candidate;
  }
  return found;
}

}  // namespace duskwire
