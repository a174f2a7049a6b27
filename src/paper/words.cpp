// SPDX-License-Identifier: Apache-2.0
#include "paper/words.hpp"

#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>

#include "base/utf8.hpp"
#include "paper/words_ink.hpp"

namespace duskwire::paper {
namespace {

// Of the packages that tools/packages.txt names. Latin, Greek and Cyrillic are in the first.
constexpr const char* fonts =
    "Noto Sans,Noto Sans Arabic,Noto Sans Hebrew,Noto Sans Devanagari,Noto Sans Thai,Noto Sans Armenian,"
    "Noto Sans Georgian,Droid Sans Fallback,Noto Sans Symbols2,DejaVu Sans";

struct End {
  void operator()(PangoContext* context) const { g_object_unref(context); }
};

// One for each thread: the library's map of fonts is so too.
PangoContext* context() {
  static thread_local const std::unique_ptr<PangoContext, End> held = [] {
    std::unique_ptr<PangoContext, End> made(pango_font_map_create_context(pango_cairo_font_map_get_default()));
    pango_cairo_context_set_resolution(made.get(), 72);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(made.get(), options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(made.get(), FALSE);
    pango_context_set_language(made.get(), pango_language_from_string("en"));
    return made;
  }();
  return held.get();
}

double pt_of(int pango_units) { return static_cast<double>(pango_units) / PANGO_SCALE; }

PangoAlignment alignment(Side side) {
  if (side == Side::middle) return PANGO_ALIGN_CENTER;
  return side == Side::end ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT;
}

bool is_of_id(char c) { return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-'; }

// A point within, not the one that ends a sentence.
bool is_point_of_id(const std::string& text, std::size_t at) {
  return text[at] == '.' && at + 1 < text.size() && is_of_id(text[at + 1]);
}

// Longer ones are broken where a line needs it.
constexpr std::size_t longest_whole = 16;

// "EN-C4", "B-HUB", "T1-A.22", "2026-11-26": read as one, so not broken at their hyphens.
void keep_ids_whole(PangoAttrList* manners, const std::string& text) {
  for (std::size_t from = 0; from < text.size(); ++from) {
    std::size_t to = from;
    bool hyphen = false;
    bool digit = false;
    bool small = false;
    for (; to < text.size() && (is_of_id(text[to]) || (to > from && is_point_of_id(text, to))); ++to) {
      hyphen = hyphen || text[to] == '-';
      digit = digit || (text[to] >= '0' && text[to] <= '9');
      small = small || (text[to] >= 'a' && text[to] <= 'z');
    }
    if (hyphen && (digit || !small) && to - from <= longest_whole) {
      PangoAttribute* whole = pango_attr_allow_breaks_new(FALSE);
      whole->start_index = static_cast<guint>(from);
      whole->end_index = static_cast<guint>(to);
      pango_attr_list_insert(manners, whole);
    }
    from = to;
  }
}

// No ligatures: a reader of the file should find letters, not pairs of them. No hyphens that nobody typed.
void set_manners(PangoLayout* layout, const std::string& text) {
  PangoAttrList* manners = pango_attr_list_new();
  pango_attr_list_insert(manners, pango_attr_font_features_new("liga=0, clig=0, dlig=0"));
  pango_attr_list_insert(manners, pango_attr_insert_hyphens_new(FALSE));
  keep_ids_whole(manners, text);
  pango_layout_set_attributes(layout, manners);
  pango_attr_list_unref(manners);
}

// A printer has no use for control characters, and a paper none for bytes that are no text.
std::string printable(const std::string& text) {
  std::string out = well_formed(text);
  std::replace_if(
      out.begin(), out.end(),
      [](char c) { return (static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t') || c == 0x7f; }, ' ');
  return out;
}

}  // namespace

Words::Words(const std::string& text, const TextLook& look, double width_mm, bool one_line)
    : layout_(pango_layout_new(context()), [](PangoLayout* layout) { g_object_unref(layout); }),
      pitch_pt_(look.size_pt * look.line_pitch),
      colour_(look.colour) {
  PangoLayout* layout = layout_.get();
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family(font, fonts);
  pango_font_description_set_weight(font, look.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_style(font, look.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
  pango_font_description_set_absolute_size(font, look.size_pt * PANGO_SCALE);
  pango_layout_set_font_description(layout, font);
  pango_font_description_free(font);
  if (width_mm > 0) pango_layout_set_width(layout, static_cast<int>(width_mm * pt_per_mm * PANGO_SCALE));
  pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment(layout, alignment(look.side));
  if (one_line) {
    pango_layout_set_single_paragraph_mode(layout, TRUE);
    pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
  }
  const std::string shown = printable(text);
  set_manners(layout, shown);
  pango_layout_set_text(layout, shown.data(), static_cast<int>(shown.size()));
  unknown_glyphs_ = static_cast<std::size_t>(pango_layout_get_unknown_glyphs_count(layout));

  PangoRectangle around;
  pango_layout_get_extents(layout, nullptr, &around);
  width_mm_ = pt_of(around.width) / pt_per_mm;
  PangoLayoutIter* at = pango_layout_get_iter(layout);
  do {
    PangoRectangle line;
    pango_layout_iter_get_line_extents(at, nullptr, &line);
    // Lines at one pitch whatever fonts are in them, so that columns stay level; the base line sits where that of the
    // first font would.
    const double base_pt = static_cast<double>(lines_.size()) * pitch_pt_ + 0.5 * pitch_pt_ + 0.36 * look.size_pt;
    lines_.push_back({pt_of(line.x), base_pt});
  } while (pango_layout_iter_next_line(at) != FALSE);
  pango_layout_iter_free(at);
}

double Words::height_mm(std::size_t from, std::size_t to) const {
  return to <= from ? 0 : static_cast<double>(to - from) * pitch_pt_ / pt_per_mm;
}

std::size_t Words::lines_within(std::size_t from, double height_mm) const {
  const double fits = std::floor(height_mm * pt_per_mm / pitch_pt_ + 1e-6);
  return fits <= 0 ? 0 : std::min(static_cast<std::size_t>(fits), lines_.size() - from);
}

double Words::left_mm() const {
  double left_pt = lines_.empty() ? 0 : lines_.front().left_pt;
  for (const Line& line : lines_) left_pt = std::min(left_pt, line.left_pt);
  return left_pt / pt_per_mm;
}

double Words::base_line_mm() const { return lines_.empty() ? 0 : lines_.front().base_pt / pt_per_mm; }

void Words::draw(_cairo* pen, double x_mm, double y_mm, std::size_t from, std::size_t to) const {
  cairo_set_source_rgba(pen, colour_.red, colour_.green, colour_.blue, colour_.alpha);
  const double up_pt = static_cast<double>(from) * pitch_pt_;
  for (std::size_t i = from; i < std::min(to, lines_.size()); ++i) {
    cairo_move_to(pen, x_mm * pt_per_mm + lines_[i].left_pt, y_mm * pt_per_mm + lines_[i].base_pt - up_pt);
    show_line(pen, pango_layout_get_line_readonly(layout_.get(), static_cast<int>(i)));
  }
}

void Words::trace(_cairo* pen, double x_mm, double y_mm) const {
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    cairo_move_to(pen, x_mm * pt_per_mm + lines_[i].left_pt, y_mm * pt_per_mm + lines_[i].base_pt);
    pango_cairo_layout_line_path(pen, pango_layout_get_line_readonly(layout_.get(), static_cast<int>(i)));
  }
}

}  // namespace duskwire::paper
