// SPDX-License-Identifier: Apache-2.0
#include "formats/random_job.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <random>

#include "formats/shape_job.hpp"
#include "formats/write_shape.hpp"

namespace duskwire::formats {
namespace {

constexpr int most_entries = 3;

// Fixed numbers of things, so that a reference can name one that is made later.
constexpr int things_of(Kind kind) { return kind == Kind::none ? 0 : most_entries; }

class Dice {
 public:
  explicit Dice(std::uint32_t seed) : engine_(seed) {}

  // 0 ... count - 1
  int pick(int count) { return static_cast<int>(engine_() % static_cast<std::uint32_t>(count)); }
  bool toss() { return pick(2) == 0; }

  double number(const Number& rule) {
    const double share = engine_() / 4294967295.0;
    double value = rule.min + share * (rule.max - rule.min);
    if (pick(4) == 0) value = rule.max;
    if (pick(4) == 0) value = rule.min;
    if (toss()) value = std::round(value);
    if (value < rule.min || (rule.above_min && value <= rule.min)) value = rule.max;
    return value > rule.max ? rule.max : value + 0.0;
  }

  std::string text(const Text& rule) {
    static constexpr std::array pieces{"a",  "B",  "7", "-", ".", "\xC3\xA4", "\xE2\x82\xAC", "\xF0\x9F\x8C\x99",
                                       "\"", "\\", "/", "~"};
    static constexpr std::array only_plain{" ", "\n", "\t", "\r\n"};
    switch (rule.form) {
      case Form::date:
        return fmt::format("{:04}-{:02}-{:02}", pick(3000), 1 + pick(12), 1 + pick(28));
      case Form::date_or_time:
        return fmt::format("2026-{:02}-{:02}T{:02}:{:02}", 1 + pick(12), 1 + pick(28), pick(24), pick(60));
      case Form::clock:
        return fmt::format("{:02}:{:02}", pick(24), pick(60));
      case Form::month_day:
        return fmt::format("{:02}-{:02}", 1 + pick(12), 1 + pick(28));
      case Form::weekday:
        return std::array{"mon", "wed", "sun"}.at(static_cast<std::size_t>(pick(3)));
      case Form::currency:
        return "EUR";
      case Form::time_zone:
        return "Europe/Berlin";
      default:
        break;
    }
    std::string out = "x";
    for (int i = pick(12); i > 0; --i) {
      const bool plain = rule.form == Form::plain && pick(4) == 0;
      out += plain ? only_plain.at(static_cast<std::size_t>(pick(4))) : pieces.at(static_cast<std::size_t>(pick(12)));
    }
    return out;
  }

 private:
  std::mt19937 engine_;
};

std::string id_of(Kind kind, int number) { return fmt::format("{}-{}", static_cast<int>(kind), number); }

template <class T>
T random_shape(Dice& dice, std::map<Kind, int>& made);

template <class T>
class RandomVisitor {
 public:
  RandomVisitor(Dice& dice, std::map<Kind, int>& made, T& out) : dice_(dice), made_(made), out_(out) {}

  template <class M, class Rule>
  void field(const char*, M T::*member, const Rule& rule, Need need, const char*) {
    if (need == required || dice_.pick(4) != 0) make(out_.*member, rule);
  }

 private:
  template <class M, class Rule>
  void make(std::optional<M>& out, const Rule& rule) {
    make(out.emplace(), rule);
  }
  void make(double& out, const Number& rule) { out = dice_.number(rule); }
  template <class Whole>
  requires std::is_integral_v<Whole>
  void make(Whole& out, const Number& rule) {
    out = static_cast<Whole>(std::clamp(std::round(dice_.number(rule)), rule.min, rule.max));
  }
  void make(bool& out, const Flag&) { out = dice_.toss(); }
  void make(std::string& out, const Text& rule) { out = dice_.text(rule); }
  template <class M>
  void make(std::string& out, const Kept<M>&) {
    if constexpr (std::is_void_v<M>) {
      out = R"({"date":"2026-04-02","by":"","weather":null})";
    } else {
      out = compact_text(shape_json(random_shape<M>(dice_, made_)));
    }
  }
  void make(std::string& out, const Choice& rule) {
    out = rule.begin[dice_.pick(static_cast<int>(rule.end - rule.begin))];
  }
  void make(std::string& out, const Id& rule) { out = id_of(rule.kind, made_[rule.kind]++); }
  void make(std::string& out, const Ref& rule) {
    const Kind kinds[] = {rule.kind, rule.or_kind, rule.or_kind_too};
    Kind kind = kinds[dice_.pick(3)];
    if (kind == Kind::none) kind = rule.kind;
    out = id_of(kind, dice_.pick(things_of(kind)));
  }
  template <class Enum>
  requires std::is_enum_v<Enum>
  void make(Enum& out, const OneOf&) {
    out = static_cast<Enum>(dice_.pick(static_cast<int>(names(Of<Enum>{}).size())));
  }
  double coordinate() { return dice_.number({-farthest_m, farthest_m}); }
  void make(geometry::Point2& out, const Place&) { out = {coordinate(), coordinate()}; }
  void make(geometry::Point3& out, const Place&) { out = {coordinate(), coordinate(), coordinate()}; }
  void make(geometry::Polyline& out, const Places& rule) {
    const int count = static_cast<int>(rule.min_count) + dice_.pick(3);
    for (int i = 0; i < count; ++i) make(out.emplace_back(), Place{});
  }
  void make(geometry::PixelPoint& out, const Pixel&) {
    out = {dice_.number({-farthest_px, farthest_px}), dice_.number({-farthest_px, farthest_px})};
  }
  void make(geometry::PixelOutline& out, const Pixels& rule) {
    const int more = static_cast<int>(std::min(3u, rule.max_count - rule.min_count));
    const int count = static_cast<int>(rule.min_count) + dice_.pick(more + 1);
    for (int i = 0; i < count; ++i) make(out.emplace_back(), Pixel{});
  }
  void make(geometry::Vec3& out, const Way&) { out = {dice_.number({-1, 1}), dice_.number({-1, 1}), 1}; }
  void make(std::vector<double>& out, const Numbers& rule) {
    for (std::uint32_t i = 0; i < std::max(1u, rule.min_count); ++i) out.push_back(dice_.number(rule.each));
  }
  void make(std::vector<std::string>& out, const Texts& rule) {
    for (int i = dice_.pick(4); i > 0; --i) out.push_back(dice_.text(rule.each));
  }
  void make(std::vector<std::string>& out, const Refs& rule) { make(out.emplace_back(), rule.each); }
  template <class M>
  requires std::is_same_v<M, inner_t<M>>
  void make(M& out, const Part&) { out = random_shape<M>(dice_, made_); }
  template <class M>
  void make(std::vector<M>& out, const List&) {
    while (out.size() < most_entries) out.push_back(random_shape<M>(dice_, made_));
  }

  Dice& dice_;
  std::map<Kind, int>& made_;
  T& out_;
};

// What several fields must be together.
template <class T>
void agree(Dice&, T&) {}
void agree(Dice&, job::LuminaireItem& item) {
  if (item.power_w > item.power_va) std::swap(item.power_w, item.power_va);
  if (item.window_min_v > item.window_max_v) item.window_min_v = item.window_max_v;
  if (item.v_regulation_min <= 0) item.v_regulation_min = 9;
  if (!item.intensity_file.empty()) {
    item.intensity_file = "IESNA91\r\nTILT=NONE\r\n1 -1 1 2 1 1 2 0 0 0\r\n1 1 5\r\n0 90\r\n0\r\n100 0\r\n";
  }
  if (item.v_cut_off > item.v_regulation_min) item.v_cut_off = item.v_regulation_min;
}
void agree(Dice&, job::ConnectorFill& fill) {
  if (fill.area_min_mm2 > fill.area_max_mm2) fill.area_min_mm2 = fill.area_max_mm2;
  if (fill.count_min > fill.count_max) std::swap(fill.count_min, fill.count_max);
}
void agree(Dice&, job::Corners& corners) {
  std::array temperatures{corners.cable_cold_c, corners.cable_nominal_c, corners.cable_hot_c};
  std::sort(temperatures.begin(), temperatures.end());
  corners.cable_cold_c = temperatures[0];
  corners.cable_nominal_c = temperatures[1];
  corners.cable_hot_c = temperatures[2];
}
void agree(Dice& dice, job::Cable& cable) {
  if (cable.path.empty() && !cable.length_m) cable.length_m = dice.number({0, 10'000});
  while (cable.to == cable.from) cable.to = id_of(Kind::joint, dice.pick(things_of(Kind::joint)));
}
void agree(Dice&, job::Transformer& transformer) { transformer.outputs.resize(1); }
void agree(Dice&, job::View& view) {
  int number = 0;
  const auto name = [&](auto& list) {
    for (auto& each : list) each.id = fmt::format("on-picture-{}", number++);
  };
  name(view.surfaces);
  name(view.trees);
  name(view.masks);
  name(view.measures);
}
// An entry has what its kind asks for, whatever else it has.
void agree(Dice&, job::LogEntry& entry) {
  if (entry.facts.empty()) entry.facts = "{}";
  if (entry.reading.empty()) entry.reading = R"({"place":"F1","quantity":"voltage"})";
  if (entry.strikes.empty()) entry.strikes = "no-entry";
  if (entry.signed_by.empty()) entry.signed_by = "x";
  if (!entry.covers) entry.covers = 1;
  if (entry.without.empty()) entry.without = {"J1"};
}
void agree(Dice&, job::SwitchRule& rule) {
  if (rule.time.empty()) rule.time = "22:30";
}

template <class T>
T random_shape(Dice& dice, std::map<Kind, int>& made) {
  T out;
  RandomVisitor<T> visitor(dice, made, out);
  describe(Of<T>{}, visitor);
  agree(dice, out);
  if constexpr (requires { out.extra; }) {
    if (dice.pick(3) == 0) out.extra = R"({"own":)" + compact_text(dice.text({})) + R"(,"list":[1,2.5,{"k":null}]})";
  }
  return out;
}

}  // namespace

job::Job random_job(std::uint32_t seed) {
  Dice dice(seed);
  std::map<Kind, int> made;
  job::Job job = random_shape<job::Job>(dice, made);
  // References name any of `most_entries` things of a kind, so all of these must be there.
  const auto fill = [&](auto& list) {
    using T = typename std::decay_t<decltype(list)>::value_type;
    while (list.size() < most_entries) list.push_back(random_shape<T>(dice, made));
  };
  fill(job.catalogue.luminaires);
  fill(job.catalogue.transformers);
  fill(job.catalogue.cables);
  fill(job.catalogue.connectors);
  fill(job.catalogue.controls);
  fill(job.plan.sleeves);
  fill(job.plan.receptacles);
  fill(job.plan.fixed_points);
  fill(job.luminaires);
  fill(job.joints);
  fill(job.transformers);
  // Outputs were numbered beyond those that were kept: give them the ids that cables name.
  int output = 0;
  for (job::Transformer& transformer : job.transformers) {
    for (job::Output& each : transformer.outputs) each.id = id_of(Kind::output, output++);
  }
  return job;
}

}  // namespace duskwire::formats
