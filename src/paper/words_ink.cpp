// SPDX-License-Identifier: Apache-2.0
#include "paper/words_ink.hpp"

#include <pango/pangocairo.h>

#include <algorithm>
#include <string>
#include <vector>

namespace duskwire::paper {
namespace {

double pt_of(int pango_units) { return static_cast<double>(pango_units) / PANGO_SCALE; }

unsigned long space_of(PangoFont* font) {
  hb_codepoint_t glyph = 0;
  return hb_font_get_nominal_glyph(pango_font_get_hb_font(font), ' ', &glyph) != 0 ? glyph : 0;
}

struct Ink {
  std::vector<cairo_glyph_t> glyphs;
  std::vector<cairo_text_cluster_t> clusters;
};

// The glyphs of a run with the letters that each stands for; empty where one is not in the font.
Ink ink_of(const char* text, PangoGlyphItem* run, double x_pt, double y_pt) {
  Ink ink;
  const unsigned long space = space_of(run->item->analysis.font);
  PangoGlyphItemIter at;
  for (gboolean more = pango_glyph_item_iter_init_start(&at, run, text); more != FALSE;
       more = pango_glyph_item_iter_next_cluster(&at)) {
    const int from = std::min(at.start_glyph, at.end_glyph + 1);
    const int to = std::max(at.start_glyph + 1, at.end_glyph);
    int count = 0;
    for (int g = from; g < to; ++g) {
      const PangoGlyphInfo& info = run->glyphs->glyphs[g];
      if ((info.glyph & PANGO_GLYPH_UNKNOWN_FLAG) != 0) return {};
      const bool blank = info.glyph == PANGO_GLYPH_EMPTY;
      const bool was_space = blank && text[at.start_index] == ' ' && space != 0;
      if (!blank || was_space) {
        ink.glyphs.push_back({was_space ? space : info.glyph, x_pt + pt_of(info.geometry.x_offset),
                              y_pt + pt_of(info.geometry.y_offset)});
        ++count;
      }
      x_pt += pt_of(info.geometry.width);
    }
    const int bytes = at.end_index - at.start_index;
    if (count > 0 || bytes > 0) ink.clusters.push_back({bytes, count});
  }
  return ink;
}

}  // namespace

void show_line(_cairo* pen, _PangoLayoutLine* line) {
  double x_pt = 0;
  double y_pt = 0;
  cairo_get_current_point(pen, &x_pt, &y_pt);
  const char* text = pango_layout_get_text(line->layout);
  for (GSList* node = line->runs; node != nullptr; node = node->next) {
    auto* run = static_cast<PangoGlyphItem*>(node->data);
    const double width_pt = pt_of(pango_glyph_string_get_width(run->glyphs));
    const Ink ink = ink_of(text, run, x_pt, y_pt);
    const bool backward = run->item->analysis.level % 2 != 0;
    if (ink.glyphs.empty() || backward) {
      cairo_move_to(pen, x_pt, y_pt);
      pango_cairo_show_glyph_item(pen, text, run);
    } else {
      cairo_set_scaled_font(pen, pango_cairo_font_get_scaled_font(PANGO_CAIRO_FONT(run->item->analysis.font)));
      cairo_show_text_glyphs(pen, text + run->item->offset, run->item->length, ink.glyphs.data(),
                             static_cast<int>(ink.glyphs.size()), ink.clusters.data(),
                             static_cast<int>(ink.clusters.size()), static_cast<cairo_text_cluster_flags_t>(0));
    }
    x_pt += width_pt;
  }
}

}  // namespace duskwire::paper
