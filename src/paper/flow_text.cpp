// SPDX-License-Identifier: Apache-2.0
// Running text: headings, paragraphs, lists, callouts and the list of contents.
#include <cairo.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "paper/flow.hpp"
#include "paper/pen.hpp"

namespace duskwire::paper {
namespace {

// No line of running text gets longer: an eye loses its way back.
constexpr double widest_text_mm = 165;

// Two lines at least stay together at the foot and at the top of a page.
constexpr std::size_t least_lines = 2;

void put_lines(Flow& flow, const std::shared_ptr<const Words>& words, double x_mm, const std::string& tag,
               const std::function<void(double y_mm, double height_mm)>& beside = {}) {
  std::size_t from = 0;
  const std::size_t count = words->line_count();
  while (from < count) {
    std::size_t fits = words->lines_within(from, flow.room_mm());
    const std::size_t left = count - from;
    const bool short_end = fits < left && left - fits < least_lines && fits > least_lines;
    if (short_end) fits -= least_lines - (left - fits);
    if (fits < left && fits < least_lines && !flow.is_at_top()) {
      flow.turn();
      continue;
    }
    fits = std::max<std::size_t>(fits, 1);
    const double height_mm = words->height_mm(from, from + fits);
    if (beside) beside(flow.at_mm(), height_mm);
    if (!tag.empty()) flow.open(tag);
    flow.words(words, x_mm, flow.at_mm(), from, from + fits);
    if (!tag.empty()) flow.close(tag);
    flow.advance(height_mm);
    from += fits;
    if (from < count) flow.turn();
  }
}

struct Told {
  const char* word;
  double bar_mm;
  Colour colour;
  Dash dash;
};

Told told(Tone tone) {
  switch (tone) {
    case Tone::caution:
      return {"Caution.", 1.6, grey(0), Dash::solid};
    case Tone::estimate:
      return {"Estimate.", 0.7, grey(0.35), Dash::dashed};
    case Tone::template_text:
      return {"Template text, not legal advice.", 0.7, grey(0.35), Dash::solid};
    case Tone::note:
      break;
  }
  return {"Note.", 0.35, grey(0.45), Dash::solid};
}

void rule(Flow& flow, double x_mm, double y_mm, double height_mm, double width_mm, const Colour& colour) {
  flow.draw({x_mm, y_mm, width_mm, height_mm}, Ink::line, [=](_cairo* pen) {
    Pen(pen).fill(
        {{x_mm, y_mm}, {x_mm + width_mm, y_mm}, {x_mm + width_mm, y_mm + height_mm}, {x_mm, y_mm + height_mm}}, colour);
  });
}

}  // namespace

void put_heading(Flow& flow, const Heading& heading) {
  constexpr std::array<double, 3> sizes_pt{21, 13, 10.5};
  constexpr std::array<double, 3> gaps_mm{4, 6.5, 4};
  const auto level = static_cast<std::size_t>(std::clamp(heading.level, 0, 2));
  TextLook look;
  look.size_pt = sizes_pt.at(level);
  look.bold = true;
  look.line_pitch = 1.2;
  const auto words = flow.set(heading.text, look, flow.width_mm());
  flow.gap(gaps_mm.at(level));
  flow.need(words->height_mm());
  const std::string tag = fmt::format("H{}", level + 1);
  Headings& headings = *flow.headings();
  const bool listed = level <= 1 && headings.placed < headings.all.size();
  if (listed) {
    OutlineEntry& entry = headings.all[headings.placed++];
    entry.page = flow.page();
    flow.open("cairo.dest", fmt::format("name='{}'", entry.target));
  }
  put_lines(flow, words, flow.left_mm(), tag);
  if (listed) flow.close("cairo.dest");
  flow.advance(level == 0 ? 2 : 1);
}

void put_paragraph(Flow& flow, const Paragraph& paragraph) {
  TextLook look;
  look.size_pt = paragraph.voice == Voice::small ? 8 : 9.5;
  look.bold = paragraph.voice == Voice::strong;
  if (paragraph.voice == Voice::small) look.colour = grey(0.25);
  flow.gap(paragraph.voice == Voice::small ? 1 : 1.6);
  put_lines(flow, flow.set(paragraph.text, look, std::min(flow.width_mm(), widest_text_mm)), flow.left_mm(), "P");
}

void put_list(Flow& flow, const List& list) {
  const double indent_mm = list.mark == Mark::bullet ? 4.5 : 7;
  TextLook look;
  flow.gap(1.2);
  for (std::size_t i = 0; i < list.items.size(); ++i) {
    const auto words = flow.set(list.items[i], look, std::min(flow.width_mm(), widest_text_mm) - indent_mm);
    flow.gap(list.mark == Mark::check_box ? 1.4 : 0.7);
    flow.need(words->height_mm(0, std::min<std::size_t>(words->line_count(), least_lines)));
    const double x_mm = flow.left_mm();
    const double y_mm = flow.at_mm();
    const double line_mm = words->height_mm(0, 1);
    if (list.mark == Mark::number) {
      const auto number = flow.set(fmt::format("{}.", i + 1), look, 0);
      flow.words(number, x_mm, y_mm, 0, 1);
    } else if (list.mark == Mark::check_box) {
      constexpr double box_mm = 3.2;
      const double top_mm = y_mm + (line_mm - box_mm) / 2;
      flow.draw({x_mm, top_mm, box_mm, box_mm}, Ink::line, [=](_cairo* pen) {
        Pen(pen).path(
            {{x_mm, top_mm}, {x_mm + box_mm, top_mm}, {x_mm + box_mm, top_mm + box_mm}, {x_mm, top_mm + box_mm}},
            {Width::w035}, true);
      });
    } else {
      flow.draw({x_mm + 1, y_mm + line_mm / 2 - 0.5, 1, 1}, Ink::line, [=](_cairo* pen) {
        Pen(pen).disc({x_mm + 1.5, y_mm + line_mm / 2}, 0.55, black);
      });
    }
    put_lines(flow, words, x_mm + indent_mm, "P");
  }
}

void put_callout(Flow& flow, const Callout& callout) {
  const Told look_of = told(callout.tone);
  constexpr double indent_mm = 4;
  TextLook look;
  look.size_pt = 9;
  TextLook lead = look;
  lead.bold = true;
  flow.gap(2.2);
  const auto head = flow.set(look_of.word, lead, flow.width_mm() - indent_mm);
  const auto words = flow.set(callout.text, look, std::min(flow.width_mm(), widest_text_mm) - indent_mm);
  flow.need(head->height_mm() + words->height_mm(0, std::min<std::size_t>(words->line_count(), least_lines)));
  const double x_mm = flow.left_mm();
  const auto beside = [&](double y_mm, double height_mm) {
    rule(flow, x_mm, y_mm + 0.4, height_mm - 0.4, look_of.bar_mm, look_of.colour);
  };
  put_lines(flow, head, x_mm + indent_mm, "P", beside);
  put_lines(flow, words, x_mm + indent_mm, "P", beside);
  flow.advance(0.8);
}

void put_contents(Flow& flow) {
  TextLook look;
  const SharedHeadings headings = flow.headings();
  flow.gap(2);
  for (std::size_t i = 0; i < headings->all.size(); ++i) {
    const OutlineEntry& entry = headings->all[i];
    if (entry.level != 1) continue;
    constexpr double number_mm = 12;
    const double width_mm = std::min(flow.width_mm(), widest_text_mm);
    const auto title = flow.set(entry.text, look, width_mm - number_mm, true);
    flow.need(title->height_mm());
    flow.open("P");
    flow.open("Link", fmt::format("dest='{}'", entry.target));
    flow.words(title, flow.left_mm(), flow.at_mm(), 0, 1);
    // Pages are known when all are laid: this is drawn after that.
    const Box box{flow.left_mm() + width_mm - number_mm, flow.at_mm(), number_mm, title->height_mm()};
    flow.draw(box, Ink::words, [headings, i, box, look](_cairo* pen) {
      TextLook right = look;
      right.side = Side::end;
      Words(fmt::format(" {}", headings->all[i].page + 1), right, box.width_mm).draw(pen, box.x_mm, box.y_mm);
    });
    flow.close("Link");
    flow.close("P");
    flow.advance(title->height_mm() + 0.8);
  }
}

}  // namespace duskwire::paper
