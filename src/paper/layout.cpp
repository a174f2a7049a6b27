// SPDX-License-Identifier: Apache-2.0
#include "paper/layout.hpp"

#include <fmt/format.h>

#include <memory>

#include "paper/flow.hpp"
#include "paper/furniture.hpp"

namespace duskwire::paper {
namespace {

void list_headings(const Blocks& blocks, std::vector<OutlineEntry>& all) {
  for (const Block& block : blocks) {
    if (const auto* heading = std::get_if<Heading>(&block)) {
      if (heading->level <= 1) all.push_back({heading->level, heading->text, fmt::format("part{}", all.size()), 0});
    } else if (const auto* columns = std::get_if<std::shared_ptr<Columns>>(&block)) {
      for (const Blocks& column : (*columns)->columns) list_headings(column, all);
    } else if (const auto* group = std::get_if<std::shared_ptr<Together>>(&block)) {
      list_headings((*group)->blocks, all);
    }
  }
}

// A drawing's sheet has its name in the title block: that is its heading.
bool is_named_sheet(const Section& section) {
  return section.foot == Foot::title_block && !section.sheet_title.empty();
}

void list_headings(const Section& section, std::vector<OutlineEntry>& all) {
  if (is_named_sheet(section)) list_headings(Blocks{Heading{1, section.sheet_title}}, all);
  list_headings(section.blocks, all);
}

void place_sheet(Flow& flow, Headings& headings) {
  OutlineEntry& entry = headings.all[headings.placed++];
  entry.page = flow.page();
  // Nothing stands under this tag, so the place on the page is told.
  flow.open("cairo.dest", fmt::format("name='{}' x=0 y=0", entry.target));
  flow.close("cairo.dest");
}

}  // namespace

LaidOut lay_out(const Document& document) {
  LaidOut out;
  out.title = document.title;
  const auto headings = std::make_shared<Headings>();
  for (const Section& section : document.sections) list_headings(section, headings->all);
  std::vector<const Section*> section_of_page;
  for (const Section& section : document.sections) {
    // Steps of the page at hand are kept apart until the next begins: pages move as their list grows.
    std::vector<std::unique_ptr<std::vector<Step>>> steps;
    const std::size_t first = out.pages.size();
    Flow flow(out, headings, [&](std::vector<Step>*& at) {
      out.pages.push_back({section.setup, {}});
      section_of_page.push_back(&section);
      steps.push_back(std::make_unique<std::vector<Step>>());
      at = steps.back().get();
      return area_above_foot(section, document);
    });
    if (is_named_sheet(section)) place_sheet(flow, *headings);
    put(flow, section.blocks);
    for (std::size_t i = 0; i < steps.size(); ++i) out.pages[first + i].steps = std::move(*steps[i]);
  }
  for (std::size_t i = 0; i < out.pages.size(); ++i) {
    put_foot(out.pages[i], *section_of_page[i], document, i + 1, out.pages.size());
  }
  out.outline = headings->all;
  return out;
}

}  // namespace duskwire::paper
