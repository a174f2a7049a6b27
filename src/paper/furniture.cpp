// SPDX-License-Identifier: Apache-2.0
#include "paper/furniture.hpp"

#include <cairo.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "paper/pen.hpp"
#include "paper/words.hpp"

namespace duskwire::paper {
namespace {

constexpr double strip_mm = 7;
constexpr double above_strip_mm = 4;
constexpr double field_mm = 9;
constexpr int field_rows = 3;
// ISO 7200: no wider than this, at the lower right.
constexpr double widest_block_mm = 180;
constexpr double revision_mm = 4.6;
constexpr std::size_t most_revisions = 4;
constexpr double inside_frame_mm = 2;

double block_height_mm(const Document& document) {
  const std::size_t shown = std::min(document.revisions.size(), most_revisions);
  return field_rows * field_mm + (shown > 0 ? revision_mm * static_cast<double>(shown + 1) : 0);
}

void add(LaidPage& page, const Box& box, Ink ink, std::function<void(_cairo*)> draw) {
  page.steps.push_back({Step::Kind::draw, "", "", ink, box, std::move(draw)});
}

void add_words(LaidPage& page, const Box& box, const std::string& text, double size_pt, bool bold, Side side) {
  if (text.empty()) return;
  TextLook look;
  look.size_pt = size_pt;
  look.bold = bold;
  look.side = side;
  const auto words = std::make_shared<const Words>(text, look, box.width_mm, true);
  add(page, {box.x_mm + words->left_mm(), box.y_mm, words->width_mm(), words->height_mm()}, Ink::words,
      [words, box](_cairo* pen) { words->draw(pen, box.x_mm, box.y_mm); });
}

void add_rectangle(LaidPage& page, const Box& box, Width width) {
  add(page, box, Ink::line, [box, width](_cairo* pen) {
    Pen(pen).path({{box.x_mm, box.y_mm},
                   {box.right_mm(), box.y_mm},
                   {box.right_mm(), box.bottom_mm()},
                   {box.x_mm, box.bottom_mm()}},
                  {width}, true);
  });
}

std::string joined(std::initializer_list<std::string> parts) {
  std::string all;
  for (const std::string& part : parts) {
    if (part.empty()) continue;
    if (!all.empty()) all += "  \u00b7  ";
    all += part;
  }
  return all;
}

void put_strip(LaidPage& page, const Document& document, std::size_t sheet, std::size_t sheet_count) {
  const Box within = within_margins(page.setup);
  const double y_mm = within.bottom_mm() - strip_mm;
  add(page, {within.x_mm, y_mm, within.width_mm, 0}, Ink::line, [=](_cairo* pen) {
    Pen(pen).line({within.x_mm, y_mm}, {within.right_mm(), y_mm}, {Width::w025});
  });
  constexpr double page_mm = 28;
  const TitleBlock& title = document.title;
  const std::string revision = title.revision.empty() ? "" : "Revision " + title.revision;
  add_words(page, {within.x_mm, y_mm + 1.2, within.width_mm - page_mm - 2, 0},
            joined({title.owner, title.title, title.number, revision, title.date}), 7.5, false, Side::start);
  add_words(page, {within.right_mm() - page_mm, y_mm + 1.2, page_mm, 0},
            fmt::format("Page {} of {}", sheet, sheet_count), 7.5, false, Side::end);
}

// One cell of the title block: a small word for what it is, below it what it says.
struct Field {
  double share;
  const char* name;
  std::string value;
  bool bold = false;
};

void put_fields(LaidPage& page, const Box& block, int row, const std::vector<Field>& fields) {
  double x_mm = block.x_mm;
  const double y_mm = block.y_mm + row * field_mm;
  for (const Field& field : fields) {
    const Box cell{x_mm, y_mm, field.share * block.width_mm, field_mm};
    add_rectangle(page, cell, Width::w025);
    add_words(page, {cell.x_mm + 1, cell.y_mm + 0.4, cell.width_mm - 2, 0}, field.name, 5.5, false, Side::start);
    add_words(page, {cell.x_mm + 1, cell.y_mm + 3.4, cell.width_mm - 2, 0}, field.value, 9, field.bold, Side::start);
    x_mm += cell.width_mm;
  }
}

void put_revisions(LaidPage& page, const Box& block, const Document& document) {
  const std::size_t shown = std::min(document.revisions.size(), most_revisions);
  if (shown == 0) return;
  constexpr std::array<double, 4> shares{0.09, 0.14, 0.62, 0.15};
  const auto row = [&](double y_mm, const std::array<std::string, 4>& texts, double size_pt) {
    double x_mm = block.x_mm;
    for (std::size_t c = 0; c < shares.size(); ++c) {
      const Box cell{x_mm, y_mm, shares.at(c) * block.width_mm, revision_mm};
      add_rectangle(page, cell, Width::w018);
      add_words(page, {cell.x_mm + 1, cell.y_mm + 0.4, cell.width_mm - 2, 0}, texts.at(c), size_pt, false, Side::start);
      x_mm += cell.width_mm;
    }
  };
  // As on drawings the newest is on top, the names of the columns below.
  double y_mm = block.y_mm - revision_mm;
  row(y_mm, {"Revision", "Date", "What changed, and why", "By"}, 6);
  for (std::size_t i = document.revisions.size() - shown; i < document.revisions.size(); ++i) {
    const Revision& revision = document.revisions[i];
    y_mm -= revision_mm;
    row(y_mm, {revision.letter, revision.date, revision.what, revision.by}, 7);
  }
}

void put_frame(LaidPage& page) {
  const Box within = within_margins(page.setup);
  const Box sheet = sheet_of(page.setup);
  add_rectangle(page, within, Width::w070);
  // Centring marks, for copies: from the edge of the sheet into the frame.
  const double x_mm = sheet.width_mm / 2;
  const double y_mm = sheet.height_mm / 2;
  constexpr double beyond_mm = 2;
  const std::array<std::pair<PointMm, PointMm>, 4> marks{
      {{{x_mm, 5}, {x_mm, within.y_mm + beyond_mm}},
       {{x_mm, sheet.height_mm - 5}, {x_mm, within.bottom_mm() - beyond_mm}},
       {{5, y_mm}, {within.x_mm + beyond_mm, y_mm}},
       {{sheet.width_mm - 5, y_mm}, {within.right_mm() - beyond_mm, y_mm}}}};
  for (const auto& [from, to] : marks) {
    const Box box{std::min(from.x_mm, to.x_mm), std::min(from.y_mm, to.y_mm), std::abs(to.x_mm - from.x_mm),
                  std::abs(to.y_mm - from.y_mm)};
    add(page, box, Ink::line, [from = from, to = to](_cairo* pen) { Pen(pen).line(from, to, {Width::w050}); });
  }
}

void put_title_block(LaidPage& page, const Section& section, const Document& document, std::size_t sheet,
                     std::size_t sheet_count) {
  put_frame(page);
  const Box within = within_margins(page.setup);
  const double width_mm = std::min(widest_block_mm, within.width_mm);
  const Box block{within.right_mm() - width_mm, within.bottom_mm() - field_rows * field_mm, width_mm,
                  field_rows * field_mm};
  const TitleBlock& title = document.title;
  const std::string what = section.sheet_title.empty() ? title.title : section.sheet_title;
  put_fields(page, block, 0,
             {{0.36, "Contractor", title.owner}, {0.42, "Garden", title.job}, {0.22, "Number", title.number}});
  put_fields(page, block, 1,
             {{0.44, "Title", what, true},
              {0.18, "Kind of paper", title.kind},
              {0.16, "Scale", section.scale.empty() ? "\u2013" : section.scale},
              {0.09, "Revision", title.revision.empty() ? "\u2013" : title.revision, true},
              {0.13, "Sheet", fmt::format("{} of {}", sheet, sheet_count), true}});
  put_fields(page, block, 2,
             {{0.27, "Made by", title.made_by},
              {0.27, "Approved by", title.approved_by},
              {0.2, "Date of issue", title.date},
              {0.26, "Language", title.language}});
  add_rectangle(page, block, Width::w050);
  put_revisions(page, block, document);
  if (section.corner.width_mm > 0) {
    const Box box{within.x_mm + inside_frame_mm, within.bottom_mm() - section.corner.height_mm - inside_frame_mm,
                  section.corner.width_mm, section.corner.height_mm};
    add(page, box, Ink::picture, [how = section.corner.draw, box](_cairo* surface) {
      Pen pen(surface, box.x_mm, box.y_mm);
      how(pen);
    });
  }
}

}  // namespace

Box area_above_foot(const Section& section, const Document& document) {
  Box area = within_margins(section.setup);
  if (section.foot == Foot::strip) {
    area.height_mm -= strip_mm + above_strip_mm;
    return area;
  }
  area.x_mm += inside_frame_mm;
  area.y_mm += inside_frame_mm;
  area.width_mm -= 2 * inside_frame_mm;
  area.height_mm -= std::max(block_height_mm(document), section.corner.height_mm) + 2 * inside_frame_mm;
  return area;
}

void put_foot(LaidPage& page, const Section& section, const Document& document, std::size_t sheet,
              std::size_t sheet_count) {
  if (section.foot == Foot::strip) {
    put_strip(page, document, sheet, sheet_count);
  } else {
    put_title_block(page, section, document, sheet, sheet_count);
  }
}

}  // namespace duskwire::paper
