// SPDX-License-Identifier: Apache-2.0
#include "paper/flow.hpp"

#include <cairo.h>

#include <algorithm>
#include <limits>
#include <numeric>

namespace duskwire::paper {
namespace {

constexpr double endless_mm = 1e9;
constexpr double column_gap_mm = 6;

// What has to stand below a heading on its page, with the white above the heading.
constexpr double least_below_heading_mm = 22;
constexpr double white_above_heading_mm = 6.5;

struct Strip {
  std::vector<Step> steps;
  double height_mm = 0;
};

Strip strip_of(LaidOut& out, const SharedHeadings& headings, const Blocks& blocks, double width_mm, std::size_t page) {
  Strip strip;
  Flow flow(out, headings, strip.steps, width_mm, page);
  put(flow, blocks);
  strip.height_mm = flow.at_mm();
  return strip;
}

void put_columns(Flow& flow, const Columns& columns) {
  const std::size_t count = columns.columns.size();
  if (count == 0) return;
  std::vector<double> shares = columns.shares;
  if (shares.size() != count) shares.assign(count, 1);
  const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
  const double for_all_mm = flow.width_mm() - column_gap_mm * static_cast<double>(count - 1);
  double height_mm = 0;
  for (std::size_t i = 0; i < count; ++i) {
    height_mm = std::max(height_mm, height_of(flow, columns.columns[i], for_all_mm * shares[i] / sum));
  }
  if (!flow.is_endless() && height_mm > flow.full_mm()) {
    // No page holds them side by side: one after the other.
    for (const Blocks& blocks : columns.columns) put(flow, blocks);
    return;
  }
  flow.gap(3);
  flow.need(height_mm);
  double x_mm = flow.left_mm();
  for (std::size_t i = 0; i < count; ++i) {
    const double width_mm = for_all_mm * shares[i] / sum;
    Strip strip = strip_of(flow.out(), flow.headings(), columns.columns[i], width_mm, flow.page());
    flow.take(std::move(strip.steps), x_mm, flow.at_mm());
    x_mm += width_mm + column_gap_mm;
  }
  flow.advance(height_mm);
}

void put_together(Flow& flow, const Together& group) {
  flow.gap(2);
  if (!flow.is_endless()) {
    const double height_mm = height_of(flow, group.blocks, flow.width_mm());
    if (height_mm <= flow.full_mm()) flow.need(height_mm);
  }
  put(flow, group.blocks);
}

void put_one(Flow& flow, const Block& block) {
  std::visit(
      [&](const auto& it) {
        using T = std::decay_t<decltype(it)>;
        if constexpr (std::is_same_v<T, Heading>) put_heading(flow, it);
        if constexpr (std::is_same_v<T, Paragraph>) put_paragraph(flow, it);
        if constexpr (std::is_same_v<T, List>) put_list(flow, it);
        if constexpr (std::is_same_v<T, Callout>) put_callout(flow, it);
        if constexpr (std::is_same_v<T, Table>) put_table(flow, it);
        if constexpr (std::is_same_v<T, Facts>) put_facts(flow, it);
        if constexpr (std::is_same_v<T, Picture>) put_picture(flow, it);
        if constexpr (std::is_same_v<T, Drawing>) put_drawing(flow, it);
        if constexpr (std::is_same_v<T, Signatures>) put_signatures(flow, it);
        if constexpr (std::is_same_v<T, WritingLines>) put_writing_lines(flow, it);
        if constexpr (std::is_same_v<T, Contents>) put_contents(flow);
        if constexpr (std::is_same_v<T, PageBreak>) {
          if (!flow.is_endless() && !flow.is_at_top()) flow.turn();
        }
        if constexpr (std::is_same_v<T, Space>) flow.gap(it.height_mm);
        if constexpr (std::is_same_v<T, std::shared_ptr<Columns>>) put_columns(flow, *it);
        if constexpr (std::is_same_v<T, std::shared_ptr<Together>>) put_together(flow, *it);
      },
      block);
}

bool is_heading(const Block& block) { return std::holds_alternative<Heading>(block); }

bool is_whole(const Block& block) {
  return std::holds_alternative<Drawing>(block) || std::holds_alternative<Picture>(block) ||
         std::holds_alternative<Signatures>(block) || std::holds_alternative<std::shared_ptr<Together>>(block) ||
         std::holds_alternative<std::shared_ptr<Columns>>(block);
}

// Headings from `i` on with the beginning of what follows them.
double lead_height_mm(const Flow& flow, const Blocks& blocks, std::size_t i) {
  Blocks lead;
  while (i < blocks.size() && is_heading(blocks[i])) lead.push_back(blocks[i++]);
  double height_mm = height_of(flow, lead, flow.width_mm()) + least_below_heading_mm;
  if (i < blocks.size() && is_whole(blocks[i])) {
    lead.push_back(blocks[i]);
    const double whole_mm = height_of(flow, lead, flow.width_mm());
    // Measured as at the top of a page, where there is no white above a heading.
    if (whole_mm <= flow.full_mm()) height_mm = whole_mm + white_above_heading_mm;
  }
  return height_mm;
}

}  // namespace

Flow::Flow(LaidOut& out, SharedHeadings headings, Turn turn)
    : out_(out), headings_(std::move(headings)), turn_(std::move(turn)) {
  this->turn();
}

Flow::Flow(LaidOut& out, SharedHeadings headings, std::vector<Step>& steps, double width_mm, std::size_t page)
    : out_(out), headings_(std::move(headings)), steps_(&steps), area_{0, 0, width_mm, endless_mm}, page_(page) {}

void Flow::turn() {
  if (!turn_) return;
  area_ = turn_(steps_);
  at_mm_ = area_.y_mm;
  page_ = out_.pages.size() - 1;
}

void Flow::need(double height_mm) {
  if (room_mm() + 1e-6 < height_mm && !is_at_top()) turn();
}

void Flow::gap(double height_mm) {
  if (!is_at_top()) at_mm_ += height_mm;
}

void Flow::open(const std::string& tag, const std::string& attributes) {
  steps_->push_back({Step::Kind::open, tag, attributes, Ink::words, {}, {}});
}

void Flow::close(const std::string& tag) { steps_->push_back({Step::Kind::close, tag, "", Ink::words, {}, {}}); }

void Flow::draw(const Box& box, Ink ink, std::function<void(_cairo*)> how) {
  steps_->push_back({Step::Kind::draw, "", "", ink, box, std::move(how)});
}

void Flow::words(const std::shared_ptr<const Words>& words, double x_mm, double y_mm, std::size_t from,
                 std::size_t to) {
  if (to <= from) return;
  draw({x_mm + words->left_mm(), y_mm, words->width_mm(), words->height_mm(from, to)}, Ink::words,
       [words, x_mm, y_mm, from, to](_cairo* pen) { words->draw(pen, x_mm, y_mm, from, to); });
}

void Flow::take(std::vector<Step> steps, double x_mm, double y_mm) {
  for (Step& step : steps) {
    step.box.x_mm += x_mm;
    step.box.y_mm += y_mm;
    if (step.draw) {
      step.draw = [inner = std::move(step.draw), x_mm, y_mm](_cairo* pen) {
        cairo_save(pen);
        cairo_translate(pen, x_mm * pt_per_mm, y_mm * pt_per_mm);
        inner(pen);
        cairo_restore(pen);
      };
    }
    steps_->push_back(std::move(step));
  }
}

std::shared_ptr<const Words> Flow::set(const std::string& text, const TextLook& look, double width_mm, bool one_line) {
  auto words = std::make_shared<const Words>(text, look, width_mm, one_line);
  out_.unknown_glyphs += words->unknown_glyphs();
  return words;
}

void put(Flow& flow, const Blocks& blocks) {
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const bool leads = is_heading(blocks[i]) && (i == 0 || !is_heading(blocks[i - 1]));
    if (leads && !flow.is_endless() && !flow.is_at_top()) flow.need(lead_height_mm(flow, blocks, i));
    put_one(flow, blocks[i]);
  }
}

double height_of(const Flow& flow, const Blocks& blocks, double width_mm) {
  LaidOut scratch;
  // A heading is counted where it is printed, not where it is measured.
  const SharedHeadings known = std::make_shared<Headings>(*flow.headings());
  return strip_of(scratch, known, blocks, width_mm, 0).height_mm;
}

}  // namespace duskwire::paper
