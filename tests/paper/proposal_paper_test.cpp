// SPDX-License-Identifier: Apache-2.0
// What a client signs: everything that binds is on it, and amounts add up as printed.
#include "paper/proposal_paper.hpp"

#include <gtest/gtest.h>

#include <memory>

#include "paper/render.hpp"
#include "papers_job.hpp"
#include "read_back.hpp"

namespace duskwire::paper {
namespace {

std::string text_of(const Document& paper) {
  return on_one_line(PaperFile(pdf_of(lay_out(paper)).value()).told("pdftotext", "-"));
}

ProposalParts parts() {
  ProposalParts parts;
  parts.price = papers_price();
  parts.aims = study::crew_aims(papers_job(), {});
  return parts;
}

TEST(ProposalPaper, SaysWhatIsOfferedForHowMuchUntilWhenAndWhoSigns) {
  const std::string text = text_of(proposal_paper(papers_wish(), papers_job(), parts()));
  for (const char* part : {"Lighting proposal: The sample garden",
                           "Ελένη Παπαδοπούλου",
                           "3 Invented Lane",
                           "Example Garden Lights",
                           "Q-17",
                           "2026-12-26",
                           "3 lights, 3,474.67 USD in all",
                           "The steps are dark.",
                           "Bullet uplight, 6 W",
                           "420 lm",
                           "2700 K",
                           "2,024.48 USD",
                           "1,450.19 USD",
                           "3,474.67 USD",
                           "Oak only",
                           "2,100.00 USD",
                           "At signing",
                           "347.47 USD",
                           "3,127.20 USD",
                           "What may change the price",
                           "Rock in the trench.",
                           "Template text, not legal advice.",
                           "Payment within 14 days.",
                           "good for 30 days, until 2026-12-26",
                           "Client: name, date, signature",
                           "Estimate."}) {
    EXPECT_NE(text.find(part), std::string::npos) << part << "\n" << text;
  }
}

TEST(ProposalPaper, OpensWithTheNightAndSaysWhatThePictureIs) {
  ProposalParts with = parts();
  auto picture = std::make_shared<pictures::Picture>();
  picture->width_px = 6;
  picture->height_px = 4;
  picture->elements.assign(72, 40);
  with.nights.push_back({picture, "The front by night", "Front: night impression, calculated."});
  const PaperFile file(pdf_of(lay_out(proposal_paper(papers_wish(), papers_job(), with))).value());
  const std::string first = on_one_line(file.told("pdftotext -l 1", "-"));
  EXPECT_NE(first.find("Front: night impression, calculated."), std::string::npos) << first;
  EXPECT_NE(first.find("an impression, not a promise"), std::string::npos) << first;
  EXPECT_NE(file.told("pdfimages -list -l 1").find("jpeg"), std::string::npos) << file.told("pdfimages -list -l 1");
}

TEST(ProposalPaper, SaysThatOptionsArePricedAsDrawn) {
  const std::string text = text_of(proposal_paper(papers_wish(), papers_job(), parts()));
  EXPECT_NE(text.find("Options are priced as drawn"), std::string::npos) << text;
}

TEST(ProposalPaper, WithoutAPriceItSaysSoAndPromisesNone) {
  ProposalParts without = parts();
  without.price.reset();
  const std::string text = text_of(proposal_paper(papers_wish(), papers_job(), without));
  EXPECT_NE(text.find("The price follows."), std::string::npos) << text;
  EXPECT_EQ(text.find("USD"), std::string::npos);
}

TEST(ProposalPaper, NamesUsualExclusionsWhereTheOfferNamesNone) {
  job::Job job = papers_job();
  job.offer.reset();
  const std::string text = text_of(proposal_paper(papers_wish(), job, parts()));
  EXPECT_NE(text.find("Work on the mains side"), std::string::npos) << text;
  EXPECT_NE(text.find("Template text, not legal advice."), std::string::npos);
}

TEST(ProposalPaper, IsSoundToQpdfAndHasEveryLetter) {
  const LaidOut pages = lay_out(proposal_paper(papers_wish(), papers_job(), parts()));
  EXPECT_EQ(pages.unknown_glyphs, 0U);
  const std::string told = PaperFile(pdf_of(pages).value()).told("qpdf --check");
  EXPECT_NE(told.find("No syntax or stream encoding errors"), std::string::npos) << told;
}

TEST(ProposalPaper, LaysOutALongNoteAndALongNameWithoutOverlap) {
  job::Job job = papers_job();
  job.client.name = std::string(300, 'N');
  job.client.wishes.front().text = std::string();
  for (int i = 0; i < 1100; ++i) job.client.wishes.front().text += "long note ";
  const LaidOut pages = lay_out(proposal_paper(papers_wish(), job, parts()));
  for (const LaidPage& page : pages.pages) {
    std::vector<Box> boxes;
    for (const Step& step : page.steps) {
      if (step.kind == Step::Kind::draw && step.ink == Ink::words) boxes.push_back(step.box);
    }
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      for (std::size_t j = i + 1; j < boxes.size(); ++j) EXPECT_FALSE(overlap(boxes[i], boxes[j]));
    }
  }
}

}  // namespace
}  // namespace duskwire::paper
