// SPDX-License-Identifier: Apache-2.0
#include "formats/times_json.hpp"

#include <cmath>
#include <cstdlib>
#include <string>
#include <vector>

#include "formats/result_times.hpp"
#include "formats/shape.hpp"
#include "formats/shape_change.hpp"
#include "formats/write_result.hpp"

namespace duskwire::formats {

struct AskedChange {
  std::int64_t from_s = 0;
  std::int64_t offset_s = 0;
  std::string abbreviation;
};
struct AskedZone {
  std::string name;
  std::vector<AskedChange> changes;
};
struct AskedBand {
  std::string from;
  std::string to;
  double price_minor_per_kwh = 0;
};
struct AskedTariff {
  double price_minor_per_kwh = 0;
  std::vector<AskedBand> bands;
};
struct AskedTimes {
  std::uint32_t year = 0;
  AskedZone zone;
  std::optional<AskedTariff> tariff;
  bool days = true;
};

constexpr const char* type_name(Of<AskedChange>) { return "clock change"; }
constexpr const char* type_name(Of<AskedZone>) { return "zone"; }
constexpr const char* type_name(Of<AskedBand>) { return "tariff band"; }
constexpr const char* type_name(Of<AskedTariff>) { return "tariff"; }
constexpr const char* type_name(Of<AskedTimes>) { return "times request"; }

inline constexpr Number kwh_price{0, 1e6, "minor units per kWh"};

template <class Visitor>
void describe(Of<AskedChange>, Visitor& v) {
  using T = AskedChange;
  constexpr double most_offset_s = 26 * 3600;
  v.field("from_s", &T::from_s, Number{-1e11, 1e11, "s"}, required, "Seconds of UTC since 1970");
  v.field("offset_s", &T::offset_s, Number{-most_offset_s, most_offset_s, "s"}, required,
          "Local less UTC from then on");
  v.field("abbreviation", &T::abbreviation, Text{12}, optional, "What the time is called then");
}

template <class Visitor>
void describe(Of<AskedZone>, Visitor& v) {
  using T = AskedZone;
  v.field("name", &T::name, Text{64, Form::time_zone}, required, "IANA name");
  v.field("changes", &T::changes, List{2000}, required, "When clocks change, ascending; the first holds before it too");
}

template <class Visitor>
void describe(Of<AskedBand>, Visitor& v) {
  using T = AskedBand;
  v.field("from", &T::from, Text{5, Form::clock}, required, "Clock time from which it holds");
  v.field("to", &T::to, Text{5, Form::clock}, required, "Clock time up to which it holds");
  v.field("price_minor_per_kwh", &T::price_minor_per_kwh, kwh_price, required, "Price then");
}

template <class Visitor>
void describe(Of<AskedTariff>, Visitor& v) {
  using T = AskedTariff;
  v.field("price_minor_per_kwh", &T::price_minor_per_kwh, kwh_price, required, "Price outside the bands");
  v.field("bands", &T::bands, List{48}, optional, "Hours of another price, each day");
}

template <class Visitor>
void describe(Of<AskedTimes>, Visitor& v) {
  using T = AskedTimes;
  v.field("year", &T::year, Number{study::first_times_year, study::last_times_year, ""}, required, "The year");
  v.field("zone", &T::zone, Part{}, required, "The site's time zone");
  v.field("tariff", &T::tariff, Part{}, optional, "What energy costs");
  v.field("days", &T::days, Flag{}, optional, "Whether to tell each day, not the months alone");
}

}  // namespace duskwire::formats

// After the shapes that it reads.
#include "formats/read_request.hpp"

namespace duskwire::formats {
namespace {

std::int32_t clock_s(const std::string& time) {
  if (time.size() < 5) return 0;
  return (std::atoi(time.substr(0, 2).c_str()) * 60 + std::atoi(time.substr(3, 2).c_str())) * 60;
}

void check_order(Context& context, const AskedZone& zone) {
  const Context::Scope in_zone(context, "zone");
  const Context::Scope in_changes(context, "changes");
  if (zone.changes.empty()) context.error(Json::array(), "at least one entry", "A zone needs at least one offset.");
  for (std::size_t i = 1; i < zone.changes.size(); ++i) {
    if (zone.changes[i].from_s > zone.changes[i - 1].from_s) continue;
    context.error(zone.changes[i].from_s, "moments in ascending order",
                  "The changes of a zone are not in the order of time.");
    return;
  }
}

study::TimesRequest request_of(const AskedTimes& asked) {
  study::TimesRequest request;
  request.year = static_cast<int>(asked.year);
  request.days = asked.days;
  request.zone.name = asked.zone.name;
  for (const AskedChange& change : asked.zone.changes) {
    request.zone.changes.push_back({change.from_s, static_cast<std::int32_t>(change.offset_s), change.abbreviation});
  }
  if (!asked.tariff) return request;
  almanac::Tariff& tariff = request.tariff.emplace();
  tariff.price_minor_per_kwh = asked.tariff->price_minor_per_kwh;
  for (const AskedBand& band : asked.tariff->bands) {
    tariff.bands.push_back({clock_s(band.from), clock_s(band.to), band.price_minor_per_kwh});
  }
  return request;
}

// Numbers with as many figures as they are worth.
void round_numbers(Json& tree) {
  if (tree.is_number_float()) {
    const double value = tree.get<double>();
    tree = std::round(value * 1e4) / 1e4;
  } else if (tree.is_structured()) {
    for (Json& each : tree) round_numbers(each);
  }
}

}  // namespace

Json times_json(const study::Times& times) {
  Json out = result_json(times);
  round_numbers(out);
  return out;
}

ReadRequest<study::TimesRequest> read_times_request(std::string_view text) {
  const ReadRequest<AskedTimes> asked =
      read_request<AskedTimes>(text, [](Context& context, const Json& tree, AskedTimes& out) {
        read_shape(context, tree, out);
        if (tree.is_object() && tree.contains("zone")) check_order(context, out.zone);
      });
  ReadRequest<study::TimesRequest> read;
  read.problems = asked.problems;
  if (asked.request) read.request = request_of(*asked.request);
  return read;
}

}  // namespace duskwire::formats
