// SPDX-License-Identifier: Apache-2.0
// Where blocks are put one below the other: the area of the page at hand and how far it is filled. A flow without an
// end is for blocks that are measured, or moved as a whole.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "paper/layout.hpp"
#include "paper/words.hpp"

namespace duskwire::paper {

// The paper's headings of levels 0 and 1 in order: known before the first page, their pages when all are there.
struct Headings {
  std::vector<OutlineEntry> all;
  std::size_t placed = 0;
};
using SharedHeadings = std::shared_ptr<Headings>;

class Flow {
 public:
  // `turn` begins a new page: its steps, and the area to fill.
  using Turn = std::function<Box(std::vector<Step>*& steps)>;
  Flow(LaidOut& out, SharedHeadings headings, Turn turn);
  // Endless, from (0, 0) down, into `steps`.
  Flow(LaidOut& out, SharedHeadings headings, std::vector<Step>& steps, double width_mm, std::size_t page);

  [[nodiscard]] double left_mm() const { return area_.x_mm; }
  [[nodiscard]] double width_mm() const { return area_.width_mm; }
  [[nodiscard]] double at_mm() const { return at_mm_; }
  [[nodiscard]] double room_mm() const { return area_.bottom_mm() - at_mm_; }
  [[nodiscard]] double full_mm() const { return area_.height_mm; }
  [[nodiscard]] bool is_at_top() const { return at_mm_ <= area_.y_mm; }
  [[nodiscard]] bool is_endless() const { return !turn_; }
  [[nodiscard]] std::size_t page() const { return page_; }

  void turn();
  // On to a new page where less room is left, unless this one is empty.
  void need(double height_mm);
  void advance(double height_mm) { at_mm_ += height_mm; }
  // White between blocks: none at the top of a page.
  void gap(double height_mm);

  void open(const std::string& tag, const std::string& attributes = "");
  void close(const std::string& tag);
  void draw(const Box& box, Ink ink, std::function<void(_cairo*)> how);
  // Lines from..to of a text, at a place.
  void words(const std::shared_ptr<const Words>& words, double x_mm, double y_mm, std::size_t from, std::size_t to);
  // Steps that were made by an endless flow, shifted.
  void take(std::vector<Step> steps, double x_mm, double y_mm);

  [[nodiscard]] std::shared_ptr<const Words> set(const std::string& text, const TextLook& look, double width_mm,
                                                 bool one_line = false);
  [[nodiscard]] LaidOut& out() { return out_; }
  [[nodiscard]] const SharedHeadings& headings() const { return headings_; }

 private:
  LaidOut& out_;
  SharedHeadings headings_;
  Turn turn_;
  std::vector<Step>* steps_ = nullptr;
  Box area_;
  double at_mm_ = 0;
  std::size_t page_ = 0;
};

// All of them, each kind in its own file.
void put(Flow& flow, const Blocks& blocks);
void put_heading(Flow& flow, const Heading& heading);
void put_paragraph(Flow& flow, const Paragraph& paragraph);
void put_list(Flow& flow, const List& list);
void put_callout(Flow& flow, const Callout& callout);
void put_contents(Flow& flow);
void put_table(Flow& flow, const Table& table);
void put_facts(Flow& flow, const Facts& facts);
void put_picture(Flow& flow, const Picture& picture);
void put_drawing(Flow& flow, const Drawing& drawing);
void put_signatures(Flow& flow, const Signatures& signatures);
void put_writing_lines(Flow& flow, const WritingLines& lines);

// What is measured and then thrown away; nothing of it is left in `flow`.
[[nodiscard]] double height_of(const Flow& flow, const Blocks& blocks, double width_mm);

}  // namespace duskwire::paper
