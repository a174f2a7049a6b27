// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string_view>

#include "cli/ask_page.hpp"
#include "cli/quantity.hpp"
#include "electrical/conductor.hpp"

namespace duskwire::cli {
namespace {

constexpr double same_size = 0.02;

// Reads numbers of the line and keeps what went wrong.
class Reader {
 public:
  explicit Reader(Slips& slips) : slips_(slips) {}

  std::optional<double> number(const char* option, const std::string& text, double least, double most) {
    if (text.empty()) return std::nullopt;
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = error == std::errc() && end == text.data() + text.size() && std::isfinite(value);
    if (whole && value >= least && value <= most) return value;
    slip(fmt::format("--{} {}: a number from {:g} to {:g} was expected.", option, text, least, most));
    return std::nullopt;
  }

  template <class T>
  std::optional<T> taken(const char* option, const Result<T>& read) {
    if (read.ok()) return read.value();
    slip(fmt::format("--{}: {}", option, read.error().message));
    return std::nullopt;
  }

  void slip(std::string sentence) { slips_.sentences.push_back(std::move(sentence)); }

 private:
  Slips& slips_;
};

job::CableItem cable_of(const ConductorSize& size, const job::Catalogue& stock) {
  for (const job::CableItem& item : stock.cables) {
    if (item.gauge_awg.has_value() != size.gauge_awg.has_value()) continue;
    if (std::abs(item.area_mm2 - size.area_mm2) <= same_size * size.area_mm2) return item;
  }
  job::CableItem item;
  item.id = conductor_size(size);
  item.title = item.id;
  item.area_mm2 = size.area_mm2;
  item.gauge_awg = size.gauge_awg;
  item.ohm_per_m_20c = electrical::copper_ohm_per_m_20c(size.area_mm2);
  return item;
}

study::Spread spread_of(const std::string& word) {
  if (word == "end") return study::Spread::end;
  if (word == "hub") return study::Spread::hub;
  return word == "tee" ? study::Spread::tee : study::Spread::chain;
}

// Sizes to choose from: those sold by gauge, or those sold by area.
std::vector<job::CableItem> sizes_to_choose(job::DisplayUnits units, const job::Catalogue& stock) {
  std::vector<job::CableItem> sizes;
  for (const job::CableItem& item : stock.cables) {
    if (item.gauge_awg.has_value() == (units == job::DisplayUnits::us)) sizes.push_back(item);
  }
  std::sort(sizes.begin(), sizes.end(), [](const auto& p, const auto& q) { return p.area_mm2 < q.area_mm2; });
  return sizes;
}

void require_one_gap(const AskRequest& request, Reader& reader) {
  const int gaps =
      int(request.lamps.empty()) + int(request.length.empty()) + int(request.cable.empty()) + int(request.tap.empty());
  if (gaps > 1) {
    reader.slip(
        "Leave out at most one of --lamps, --length, --cable and --tap: the one left out is what is asked for.");
  }
  if (request.watts.empty()) reader.slip("--watts is missing: the watts of one lamp.");
}

}  // namespace

job::DisplayUnits units_of(const AskRequest& request) {
  const auto holds = [](const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
  };
  const bool feet = holds(request.length, "ft") || holds(request.length, "'");
  const bool gauge = request.length.empty() && (holds(request.cable, "awg") || holds(request.cable, "AWG"));
  return feet || gauge ? job::DisplayUnits::us : job::DisplayUnits::metric;
}

std::variant<study::Question, Slips> question_of(const AskRequest& request, job::DisplayUnits units,
                                                 const job::Catalogue& stock) {
  Slips slips;
  Reader reader(slips);
  require_one_gap(request, reader);
  study::Question question;
  if (const auto lamps = reader.number("lamps", request.lamps, 1, study::most_asked_lamps)) {
    if (*lamps != std::floor(*lamps))
      reader.slip(fmt::format("--lamps {}: a whole number was expected.", request.lamps));
    question.lamps = static_cast<std::uint32_t>(*lamps);
  }
  question.lamp_w = reader.number("watts", request.watts, 0.01, 2000).value_or(question.lamp_w);
  question.power_factor = reader.number("power-factor", request.power_factor, 0.05, 1).value_or(1);
  question.source_ohm = reader.number("source-ohm", request.source_ohm, 0, 10).value_or(0);
  question.mains_tolerance_pct = reader.number("mains-tolerance", request.mains_tolerance, 0, 30).value_or(0);
  question.tap_v = reader.number("tap", request.tap, 1, 60);
  if (!request.length.empty()) question.length_m = reader.taken("length", read_length_m(request.length, units));
  if (!request.cable.empty()) {
    const auto size = reader.taken("cable", read_conductor_size(request.cable));
    if (size) question.cable = cable_of(*size, stock);
  }
  if (const auto window = reader.taken("window", read_window(request.window))) {
    question.window_min_v = window->min_v;
    question.window_max_v = window->max_v;
    question.cut_off_v = std::min(question.cut_off_v, window->min_v);
  }
  question.spread = spread_of(request.spread);
  question.cables = sizes_to_choose(units, stock);
  if (!slips.sentences.empty()) return slips;
  return question;
}

}  // namespace duskwire::cli
