// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/outcomes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace duskwire::diagnosis {
namespace {

constexpr double reach_sigma = 3.2;
constexpr std::size_t most_bins = 480;

// The normal distribution's share below z, from a table: three digits are plenty for a share of a bin.
double below(double z) {
  static const auto table = [] {
    std::array<double, 257> share{};
    for (std::size_t k = 0; k < share.size(); ++k) {
      const double at = (static_cast<double>(k) - 128) / 32;
      share[k] = 0.5 * std::erfc(-at / std::numbers::sqrt2);
    }
    return share;
  }();
  const double place = std::clamp(z * 32 + 128, 0.0, 255.999);
  const auto k = static_cast<std::size_t>(place);
  return table[k] + (place - static_cast<double>(k)) * (table[k + 1] - table[k]);
}

double information(double share) { return share > 1e-12 ? share * std::log2(share) : 0; }

}  // namespace

// Stretches of the scale that meet are one band; bins are as wide as its sharpest reading's standard deviation.
void OutcomeTable::lay_bands(const std::vector<Foretold>& foretold) {
  std::vector<std::size_t> order(foretold.size());
  for (std::size_t k = 0; k < order.size(); ++k) order[k] = k;
  const auto low_of = [&](std::size_t k) { return foretold[k].value - reach_sigma * foretold[k].sigma; };
  std::sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) { return low_of(x) < low_of(y); });
  for (const std::size_t k : order) {
    const double high = foretold[k].value + reach_sigma * foretold[k].sigma;
    if (bands_.empty() || low_of(k) > bands_.back().high) {
      bands_.push_back({low_of(k), high, foretold[k].sigma, 0, 0});
    } else {
      bands_.back().high = std::max(bands_.back().high, high);
      bands_.back().width = std::min(bands_.back().width, foretold[k].sigma);
    }
  }
  double bins = 0;
  for (const Band& band : bands_) bins += (band.high - band.low) / band.width;
  const double coarser = std::max(1.0, bins / static_cast<double>(most_bins));
  std::size_t first = 0;
  for (Band& band : bands_) {
    band.width *= coarser;
    band.first = first;
    band.count = static_cast<std::size_t>((band.high - band.low) / band.width) + 1;
    first += band.count;
  }
  of_bin_.assign(first, 0);
}

const OutcomeTable::Band& OutcomeTable::band_of(double value) const {
  const auto after =
      std::upper_bound(bands_.begin(), bands_.end(), value, [](double at, const Band& band) { return at < band.low; });
  return after == bands_.begin() ? *after : *(after - 1);
}

const OutcomeTable::Band& OutcomeTable::band_of_bin(std::size_t bin) const {
  const auto after = std::upper_bound(bands_.begin(), bands_.end(), bin,
                                      [](std::size_t at, const Band& band) { return at < band.first; });
  return *(after - 1);
}

OutcomeTable::OutcomeTable(std::vector<Foretold> foretold, std::uint32_t target_count) : of_target_(target_count, 0) {
  std::stable_sort(foretold.begin(), foretold.end(),
                   [](const Foretold& x, const Foretold& y) { return x.target < y.target; });
  lay_bands(foretold);
  std::vector<double> row(of_bin_.size(), 0);
  for (std::size_t k = 0; k < foretold.size();) {
    const std::uint32_t target = foretold[k].target;
    std::size_t first = row.size();
    std::size_t last = 0;
    for (; k < foretold.size() && foretold[k].target == target; ++k) {
      lay(foretold[k], row, first, last);
      of_target_[target] += foretold[k].share;
    }
    for (std::size_t bin = first; bin <= last; ++bin) {
      if (row[bin] > 1e-9) cells_.push_back({target, static_cast<std::uint32_t>(bin), row[bin]});
      of_bin_[bin] += row[bin];
      row[bin] = 0;
    }
  }
}

void OutcomeTable::lay(const Foretold& one, std::vector<double>& row, std::size_t& first, std::size_t& last) const {
  const Band& band = band_of(one.value);
  const auto bin_of = [&](double value) {
    return band.first + static_cast<std::size_t>(
                            std::clamp((value - band.low) / band.width, 0.0, static_cast<double>(band.count - 1)));
  };
  const std::size_t from = bin_of(one.value - reach_sigma * one.sigma);
  const std::size_t to = bin_of(one.value + reach_sigma * one.sigma);
  double before = 0;
  for (std::size_t bin = from; bin <= to; ++bin) {
    const double edge = band.low + static_cast<double>(bin - band.first + 1) * band.width;
    const double until = bin == to ? 1 : below((edge - one.value) / one.sigma);
    row[bin] += one.share * (until - before);
    before = until;
  }
  first = std::min(first, from);
  last = std::max(last, to);
}

double OutcomeTable::information_bit() const {
  double sum = 0;
  for (const Cell& cell : cells_) sum += information(cell.share);
  for (const double share : of_bin_) sum -= information(share);
  for (const double share : of_target_) sum -= information(share);
  return std::max(0.0, sum);
}

std::vector<OutcomeTable::Stretch> OutcomeTable::stretches(std::size_t most) const {
  constexpr double apart = 5;  // of the scale: what lies that far beyond is told on its own
  std::vector<Cell> best(of_bin_.size());
  for (const Cell& cell : cells_) {
    if (cell.share > best[cell.bin].share) best[cell.bin] = cell;
  }
  std::vector<Stretch> found;
  std::vector<std::size_t> stretch_of(of_bin_.size(), most_bins);
  for (std::size_t bin = 0; bin < of_bin_.size(); ++bin) {
    if (of_bin_[bin] < 1e-5) continue;
    const Band& band = band_of_bin(bin);
    const double low = band.low + static_cast<double>(bin - band.first) * band.width;
    if (found.empty() || best[bin].target != found.back().best_target || low > found.back().high + apart) {
      found.push_back({low, 0, 0, best[bin].target, {}});
      found.back().by_target.assign(of_target_.size(), 0);
    }
    found.back().high = low + band.width;
    found.back().share += of_bin_[bin];
    stretch_of[bin] = found.size() - 1;
  }
  for (const Cell& cell : cells_) {
    if (stretch_of[cell.bin] < found.size()) found[stretch_of[cell.bin]].by_target[cell.target] += cell.share;
  }
  for (Stretch& stretch : found) {
    for (double& share : stretch.by_target) share /= stretch.share;
  }
  std::stable_sort(found.begin(), found.end(), [](const Stretch& x, const Stretch& y) { return x.share > y.share; });
  if (found.size() > most) found.resize(most);
  return found;
}

}  // namespace duskwire::diagnosis
