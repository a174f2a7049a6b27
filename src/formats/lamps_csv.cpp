// SPDX-License-Identifier: Apache-2.0
#include "formats/lamps_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <set>

#include "base/decimal.hpp"
#include "base/nearest.hpp"
#include "base/units.hpp"
#include "base/utf8.hpp"
#include "formats/csv_table.hpp"
#include "formats/text_forms.hpp"

namespace duskwire::formats {
namespace {

// What a column holds, and in which unit lengths are.
enum class Column : std::uint8_t { id, name, item, watts, zone, x, y, z, distance, azimuth, tilt, dim, unknown };
constexpr std::size_t column_count = static_cast<std::size_t>(Column::unknown);

struct Head {
  const char* name;
  Column column;
  double m_per_unit = 1;
};

constexpr std::array heads{Head{"id", Column::id},
                           Head{"name", Column::name},
                           Head{"item", Column::item},
                           Head{"watts", Column::watts},
                           Head{"zone", Column::zone},
                           Head{"x_m", Column::x},
                           Head{"x_ft", Column::x, units::m_per_ft},
                           Head{"y_m", Column::y},
                           Head{"y_ft", Column::y, units::m_per_ft},
                           Head{"z_m", Column::z},
                           Head{"z_ft", Column::z, units::m_per_ft},
                           Head{"distance_m", Column::distance},
                           Head{"distance_ft", Column::distance, units::m_per_ft},
                           Head{"azimuth_deg", Column::azimuth},
                           Head{"tilt_deg", Column::tilt},
                           Head{"dim_pct", Column::dim}};

// A stock item stands for a lamp of other watts up to this difference.
constexpr double nearest_watts_share = 0.2;

std::string trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t");
  if (begin == std::string_view::npos) return "";
  return std::string(text.substr(begin, text.find_last_not_of(" \t") - begin + 1));
}

std::string lower(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

std::vector<std::string> head_names() {
  std::vector<std::string> names;
  for (const Head& head : heads) names.emplace_back(head.name);
  return names;
}

class LampTable {
 public:
  LampTable(std::string_view text, const job::Catalogue& stock) : stock_(stock), table_(read_csv(text)) {
    read_.problems = std::move(table_.problems);
    for (const job::LuminaireItem& item : stock.luminaires) item_ids_.push_back(item.id);
  }

  ReadLamps read() {
    if (table_.rows.empty()) {
      report(1, 1, Severity::error, "", "a first line such as name,item,x_m,y_m", "The table is empty.");
      return std::move(read_);
    }
    read_heads(table_.rows.front());
    if (has_errors(read_.problems)) return std::move(read_);
    for (std::size_t i = 1; i < table_.rows.size(); ++i) read_row(table_.rows[i]);
    if (table_.rows.size() == 1) {
      report(table_.rows[0].line, 1, Severity::error, "", "a line for each lamp",
             "Below its heads the table is empty.");
    }
    return std::move(read_);
  }

 private:
  struct Place {
    std::size_t index = 0;
    double m_per_unit = 1;
  };

  static std::size_t index_of(Column column) { return static_cast<std::size_t>(column); }

  void report(std::size_t line, std::size_t column, Severity severity, std::string value, std::string expected,
              std::string message) {
    constexpr std::size_t most_problems = 1000;
    if (read_.problems.size() >= most_problems) return;
    read_.problems.push_back({severity, csv_place(line, column), std::move(value), std::move(expected),
                              fmt::format("Line {}: {}", line, message)});
  }

  void read_heads(const CsvRow& row) {
    for (std::size_t i = 0; i < row.cells.size(); ++i) read_head(row, i);
    if (!places_[index_of(Column::item)] && !places_[index_of(Column::watts)]) {
      report(
          row.line, 1, Severity::error, "", "a column item or watts",
          "the heads name neither \"item\" (of the stock catalogue) nor \"watts\". The first line names the columns, "
          "such as name,item,x_m,y_m.");
    }
    const bool lone = places_[index_of(Column::x)].has_value() != places_[index_of(Column::y)].has_value();
    if (lone && !has_errors(read_.problems)) {
      report(row.line, 1, Severity::error, "", "columns for both x and y, or for neither",
             "a place needs both x and y.");
    }
  }

  void read_head(const CsvRow& row, std::size_t i) {
    const std::string name = lower(trimmed(row.cells[i]));
    const auto found = std::find_if(heads.begin(), heads.end(), [&](const Head& head) { return name == head.name; });
    if (found != heads.end()) {
      std::optional<Place>& place = places_[index_of(found->column)];
      if (place) {
        report(row.line, i + 1, Severity::error, name, "one column for each thing",
               fmt::format("columns {} and {} both say it: keep one.", place->index + 1, i + 1));
      }
      place = Place{i, found->m_per_unit};
      return;
    }
    if (name.empty()) return;
    if (name == "x" || name == "y" || name == "z" || name == "distance") {
      report(
          row.line, i + 1, Severity::error, name, fmt::format("{}_m or {}_ft", name, name),
          fmt::format("column \"{}\" does not say its unit: call it {}_m (metres) or {}_ft (feet).", name, name, name));
      return;
    }
    const std::string near = nearest(name, head_names());
    report(row.line, i + 1, Severity::warning, shortened(name), fmt::format("one of {}", fmt::join(head_names(), ", ")),
           fmt::format("column \"{}\" is not known and is passed over.{}", shortened(name),
                       near.empty() ? "" : fmt::format(" Did you mean \"{}\"?", near)));
  }

  [[nodiscard]] std::string cell(const CsvRow& row, Column column) const {
    const std::optional<Place>& place = places_[index_of(column)];
    return place && place->index < row.cells.size() ? trimmed(row.cells[place->index]) : "";
  }

  [[nodiscard]] std::size_t column_number(Column column) const {
    const std::optional<Place>& place = places_[index_of(column)];
    return place ? place->index + 1 : 1;
  }

  void read_row(const CsvRow& row) {
    const std::size_t width = table_.rows.front().cells.size();
    for (std::size_t i = width; i < row.cells.size(); ++i) {
      if (trimmed(row.cells[i]).empty()) continue;
      report(row.line, i + 1, Severity::error, shortened(row.cells[i]), fmt::format("{} cells", width),
             fmt::format("it has {} cells, the heads have {}. Put a cell that holds a separator (a decimal comma?) in "
                         "quotes.",
                         row.cells.size(), width));
      return;
    }
    job::Luminaire lamp;
    lamp.id = text(row, Column::id, 64, Form::name);
    lamp.name = text(row, Column::name, 200, Form::plain);
    lamp.zone = text(row, Column::zone, 200, Form::plain);
    lamp.item = item(row);
    lamp.position = position(row);
    lamp.azimuth_deg = number(row, Column::azimuth, -360, 360, "deg").value_or(0);
    lamp.tilt_deg = number(row, Column::tilt, -90, 90, "deg").value_or(0);
    lamp.dim_pct = number(row, Column::dim, 0, 100, "%").value_or(100);
    if (!lamp.id.empty() && !ids_.insert(lamp.id).second) {
      report(row.line, column_number(Column::id), Severity::error, lamp.id, "an id that no other lamp has",
             fmt::format("the id \"{}\" is taken by a lamp above.", lamp.id));
    }
    read_.lamps.push_back(std::move(lamp));
  }

  std::string text(const CsvRow& row, Column column, std::size_t max_chars, Form form) {
    std::string value = cell(row, column);
    if (value.empty() || (count_chars(value) <= max_chars && has_form(value, form))) return value;
    report(row.line, column_number(column), Severity::error, shortened(value),
           fmt::format("{}, at most {} characters", words_for(form), max_chars),
           fmt::format("\"{}\" is too long or holds what it may not.", shortened(value)));
    return value;
  }

  std::string item(const CsvRow& row) {
    const std::string id = cell(row, Column::item);
    const std::optional<double> watts = number(row, Column::watts, 0, 2000, "W");
    if (id.empty() && watts) return item_of_watts(row, *watts);
    if (id.empty()) {
      report(row.line, column_number(Column::item), Severity::error, "", "the id of a stock item, or watts",
             "it names neither item nor watts.");
      return id;
    }
    if (job::find_luminaire(stock_, id) != nullptr) return id;
    const std::string near = nearest(id, item_ids_);
    report(row.line, column_number(Column::item), Severity::error, shortened(id), "the id of a luminaire item",
           fmt::format("the catalogue has no luminaire \"{}\"{}", shortened(id),
                       near.empty() ? "." : fmt::format("; did you mean \"{}\"?", near)));
    return id;
  }

  // The LED item of the stock nearest in watts, the first of several.
  std::string item_of_watts(const CsvRow& row, double watts) {
    const job::LuminaireItem* best = nullptr;
    for (const job::LuminaireItem& item : stock_.luminaires) {
      if (item.lamp != job::LampKind::regulated_led || item.underwater_listed) continue;
      if (!best || std::abs(item.power_w - watts) < std::abs(best->power_w - watts)) best = &item;
    }
    const std::size_t column = column_number(Column::watts);
    if (!best || std::abs(best->power_w - watts) > nearest_watts_share * watts) {
      report(row.line, column, Severity::error, fmt::format("{}", watts), "watts of a stock item, within 20 %",
             fmt::format("the catalogue has no LED lamp near {} W: name an item.", watts));
      return "";
    }
    if (best->power_w != watts) {
      report(row.line, column, Severity::warning, fmt::format("{}", watts), fmt::format("{} W", best->power_w),
             fmt::format("{} W is taken as \"{}\" of {} W and {} VA; name an item to choose another.", watts, best->id,
                         best->power_w, best->power_va));
    }
    return best->id;
  }

  std::optional<geometry::Point3> position(const CsvRow& row) {
    const std::optional<double> x_m = length(row, Column::x);
    const std::optional<double> y_m = length(row, Column::y);
    const std::optional<double> z_m = length(row, Column::z);
    const std::optional<double> distance_m = length(row, Column::distance);
    if (x_m && y_m) return geometry::Point3{*x_m, *y_m, z_m.value_or(0)};
    if (cell(row, Column::x).empty() != cell(row, Column::y).empty()) {
      report(row.line, column_number(x_m ? Column::y : Column::x), Severity::error, "", "both x and y, or neither",
             "a place needs both x and y.");
    }
    if (distance_m) return geometry::Point3{*distance_m, 0, z_m.value_or(0)};
    return {};
  }

  std::optional<double> length(const CsvRow& row, Column column) {
    const std::optional<Place>& place = places_[index_of(column)];
    if (!place) return {};
    const double farthest = farthest_m / place->m_per_unit;
    const char* unit = place->m_per_unit == 1 ? "m" : "ft";
    const std::optional<double> value = number(row, column, column == Column::distance ? 0 : -farthest, farthest, unit);
    return value ? std::optional<double>(*value * place->m_per_unit) : std::nullopt;
  }

  std::optional<double> number(const CsvRow& row, Column column, double min, double max, const char* unit) {
    std::string value = cell(row, column);
    if (value.empty()) return {};
    const std::string shown = shortened(value);
    const std::size_t comma = value.find(',');
    if (comma != std::string::npos && table_.separator != ',') value[comma] = '.';
    if (value[0] == '+') value.erase(0, 1);
    const auto [parsed, length] = leading_number(value);
    const bool whole = length == value.size();
    if (whole && parsed >= min && parsed <= max) return parsed + 0.0;  // no negative zero
    const bool begins = length > 0 && !whole;
    report(row.line, column_number(column), Severity::error, shown,
           fmt::format("a number from {:g} to {:g} {}", min, max, unit),
           fmt::format("\"{}\" is {}{}", shown, whole ? "out of range" : "not a number",
                       begins ? fmt::format("; write the bare number, in {}.", unit) : "."));
    return {};
  }

  const job::Catalogue& stock_;
  CsvTable table_;
  ReadLamps read_;
  std::array<std::optional<Place>, column_count> places_;
  std::vector<std::string> item_ids_;
  std::set<std::string> ids_;
};

}  // namespace

ReadLamps read_lamps_csv(std::string_view text, const job::Catalogue& stock) { return LampTable(text, stock).read(); }

}  // namespace duskwire::formats
