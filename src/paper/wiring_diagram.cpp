// SPDX-License-Identifier: Apache-2.0
#include "paper/wiring_diagram.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <string_view>
#include <unordered_map>

#include "paper/crew_words.hpp"
#include "paper/pen.hpp"
#include "paper/plan_symbols.hpp"
#include "paper/wiring_tree.hpp"

namespace duskwire::paper {
namespace {

constexpr double lane_mm = 6;
constexpr double row_mm = 8.2;
constexpr double head_mm = 6;  // names of the columns
constexpr double cont_mm = 5;  // what goes on from the sheet before
constexpr double foot_mm = 9;  // the legend
constexpr double cable_mm = 50;
constexpr double volts_mm = 13;
constexpr Stroke wire{Width::w035};
constexpr Lettering small{2.2};

// What the rows show, made once and shared by the sheets.
struct Content {
  std::vector<study::CrewRun> runs;
  std::unordered_map<std::string, study::CrewJoint> joints;
  WiringTree tree;
  std::vector<double> heights_mm;  // by row
  std::vector<std::string> lamps;  // by row
  job::DisplayUnits units = job::DisplayUnits::us;
  double width_mm = 0;
  double cable_x_mm = 0;
  double volts_x_mm = 0;
  double lamps_x_mm = 0;

  [[nodiscard]] const study::CrewRun& run(std::size_t row) const { return runs[tree.rows[row].run]; }
  [[nodiscard]] const study::CrewStep* step(std::size_t row) const {
    return tree.rows[row].step == no_step ? nullptr : &run(row).steps[tree.rows[row].step];
  }
  [[nodiscard]] std::string place(std::size_t row) const { return step(row) ? step(row)->to : run(row).output; }
};

std::string lamp_words(const study::CrewRun& run, const study::CrewStep& step) {
  std::vector<std::string> words;
  for (const std::uint32_t index : step.lamps) {
    const study::CrewLamp& lamp = run.lamps[index];
    if (lamp.id == step.to) continue;
    words.push_back(fmt::format("{}\u00a0{}\u00a0V", lamp.id, volts_figure(lamp.nominal_v)));
  }
  return joined(words, ",  ");
}

std::string place_words(const study::CrewStep& step) { return step.closes_loop ? "back to " + step.to : step.to; }

std::shared_ptr<Content> content_of(const study::CrewSet& set, job::DisplayUnits units, double width_mm) {
  auto made = std::make_shared<Content>();
  made->runs = set.runs;
  for (const study::CrewJoint& joint : set.joints) made->joints.emplace(joint.id, joint);
  made->tree = wiring_tree(made->runs);
  made->units = units;
  made->width_mm = width_mm;
  double widest_mm = 22;
  for (std::size_t r = 0; r < made->tree.rows.size(); ++r) {
    if (!made->step(r)) continue;
    const double lane_x = (made->tree.rows[r].lane + 1.0) * lane_mm;
    widest_mm = std::max(widest_mm, lane_x + 3 + width_of_letters_mm(place_words(*made->step(r)), {2.5, true}));
  }
  made->cable_x_mm = std::min(widest_mm + 3, width_mm * 0.45);
  made->volts_x_mm = made->cable_x_mm + cable_mm + volts_mm;
  made->lamps_x_mm = made->volts_x_mm + 5;
  for (std::size_t r = 0; r < made->tree.rows.size(); ++r) {
    const study::CrewStep* step = made->step(r);
    made->lamps.push_back(step ? lamp_words(made->run(r), *step) : std::string());
    const double lamps_mm =
        made->lamps.back().empty() ? 0 : height_of_words_mm(width_mm - made->lamps_x_mm - 6, made->lamps.back(), small);
    made->heights_mm.push_back(std::max(row_mm, lamps_mm + 3));
  }
  return made;
}

// Where fewer than two wires meet nothing is joined.
void joint_sign(Pen& pen, PointMm at, const std::optional<job::JointKind>& kind) {
  if (kind) {
    draw_joint(pen, at, *kind);
  } else {
    pen.circle(at, 1.2, {Width::w025, Dash::dotted});
  }
}

// One sheet: rows from..to of the content.
class Sheet {
 public:
  Sheet(std::shared_ptr<const Content> content, std::size_t from, std::size_t to)
      : content_(std::move(content)), from_(from), to_(to) {
    double y = head_mm + cont_mm;
    for (std::size_t r = from_; r < to_; ++r) {
      middles_.push_back(y + row_mm / 2);
      y += content_->heights_mm[r];
    }
    bottom_mm_ = y;
  }

  [[nodiscard]] double height_mm() const { return bottom_mm_ + foot_mm; }

  void draw(Pen& pen) const {
    draw_head(pen);
    draw_lines(pen);
    for (std::size_t r = from_; r < to_; ++r) draw_row(pen, r);
    draw_legend(pen);
  }

 private:
  [[nodiscard]] static double lane_x(std::uint32_t lane) { return (lane + 0.5) * lane_mm; }
  [[nodiscard]] double y_of(std::size_t row) const { return middles_[row - from_]; }

  void draw_head(Pen& pen) const {
    const Lettering look{2.2, true};
    pen.letters({0, 4}, "Place", look);
    pen.letters({content_->cable_x_mm, 4}, "Cable that leads there", look);
    Lettering right = look;
    right.anchor = Anchor::end;
    pen.letters({content_->volts_x_mm, 4}, "Volts", right);
    pen.letters({content_->lamps_x_mm + 5, 4}, "Lamps on leads there", look);
    pen.line({0, head_mm}, {content_->width_mm, head_mm}, {Width::w035});
  }

  // Lines down the lanes, cut at the edges of the sheet; at the top each says whose it is.
  void draw_lines(Pen& pen) const {
    for (const TreeLine& line : content_->tree.lines) {
      if (line.to_row < from_ || line.from_row >= to_) continue;
      const double x = lane_x(line.lane);
      const bool from_before = line.from_row < from_;
      // Names of neighbouring lanes stand at two heights.
      const double name_y = head_mm + (line.lane % 2 == 0 ? 3 : 6);
      const double top = from_before ? name_y + 0.8 : y_of(line.from_row);
      const double bottom = line.to_row >= to_ ? bottom_mm_ : y_of(line.to_row);
      pen.line({x, top}, {x, bottom}, wire);
      if (from_before) {
        pen.letters({x - 2, name_y}, "from " + content_->place(line.from_row), {2, true, Anchor::start, 0, true});
      }
      if (line.to_row >= to_) {
        pen.line({x - 1, bottom - 1.6}, {x, bottom}, wire);
        pen.line({x + 1, bottom - 1.6}, {x, bottom}, wire);
      }
    }
  }

  void draw_row(Pen& pen, std::size_t r) const {
    const double y = y_of(r);
    const TreeRow& row = content_->tree.rows[r];
    const study::CrewStep* step = content_->step(r);
    if (!step) {
      draw_output(pen, content_->run(r), y);
      return;
    }
    const double x = lane_x(row.lane);
    if (row.lane != row.parent_lane) pen.line({lane_x(row.parent_lane), y}, {x, y}, wire);
    draw_place(pen, *step, content_->run(r), {x, y});
    draw_cable(pen, *step, y);
    Lettering right{2.5, true};
    right.anchor = Anchor::end;
    if (!step->closes_loop) pen.letters({content_->volts_x_mm, y + 1}, volts_figure(step->to_v), right);
    if (!content_->lamps[r].empty()) {
      draw_luminaire(pen, {content_->lamps_x_mm + 1, y}, content_->run(r).lamps[step->lamps.front()].kind);
      pen.words({content_->lamps_x_mm + 5, y - 1.4}, content_->width_mm - content_->lamps_x_mm - 6, content_->lamps[r],
                small);
    }
    const double line_y = y - row_mm / 2 + content_->heights_mm[r];
    pen.line({content_->cable_x_mm, line_y}, {content_->width_mm, line_y}, {Width::w013, Dash::solid, grey(0.6)});
  }

  void draw_output(Pen& pen, const study::CrewRun& run, double y) const {
    const PathMm box{{0, y - 3}, {content_->width_mm, y - 3}, {content_->width_mm, y + 3}, {0, y + 3}};
    pen.fill(box, grey(0.92));
    pen.path(box, {Width::w035}, true);
    const std::string words =
        run.output.empty()
            ? std::string("Not fed: no output reaches these")
            : fmt::format("{}, output {}: tap {:g} V, {} V at its terminals, {} A of {:g} A, {} VA",
                          id_and_name(run.transformer, run.transformer_name), run.output, run.tap_v,
                          volts_figure(run.terminal_v), amps_figure(run.current_a), run.limit_a, va_figure(run.va));
    pen.confine({0, y - 3, content_->width_mm, 6});
    pen.letters({2, y + 1}, words, {2.4, true});
    pen.release();
  }

  void draw_place(Pen& pen, const study::CrewStep& step, const study::CrewRun& run, PointMm at) const {
    const auto joint = content_->joints.find(step.to);
    const bool is_lamp = joint == content_->joints.end();
    if (step.closes_loop) {
      pen.circle(at, 1.2, {Width::w035, Dash::dotted});
    } else if (is_lamp) {
      const auto own = std::find_if(step.lamps.begin(), step.lamps.end(),
                                    [&](std::uint32_t lamp) { return run.lamps[lamp].id == step.to; });
      if (own != step.lamps.end()) draw_luminaire(pen, at, run.lamps[*own].kind);
    } else {
      joint_sign(pen, at, joint->second.kind);
    }
    pen.letters({at.x_mm + 3, at.y_mm + 1}, place_words(step), {2.5, true, Anchor::start, 0, true});
  }

  void draw_cable(Pen& pen, const study::CrewStep& step, double y) const {
    const std::string length =
        step.route_m ? length_words(step.cut_m, content_->units) : std::string("length not known");
    pen.letters({content_->cable_x_mm, y - 0.4}, step.cable, {2.2, true});
    pen.letters({content_->cable_x_mm, y + 2.8},
                fmt::format("{}, {}, {} A", step.item, length, amps_figure(step.current_a)), {2});
  }

  void draw_legend(Pen& pen) const {
    const double y = bottom_mm_ + 4;
    pen.line({0, bottom_mm_ + 0.5}, {content_->width_mm, bottom_mm_ + 0.5}, {Width::w025});
    double x = 1.5;
    const auto entry = [&](const char* text) {
      pen.letters({x + 3, y + 0.9}, text, {2});
      x += 3 + width_of_letters_mm(text, {2}) + 5;
    };
    joint_sign(pen, {x, y}, job::JointKind::in_line);
    entry("in line");
    joint_sign(pen, {x, y}, job::JointKind::branch);
    entry("branch");
    joint_sign(pen, {x, y}, job::JointKind::hub);
    entry("hub");
    joint_sign(pen, {x, y}, job::JointKind::end_of_run);
    entry("end of run");
    pen.letters({x, y + 0.9}, "Not to scale. Lengths with slack. Volts: estimates, nominal mains, all on.", {2});
  }

  std::shared_ptr<const Content> content_;
  std::size_t from_;
  std::size_t to_;
  std::vector<double> middles_;
  double bottom_mm_ = 0;
};

Drawing drawing_of(const std::shared_ptr<const Content>& content, std::size_t from, std::size_t to,
                   std::size_t number) {
  const Sheet sheet(content, from, to);
  Drawing drawing;
  drawing.width_mm = content->width_mm;
  drawing.height_mm = sheet.height_mm();
  drawing.draw = [sheet](Pen& pen) { sheet.draw(pen); };
  drawing.alternative = fmt::format(
      "Wiring diagram, part {}: a tree of {} places from {} to {}. The run schedule says the same as a table.", number,
      to - from, content->place(from), content->place(to - 1));
  return drawing;
}

}  // namespace

std::vector<Drawing> wiring_diagram(const study::CrewSet& set, job::DisplayUnits units, double width_mm,
                                    double height_mm) {
  const std::shared_ptr<const Content> content = content_of(set, units, width_mm);
  const double room_mm = height_mm - head_mm - cont_mm - foot_mm;
  std::vector<Drawing> drawings;
  std::size_t from = 0;
  while (from < content->tree.rows.size()) {
    double filled_mm = 0;
    std::size_t to = from;
    while (to < content->tree.rows.size() && (to == from || filled_mm + content->heights_mm[to] <= room_mm)) {
      filled_mm += content->heights_mm[to++];
    }
    // A heading alone at the foot of a sheet goes over to the next.
    if (to < content->tree.rows.size() && to - 1 > from && !content->step(to - 1)) --to;
    drawings.push_back(drawing_of(content, from, to, drawings.size() + 1));
    from = to;
  }
  return drawings;
}

}  // namespace duskwire::paper
