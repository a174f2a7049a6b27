// SPDX-License-Identifier: Apache-2.0
// The crew set read back from its PDF by poppler, and held against the list of materials and the report: counts,
// metres, volts and volt-amperes, as printed.
#include "paper/crew_paper.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <regex>
#include <sstream>

#include "crew_jobs.hpp"
#include "paper/crew_words.hpp"
#include "paper/layout.hpp"
#include "paper/render.hpp"
#include "read_back.hpp"

namespace duskwire::paper {
namespace {

constexpr std::uint32_t lamps = 20;

const CrewGarden& garden() {
  static const CrewGarden made = crew_garden(lamps);
  return made;
}

const std::string& crew_text() {
  static const std::string text = text_of(crew_paper(crew_wish(garden()), garden().job, garden().set));
  return text;
}

// What stands between two headings.
std::string part(const std::string& text, const std::string& from, const std::string& to) {
  const std::size_t begin = text.find("\f" + from);
  if (begin == std::string::npos) return {};
  const std::size_t end = text.find("\f" + to, begin);
  return text.substr(begin, end == std::string::npos ? std::string::npos : end - begin);
}

std::vector<std::smatch> rows_of(const std::string& text, const std::regex& row) {
  std::vector<std::smatch> found;
  for (std::sregex_iterator at(text.begin(), text.end(), row), end; at != end; ++at) found.push_back(*at);
  return found;
}

TEST(CrewPaper, CutListHasEveryCutWithItsMetres) {
  const std::string text = part(crew_text(), "Cut list", "Joint list");
  static const std::regex row(R"(☐ +(\S+) +(\d+) +(\S+) +(\S+) +([\d.]+) +([\d.]+) +([\d.]+) +([\d.]+) +([\d.]+))");
  std::map<std::string, double> printed_m;
  for (const std::smatch& match : rows_of(text, row)) printed_m[match[1]] = std::stod(match[8]);
  ASSERT_EQ(printed_m.size(), garden().materials.cuts.size());
  double sum_m = 0;
  for (const estimate::Cut& cut : garden().materials.cuts) {
    ASSERT_TRUE(printed_m.contains(cut.tag)) << cut.tag;
    EXPECT_NEAR(printed_m[cut.tag], cut.cut_m, 0.0501) << cut.tag;
    sum_m += cut.cut_m;
  }
  EXPECT_NE(crew_text().find(length_figure(sum_m, job::DisplayUnits::metric) + " m cut"), std::string::npos);
}

TEST(CrewPaper, EveryJointIsNamedAtADrawing) {
  const std::string text = on_one_line(part(crew_text(), "How each joint is made", "Trench list"));
  ASSERT_FALSE(text.empty());
  for (const study::CrewJoint& joint : garden().set.joints) {
    if (!joint.kind) continue;
    const std::regex named("(: |, )" + joint.id + "( and |,|\\.| )");
    EXPECT_TRUE(std::regex_search(text, named)) << joint.id << "\n" << text;
  }
}

TEST(CrewPaper, RunSchedulePrintsTheVoltsOfEveryLamp) {
  const std::string text = on_one_line(part(crew_text(), "Run schedule", "Cut list"));
  ASSERT_FALSE(text.empty());
  for (const study::LampReport& lamp : garden().report.lamps) {
    const std::string printed = fmt::format("{}: {:.2f} ({:.2f}\u2013{:.2f}), {:.2f}", lamp.id, lamp.nominal_v,
                                            lamp.worst_low_v, lamp.worst_high_v, lamp.current_a);
    EXPECT_NE(text.find(printed), std::string::npos) << printed;
  }
  for (const study::OutputReport& output : garden().report.outputs) {
    if (output.lamp_count == 0) continue;
    EXPECT_NE(text.find(fmt::format("{:.2f} {:.2f} {:g} {} ", output.terminal_v, output.current_a, output.limit_a,
                                    output.lamp_count)),
              std::string::npos)
        << output.id;
  }
}

TEST(CrewPaper, TotalsAreThoseOfJobMaterialsAndReport) {
  const std::string text = on_one_line(crew_text());
  double connectors = 0;
  for (const estimate::MaterialLine& line : garden().materials.lines) {
    if (line.category == estimate::Category::connector) connectors += line.quantity;
  }
  const std::string printed = fmt::format("{} lamps, {} VA of lamps, {} cables, {} joints, {:.0f} connectors",
                                          garden().job.luminaires.size(), va_figure(garden().report.lamp_va),
                                          garden().job.cables.size(), garden().job.joints.size(), connectors);
  EXPECT_NE(text.find(printed), std::string::npos) << printed;
}

TEST(CrewPaper, JointListHasEveryJointWithItsPieces) {
  const std::string text = part(crew_text(), "Joint list", "How each joint is made");
  static const std::regex row(R"(☐ +(\S+).*? {2,}(\d+) .*? (\d+) +(\d+) +(\d+\.\d\d) )");
  std::map<std::string, std::smatch> printed;
  for (const std::smatch& match : rows_of(text, row)) printed[match[1]] = match;
  for (const study::CrewJoint& joint : garden().set.joints) {
    ASSERT_TRUE(printed.contains(joint.id)) << joint.id;
    EXPECT_EQ(std::stoul(printed[joint.id][2]), joint.wires_per_conductor) << joint.id;
    EXPECT_EQ(std::stoul(printed[joint.id][3]), joint.pieces) << joint.id;
    EXPECT_EQ(printed[joint.id][5], fmt::format("{:.2f}", joint.nominal_v)) << joint.id;
  }
}

TEST(CrewPaper, TrenchListAddsUpToWhatIsDug) {
  const std::string text = on_one_line(part(crew_text(), "Trench list", "Aiming list"));
  EXPECT_NE(text.find("All " + length_figure(garden().set.ground.dug_m, job::DisplayUnits::metric)), std::string::npos)
      << text;
}

TEST(CrewPaper, PickListNamesEveryLampOfEveryZone) {
  const std::string text = on_one_line(part(crew_text(), "Pick list", "no more"));
  for (const study::CrewBag& bag : garden().set.bags) {
    for (const study::CrewPick& pick : bag.picks) {
      if (pick.users.empty()) continue;
      EXPECT_NE(text.find(pick.users.back()), std::string::npos) << pick.item << " for " << pick.users.back() << "\n"
                                                                 << text;
    }
  }
}

TEST(CrewPaper, ShowsAllFourKindsOfJointWhateverTheJobHas) {
  const std::string text = on_one_line(part(crew_text(), "How each joint is made", "Trench list"));
  for (const char* kind : {"In line", "Branch", "Hub", "End of run"}) {
    EXPECT_NE(text.find(kind), std::string::npos) << kind;
  }
  EXPECT_NE(text.find("free on A and on B"), std::string::npos);
}

TEST(CrewPaper, SaysStopWhereTheJobItselfIsNotReady) {
  job::Job job = garden().job;
  for (job::Receptacle& receptacle : job.plan.receptacles) receptacle.gfci = false;
  const CrewGarden unready = garden_of(job);
  const std::string text = on_one_line(text_of(crew_paper(crew_wish(unready), unready.job, unready.set)));
  EXPECT_NE(text.find("STOP"), std::string::npos);
  EXPECT_NE(text.find("no residual-current protection"), std::string::npos);
}

// Every page of every size keeps to its sheet, and no two pieces of text lie over each other.
TEST(CrewPaper, KeepsToItsSheetInA4AndLetterAndBothUnits) {
  for (const PageSize size : {PageSize::a4, PageSize::letter}) {
    for (const job::DisplayUnits units : {job::DisplayUnits::metric, job::DisplayUnits::us}) {
      CrewWish wish = crew_wish(garden(), size);
      wish.units = units;
      const LaidOut pages = lay_out(crew_paper(wish, garden().job, garden().set));
      EXPECT_EQ(pages.unknown_glyphs, 0u);
      for (const LaidPage& page : pages.pages) {
        const Box sheet = within_margins(page.setup);
        std::vector<Box> words;
        for (const Step& step : page.steps) {
          if (step.kind != Step::Kind::draw) continue;
          EXPECT_GE(step.box.x_mm, sheet.x_mm - 0.1);
          EXPECT_LE(step.box.right_mm(), sheet.right_mm() + 0.1);
          EXPECT_LE(step.box.bottom_mm(), sheet.bottom_mm() + 0.1);
          if (step.ink == Ink::words && step.box.width_mm > 0) words.push_back(step.box);
        }
        for (std::size_t i = 0; i < words.size(); ++i) {
          for (std::size_t k = i + 1; k < words.size(); ++k) EXPECT_FALSE(overlap(words[i], words[k], 0.3));
        }
      }
    }
  }
}

TEST(CrewPaper, IsSoundToQpdfAndTheSameEachTime) {
  const Document paper = crew_paper(crew_wish(garden()), garden().job, garden().set);
  const std::string bytes = pdf_of(lay_out(paper)).value();
  EXPECT_EQ(bytes, pdf_of(lay_out(paper)).value());
  const std::string told = PaperFile(bytes).told("qpdf --check");
  EXPECT_NE(told.find("No syntax or stream encoding errors"), std::string::npos) << told;
}

TEST(CrewPaper, LaysOutANameOfEveryScriptAndLongNotes) {
  job::Job job = garden().job;
  job.title = "Ελένη, 王小明, مريم";
  job.client.notes.assign(10000, 'n');
  for (job::Luminaire& luminaire : job.luminaires) luminaire.name = "Δρυς 橡树";
  const CrewGarden named = garden_of(job);
  const LaidOut pages = lay_out(crew_paper(crew_wish(named), named.job, named.set));
  EXPECT_EQ(pages.unknown_glyphs, 0u);
  const std::string text = PaperFile(pdf_of(pages).value()).told("pdftotext", "-");
  EXPECT_NE(text.find("王小明"), std::string::npos);
  EXPECT_GE(std::count(text.begin(), text.end(), 'n'), 10000);
}

}  // namespace
}  // namespace duskwire::paper
