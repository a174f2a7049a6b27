// SPDX-License-Identifier: Apache-2.0
#include "paper/render.hpp"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>
#include <fmt/format.h>

#include <cmath>
#include <map>
#include <memory>

#include "paper/pdf_finish.hpp"

namespace duskwire::paper {
namespace {

struct SurfaceEnd {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceEnd>;
struct PenEnd {
  void operator()(cairo_t* pen) const { cairo_destroy(pen); }
};
using CairoPen = std::unique_ptr<cairo_t, PenEnd>;

cairo_status_t append(void* out, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(out)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

Error gave_up(cairo_status_t status) {
  return {ErrorCode::unavailable, fmt::format("The paper could not be drawn: {}.", cairo_status_to_string(status))};
}

Error no_page() { return {ErrorCode::not_found, "The paper has no such page."}; }

void play(cairo_t* pen, const LaidPage& page, bool tagged) {
  for (const Step& step : page.steps) {
    if (step.kind == Step::Kind::draw) {
      cairo_save(pen);
      step.draw(pen);
      cairo_restore(pen);
    } else if (tagged && step.kind == Step::Kind::open) {
      cairo_tag_begin(pen, step.tag.c_str(), step.attributes.c_str());
    } else if (tagged) {
      cairo_tag_end(pen, step.tag.c_str());
    }
  }
}

void set_facts(cairo_surface_t* surface, const TitleBlock& title) {
  const auto set = [&](cairo_pdf_metadata_t which, const std::string& text) {
    cairo_pdf_surface_set_metadata(surface, which, text.c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, title.title);
  set(CAIRO_PDF_METADATA_AUTHOR, title.owner.empty() ? title.made_by : title.owner);
  set(CAIRO_PDF_METADATA_SUBJECT, title.kind);
  set(CAIRO_PDF_METADATA_CREATOR, "duskwire");
  // The date is told, so that the library does not look at a clock.
  const std::string date = (title.date.size() == 10 ? title.date : "2000-01-01") + "T00:00:00Z";
  set(CAIRO_PDF_METADATA_CREATE_DATE, date);
  set(CAIRO_PDF_METADATA_MOD_DATE, date);
}

void add_outline(cairo_surface_t* surface, const std::vector<OutlineEntry>& outline) {
  int above = CAIRO_PDF_OUTLINE_ROOT;
  for (const OutlineEntry& entry : outline) {
    const int parent = entry.level == 0 ? CAIRO_PDF_OUTLINE_ROOT : above;
    const int id =
        cairo_pdf_surface_add_outline(surface, parent, entry.text.c_str(),
                                      fmt::format("dest='{}'", entry.target).c_str(), CAIRO_PDF_OUTLINE_FLAG_OPEN);
    if (entry.level == 0) above = id;
  }
}

// The library numbers what it defines by a count of the whole process: numbered anew by order within the file.
std::string renumbered(const std::string& svg) {
  constexpr std::string_view name = "surface";
  std::map<std::string, std::size_t> known;
  std::string out;
  std::size_t from = 0;
  while (true) {
    const std::size_t at = svg.find(name, from);
    if (at == std::string::npos) return out + svg.substr(from);
    std::size_t end = at + name.size();
    while (end < svg.size() && svg[end] >= '0' && svg[end] <= '9') ++end;
    out += svg.substr(from, at + name.size() - from);
    if (const std::string digits = svg.substr(at + name.size(), end - at - name.size()); !digits.empty()) {
      out += std::to_string(known.emplace(digits, known.size() + 1).first->second);
    }
    from = end;
  }
}

}  // namespace

Result<std::string> pdf_of(const LaidOut& pages) {
  std::string bytes;
  const Surface surface(cairo_pdf_surface_create_for_stream(append, &bytes, 595, 842));
  set_facts(surface.get(), pages.title);
  {
    const CairoPen pen(cairo_create(surface.get()));
    for (const LaidPage& page : pages.pages) {
      const Box sheet = sheet_of(page.setup);
      cairo_pdf_surface_set_size(surface.get(), sheet.width_mm * pt_per_mm, sheet.height_mm * pt_per_mm);
      play(pen.get(), page, true);
      cairo_show_page(pen.get());
    }
    if (cairo_status(pen.get()) != CAIRO_STATUS_SUCCESS) return gave_up(cairo_status(pen.get()));
  }
  add_outline(surface.get(), pages.outline);
  cairo_surface_finish(surface.get());
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return gave_up(cairo_surface_status(surface.get()));
  return finished_pdf(bytes, pages.title, pages.alternatives);
}

Result<std::string> svg_of(const LaidOut& pages, std::size_t page) {
  if (page >= pages.pages.size()) return no_page();
  const Box sheet = sheet_of(pages.pages[page].setup);
  std::string bytes;
  const Surface surface(
      cairo_svg_surface_create_for_stream(append, &bytes, sheet.width_mm * pt_per_mm, sheet.height_mm * pt_per_mm));
  {
    const CairoPen pen(cairo_create(surface.get()));
    play(pen.get(), pages.pages[page], false);
    if (cairo_status(pen.get()) != CAIRO_STATUS_SUCCESS) return gave_up(cairo_status(pen.get()));
  }
  cairo_surface_finish(surface.get());
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return gave_up(cairo_surface_status(surface.get()));
  return renumbered(bytes);
}

Result<std::string> png_of(const LaidOut& pages, std::size_t page, double dots_per_inch) {
  if (page >= pages.pages.size()) return no_page();
  const Box sheet = sheet_of(pages.pages[page].setup);
  const double scale = dots_per_inch / 72;
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                                   static_cast<int>(std::lround(sheet.width_mm * pt_per_mm * scale)),
                                                   static_cast<int>(std::lround(sheet.height_mm * pt_per_mm * scale))));
  {
    const CairoPen pen(cairo_create(surface.get()));
    cairo_set_source_rgb(pen.get(), 1, 1, 1);
    cairo_paint(pen.get());
    cairo_scale(pen.get(), scale, scale);
    play(pen.get(), pages.pages[page], false);
    if (cairo_status(pen.get()) != CAIRO_STATUS_SUCCESS) return gave_up(cairo_status(pen.get()));
  }
  std::string bytes;
  const cairo_status_t status = cairo_surface_write_to_png_stream(surface.get(), append, &bytes);
  if (status != CAIRO_STATUS_SUCCESS) return gave_up(status);
  return bytes;
}

}  // namespace duskwire::paper
