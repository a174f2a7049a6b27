// SPDX-License-Identifier: Apache-2.0
#include "cli/nearest.hpp"

#include <algorithm>
#include <numeric>

namespace duskwire::cli {
namespace {

// Fewest letters to add, drop, change or swap with the next one to turn p into q (restricted Damerau-Levenshtein).
std::size_t edits(const std::string& p, const std::string& q) {
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

std::string nearest(const std::string& word, const std::vector<std::string>& known) {
  std::size_t best = std::max<std::size_t>(1, word.size() / 3) + 1;
  std::string found;
  for (const std::string& candidate : known) {
    const std::size_t distance = edits(word, candidate);
    if (distance >= best) continue;
    best = distance;
    found = candidate;
  }
  return found;
}

}  // namespace duskwire::cli
