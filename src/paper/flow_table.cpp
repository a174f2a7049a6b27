// SPDX-License-Identifier: Apache-2.0
// Tables: the head on each page, rows kept whole where a page holds them, long cells broken by lines.
#include <cairo.h>

#include <algorithm>

#include "paper/flow.hpp"
#include "paper/pen.hpp"
#include "paper/table_widths.hpp"

namespace duskwire::paper {
namespace {

constexpr double beside_mm = 1.3;  // white beside a cell's text
constexpr double above_mm = 0.7;   // and above and below it

// A row is broken where it would leave more than this of a page white.
constexpr double most_white_share = 0.35;

using Cells = std::vector<std::shared_ptr<const Words>>;

void level_line(Flow& flow, double y_mm, const Stroke& stroke) {
  const double left_mm = flow.left_mm();
  const double right_mm = left_mm + flow.width_mm();
  flow.draw({left_mm, y_mm, flow.width_mm(), 0}, Ink::line, [=](_cairo* pen) {
    Pen(pen).line({left_mm, y_mm}, {right_mm, y_mm}, stroke);
  });
}

class TableSetter {
 public:
  TableSetter(Flow& flow, const Table& table) : flow_(flow), table_(table) {
    const double white_mm = 2 * beside_mm * static_cast<double>(table.columns.size());
    widths_mm_ = column_widths_mm(table, flow.width_mm() - white_mm);
    has_head_ =
        std::any_of(table.columns.begin(), table.columns.end(), [](const Column& c) { return !c.title.empty(); });
    if (has_head_) {
      Row titles;
      for (const Column& column : table.columns) titles.cells.push_back(column.title);
      head_ = cells_of(titles, true);
    }
  }

  void put() {
    if (table_.columns.empty()) return;
    flow_.gap(2);
    caption();
    Cells first = table_.rows.empty() ? Cells{} : cells_of(table_.rows.front(), false);
    flow_.need(height_of(head_) + std::min(height_of(first), 20.0) + 4);
    begin();
    for (std::size_t r = 0; r < table_.rows.size(); ++r) put_row(r);
    level_line(flow_, flow_.at_mm(), {Width::w035});
    flow_.close("Table");
    flow_.advance(1.5);
  }

 private:
  TextLook look_of(const Column& column, bool bold) const {
    TextLook look;
    look.size_pt = table_.text_pt;
    look.bold = bold;
    look.side = column.side;
    look.line_pitch = 1.22;
    return look;
  }

  Cells cells_of(const Row& row, bool head) {
    Cells cells;
    if (row.kind == RowKind::group) {
      Column all;
      cells.push_back(
          flow_.set(row.cells.empty() ? "" : row.cells.front(), look_of(all, true), flow_.width_mm() - 2 * beside_mm));
      return cells;
    }
    for (std::size_t c = 0; c < table_.columns.size(); ++c) {
      const std::string text = c < row.cells.size() ? row.cells[c] : "";
      cells.push_back(flow_.set(text, look_of(table_.columns[c], head || row.kind == RowKind::sum), widths_mm_[c]));
    }
    return cells;
  }

  static double height_of(const Cells& cells) {
    double height_mm = 0;
    for (const auto& cell : cells) height_mm = std::max(height_mm, cell->height_mm());
    return cells.empty() ? 0 : height_mm + 2 * above_mm;
  }

  void caption() {
    if (table_.caption.empty()) return;
    TextLook look;
    look.size_pt = table_.text_pt;
    look.italic = true;
    const auto words = flow_.set(table_.caption, look, flow_.width_mm());
    flow_.need(words->height_mm() + height_of(head_) + 12);
    flow_.open("P");
    flow_.words(words, flow_.left_mm(), flow_.at_mm(), 0, words->line_count());
    flow_.close("P");
    flow_.advance(words->height_mm() + 1);
  }

  void begin() {
    flow_.open("Table");
    level_line(flow_, flow_.at_mm(), {Width::w050});
    if (!has_head_) return;
    flow_.open("TR");
    std::vector<std::size_t> from(head_.size(), 0);
    draw_some(head_, "TH", from, height_of(head_));
    flow_.close("TR");
    flow_.advance(height_of(head_));
    level_line(flow_, flow_.at_mm(), {Width::w035});
  }

  void turn() {
    level_line(flow_, flow_.at_mm(), {Width::w025});
    flow_.close("Table");
    flow_.turn();
    begin();
  }

  // Lines from `from` on that go into the height, each cell under its tag. Moves `from` on; whether any are left.
  bool draw_some(const Cells& cells, const std::string& tag, std::vector<std::size_t>& from, double height_mm) {
    double x_mm = flow_.left_mm();
    bool left = false;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const std::size_t fits = cells[c]->lines_within(from[c], height_mm - 2 * above_mm + 0.01);
      flow_.open(tag);
      flow_.words(cells[c], x_mm + beside_mm, flow_.at_mm() + above_mm, from[c], from[c] + fits);
      flow_.close(tag);
      from[c] += fits;
      left = left || from[c] < cells[c]->line_count();
      if (c < widths_mm_.size()) x_mm += widths_mm_[c] + 2 * beside_mm;
    }
    return left;
  }

  void put_row(std::size_t r) {
    const Row& row = table_.rows[r];
    const Cells cells = cells_of(row, false);
    const double least_mm = row.kind == RowKind::plain ? table_.least_row_mm : 0;
    const double height_mm = std::max(height_of(cells), least_mm);
    double wanted_mm = height_mm;
    if (row.kind == RowKind::group && r + 1 < table_.rows.size()) {
      wanted_mm += std::min(height_of(cells_of(table_.rows[r + 1], false)), 20.0);
    }
    // A last row does not go on alone: it takes the one before it along.
    if (row.kind != RowKind::group && r > 0 && r + 2 == table_.rows.size()) {
      wanted_mm += std::min(height_of(cells_of(table_.rows[r + 1], false)), 20.0);
    }
    if (!flow_.is_endless() && wanted_mm > flow_.room_mm()) {
      const bool white_is_little = flow_.room_mm() < most_white_share * flow_.full_mm();
      if (height_mm + height_of(head_) <= flow_.full_mm() && white_is_little) turn();
    }
    if (row.kind != RowKind::plain) shade(std::min(height_mm, flow_.room_mm()));
    std::vector<std::size_t> from(cells.size(), 0);
    const std::string tag = row.kind == RowKind::group ? "TH" : "TD";
    while (true) {
      const double share_mm = std::min(std::max(part_height(cells, from), least_mm), flow_.room_mm());
      flow_.open("TR");
      const bool left = draw_some(cells, tag, from, share_mm);
      flow_.close("TR");
      flow_.advance(share_mm);
      if (!left) break;
      turn();
    }
    if (r + 1 < table_.rows.size()) level_line(flow_, flow_.at_mm(), {Width::w013, Dash::solid, grey(0.35)});
  }

  static double part_height(const Cells& cells, const std::vector<std::size_t>& from) {
    double height_mm = 0;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      height_mm = std::max(height_mm, cells[c]->height_mm(from[c], cells[c]->line_count()));
    }
    return height_mm + 2 * above_mm;
  }

  void shade(double height_mm) {
    const Box box{flow_.left_mm(), flow_.at_mm(), flow_.width_mm(), height_mm};
    flow_.draw(box, Ink::line, [box](_cairo* pen) {
      Pen(pen).fill({{box.x_mm, box.y_mm},
                     {box.right_mm(), box.y_mm},
                     {box.right_mm(), box.bottom_mm()},
                     {box.x_mm, box.bottom_mm()}},
                    grey(0.92));
    });
  }

  Flow& flow_;
  const Table& table_;
  std::vector<double> widths_mm_;
  bool has_head_ = false;
  Cells head_;
};

}  // namespace

void put_table(Flow& flow, const Table& table) { TableSetter(flow, table).put(); }

void put_facts(Flow& flow, const Facts& facts) {
  TextLook name;
  name.size_pt = 9;
  name.colour = grey(0.25);
  TextLook fact;
  fact.size_pt = 9;
  constexpr double between_mm = 3;
  double name_mm = 0;
  for (const auto& [what, value] : facts.facts) name_mm = std::max(name_mm, Words(what, name, 0).width_mm());
  name_mm = std::min(name_mm + 0.2, 0.4 * flow.width_mm());
  const double fact_mm = flow.width_mm() - name_mm - between_mm;
  flow.gap(1.5);
  for (const auto& [what, value] : facts.facts) {
    const auto left = flow.set(what, name, name_mm);
    const auto right = flow.set(value, fact, fact_mm);
    flow.need(std::max(left->height_mm(), right->height_mm(0, 1)));
    std::size_t from = 0;
    while (true) {
      const std::size_t fits = std::max<std::size_t>(right->lines_within(from, flow.room_mm()), 1);
      flow.open("Table");
      flow.open("TR");
      flow.open("TD");
      if (from == 0) flow.words(left, flow.left_mm(), flow.at_mm(), 0, left->line_count());
      flow.close("TD");
      flow.open("TD");
      flow.words(right, flow.left_mm() + name_mm + between_mm, flow.at_mm(), from, from + fits);
      flow.close("TD");
      flow.close("TR");
      flow.close("Table");
      flow.advance(std::max(from == 0 ? left->height_mm() : 0, right->height_mm(from, from + fits)));
      from += fits;
      if (from >= right->line_count()) break;
      flow.turn();
    }
    flow.advance(0.5);
  }
}

}  // namespace duskwire::paper
