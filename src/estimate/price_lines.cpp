// SPDX-License-Identifier: Apache-2.0
#include "estimate/price_lines.hpp"

#include <fmt/format.h>

#include <optional>

#include "estimate/money.hpp"

namespace duskwire::estimate {
namespace {

class LineWriter {
 public:
  LineWriter(std::vector<PriceLine>& lines, Problems& problems) : lines_(lines), problems_(problems) {}

  // An amount that cannot be counted is left at 0.
  void add(PriceLine line, std::optional<std::int64_t> cost_minor, std::optional<std::int64_t> price_minor) {
    if (!cost_minor || !price_minor) {
      problems_.push_back({Severity::error, "/offer", line.id, "an amount that can be written in 64 bits",
                           fmt::format("\"{}\" cannot be counted: correct its rate or its quantity.", line.text)});
    }
    line.cost_minor = cost_minor.value_or(0);
    line.price_minor = price_minor.value_or(0);
    lines_.push_back(std::move(line));
  }

 private:
  std::vector<PriceLine>& lines_;
  Problems& problems_;
};

double marked_up_pct(const PriceRates& rates) { return 100 + rates.material_markup_pct; }

void add_material(const Materials& list, const PriceRates& rates, LineWriter& out) {
  const double pct = marked_up_pct(rates);
  for (const MaterialLine& line : list.lines) {
    out.add({fmt::format("{}/{}", category_name(line.category), line.item), PriceGroup::material, line.title,
             line.quantity, line.unit, share_minor(line.unit_price_minor, pct).value_or(0), 0, 0, line.note},
            line.price_minor, share_minor(line.price_minor, pct));
  }
  if (rates.sundries_cost_minor == 0 || list.lines.empty()) return;
  const auto price_minor = share_minor(rates.sundries_cost_minor, pct);
  out.add({"sundries", PriceGroup::material, "Sundries", 1, "lump", price_minor.value_or(0), 0, 0,
           "A lump for small goods that the list does not count"},
          rates.sundries_cost_minor, price_minor);
}

void add_labour(const Labour& labour, const PriceRates& rates, LineWriter& out) {
  for (const Work& work : labour.work) {
    out.add({work.id, PriceGroup::labour, work.text, work.minutes / 60, "h", rates.labour_price_minor_per_h, 0, 0,
             work.reason},
            time_minor(work.minutes, rates.install.labour_minor_per_h),
            time_minor(work.minutes, rates.labour_price_minor_per_h));
  }
}

void add_extras(const job::Job& job, const Labour& labour, const PriceRates& rates, LineWriter& out) {
  if (labour.trips > 0 && (rates.trip_price_minor > 0 || rates.trip_cost_minor > 0)) {
    out.add({"trips", PriceGroup::extra, "Trips", labour.trips, "trip", rates.trip_price_minor, 0, 0,
             "Beside the time on the road"},
            amount_minor(labour.trips, rates.trip_cost_minor), amount_minor(labour.trips, rates.trip_price_minor));
  }
  if (!job.offer) return;
  for (const job::OfferExtra& extra : job.offer->extras) {
    out.add(
        {"extra/" + extra.id, PriceGroup::extra, extra.title, 1, "lump", extra.price_minor, 0, 0, "Named in the offer"},
        extra.cost_minor, extra.price_minor);
  }
}

}  // namespace

std::vector<PriceLine> price_lines(const job::Job& job, const Materials& list, const Labour& labour,
                                   const PriceRates& rates, Problems& problems) {
  std::vector<PriceLine> lines;
  LineWriter out(lines, problems);
  add_material(list, rates, out);
  add_labour(labour, rates, out);
  add_extras(job, labour, rates, out);
  return lines;
}

}  // namespace duskwire::estimate
