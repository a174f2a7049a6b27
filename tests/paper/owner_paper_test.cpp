// SPDX-License-Identifier: Apache-2.0
// What stays with the house.
#include "paper/owner_paper.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "paper/render.hpp"
#include "papers_job.hpp"
#include "read_back.hpp"

namespace duskwire::paper {
namespace {

std::string text_of(const Document& paper) {
  return on_one_line(PaperFile(pdf_of(lay_out(paper)).value()).told("pdftotext", "-"));
}

OwnerParts parts() {
  OwnerParts parts;
  study::OutputReport output;
  output.id = "T1-A";
  output.transformer = "T1";
  output.terminal_v = 12.81;
  output.current_a = 3.59;
  output.worst_current_a = 3.9;
  output.limit_a = 25;
  parts.report.outputs.push_back(output);
  study::TransformerReport transformer;
  transformer.id = "T1";
  transformer.rating_va = 300;
  transformer.worst_load_va = 60;
  parts.report.transformers.push_back(transformer);
  study::LampReport lamp;
  lamp.id = "F3";
  lamp.output = "T1-A";
  lamp.nominal_v = 11.51;
  parts.report.lamps.push_back(lamp);
  return parts;
}

TEST(OwnerPaper, TellsCareCautionsReadingsAndRoom) {
  const std::string text = text_of(owner_paper(papers_wish(), papers_job(), parts()));
  for (const char* part :
       {"pack: The sample garden", "Timer card", "No switching programme was entered", "Care through the year",
        "Warranty", "fill in the dates on that day", "Readings", "12.81 V", "3.59 A", "11.51 V", "How to add a light",
        // 80 % of 300 VA less 60 VA.
        "180 VA", "Low voltage does not mean safe from fire", "Map of what lies in the ground", "Scale"}) {
    EXPECT_NE(text.find(part), std::string::npos) << part << "\n" << text;
  }
}

TEST(OwnerPaper, CountsWarrantiesFromHandOver) {
  job::Job job = papers_job();
  job::Visit visit;
  visit.kind = job::VisitKind::hand_over;
  visit.date = "2026-12-01";
  job.visits.push_back(visit);
  const std::string text = text_of(owner_paper(papers_wish(), job, parts()));
  EXPECT_NE(text.find("2031-12-01"), std::string::npos) << text;
  EXPECT_NE(text.find("2028-12-01"), std::string::npos);
  EXPECT_NE(text.find("Counted from 2026-12-01"), std::string::npos);
}

TEST(OwnerPaper, ShowsWhatWasReadBesideWhatIsExpected) {
  job::Job job = papers_job();
  job::Visit visit;
  visit.kind = job::VisitKind::commissioning;
  visit.date = "2026-12-01T20:00";
  visit.by = "A. Maker";
  const auto read = [&](const char* place, const char* quantity, double value, const char* unit) {
    job::Reading reading;
    reading.place = place;
    reading.quantity = quantity;
    reading.value = value;
    reading.unit = unit;
    visit.readings.push_back(reading);
  };
  read("T1-A", "current", 3.61, "A");
  read("F3", "voltage", 11.48, "V");
  job.visits.push_back(visit);
  const std::string text = text_of(owner_paper(papers_wish(), job, parts()));
  EXPECT_NE(text.find("Read on 2026-12-01 by A. Maker"), std::string::npos) << text;
  EXPECT_NE(text.find("3.61 A"), std::string::npos);
  EXPECT_NE(text.find("11.48 V"), std::string::npos);
}

TEST(OwnerPaper, PrintsTheTimerCardMonthByMonth) {
  OwnerParts with = parts();
  with.timer =
      TimerCard{"On 15 min after sunset, off at 23:00.",
                {"Front", "Trees, late"},
                {{"March", "19:13", {"19:28 to 23:00", "23:00 to 01:30"}}, {"June", "20:40", {"\u2013", "no light"}}},
                "",
                1500,
                60};
  const PaperFile file(pdf_of(lay_out(owner_paper(papers_wish(), papers_job(), with))).value());
  const std::string text = on_one_line(file.told("pdftotext -layout", "-"));
  EXPECT_NE(text.find("March 19:13 19:28 to 23:00 23:00 to 01:30"), std::string::npos) << text;
  EXPECT_NE(text.find("June 20:40 \u2013 no light"), std::string::npos) << text;
  EXPECT_NE(text.find("About 1500 hours and 60 kWh a year"), std::string::npos);
}

TEST(OwnerPaper, ListsTheMapInItsContentsAndItsOutline) {
  const LaidOut pages = lay_out(owner_paper(papers_wish(), papers_job(), parts()));
  const auto map = std::find_if(pages.outline.begin(), pages.outline.end(), [](const OutlineEntry& entry) {
    return entry.text == "Map of what lies in the ground";
  });
  ASSERT_NE(map, pages.outline.end());
  EXPECT_EQ(map->page + 1, pages.pages.size());
  const PaperFile file(pdf_of(pages).value());
  EXPECT_NE(file.told("pdftotext -l 1", "-").find("Map of what lies in the ground"), std::string::npos);
  const std::string bare = file.told("qpdf --qdf --object-streams=disable", "-");
  EXPECT_NE(bare.find("/Subtype /Link"), std::string::npos);
  EXPECT_NE(bare.find("/Outlines"), std::string::npos);
  EXPECT_NE(file.told("pdfinfo -dests").find("\"" + map->target + "\""), std::string::npos)
      << file.told("pdfinfo -dests");
}

TEST(OwnerPaper, IsSoundToQpdfOnLetterAndOnA4) {
  for (const PageSize size : {PageSize::a4, PageSize::letter}) {
    PaperWish wish = papers_wish();
    wish.size = size;
    const std::string told =
        PaperFile(pdf_of(lay_out(owner_paper(wish, papers_job(), parts()))).value()).told("qpdf --check");
    EXPECT_NE(told.find("No syntax or stream encoding errors"), std::string::npos) << told;
  }
}

}  // namespace
}  // namespace duskwire::paper
