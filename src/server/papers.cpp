// SPDX-License-Identifier: Apache-2.0
#include "server/papers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <map>
#include <optional>
#include <variant>

#include "estimate/material_tables.hpp"
#include "estimate/materials.hpp"
#include "formats/deposit_rules_file.hpp"
#include "formats/plan_dxf.hpp"
#include "formats/table_csv.hpp"
#include "office/archive.hpp"
#include "office/workbook.hpp"
#include "paper/commissioning_paper.hpp"
#include "paper/crew_paper.hpp"
#include "paper/owner_paper.hpp"
#include "paper/plan_drawing.hpp"
#include "paper/proposal_paper.hpp"
#include "paper/render.hpp"
#include "server/offered_price.hpp"
#include "server/proposal_nights.hpp"
#include "server/timer_card.hpp"
#include "study/check.hpp"
#include "study/crew.hpp"
#include "study/crew_lists.hpp"
#include "study/price.hpp"

namespace duskwire::server {
namespace {

// Midnight of the date, seconds of UTC since 1970; of 2000 where there is none.
std::int64_t moment_of(const std::string& date) {
  int year = 2000;
  unsigned month = 1;
  unsigned day = 1;
  if (date.size() >= 10) {
    year = std::atoi(date.substr(0, 4).c_str());
    month = static_cast<unsigned>(std::atoi(date.substr(5, 2).c_str()));
    day = static_cast<unsigned>(std::atoi(date.substr(8, 2).c_str()));
  }
  const std::chrono::year_month_day read{std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
  if (!read.ok()) return 946684800;
  return std::chrono::duration_cast<std::chrono::seconds>(std::chrono::sys_days(read).time_since_epoch()).count();
}

// What several papers rest on, computed once.
struct Known {
  estimate::Materials materials;
  study::Report report;
  study::CrewSet crew;
};

// One file. Told from time to time how much of it is done, where it takes long.
struct Step {
  std::function<Result<MadeFile>(const PapersProgress& progress)> make;
  double effort = 1;  // beside that of the other steps
};

// A night takes about as long as ten other files.
constexpr double night_effort = 10;

// The errors of the check: what a command or the page tells, and what stands on every paper, so that none is built or
// signed from one without a word.
struct Unsound {
  std::string sentences;
  std::string on_paper;
};

constexpr std::size_t most_named = 3;

std::optional<Unsound> unsound(const study::Report& report) {
  std::vector<std::string> messages;
  std::vector<std::string> places;
  for (const study::Finding& finding : report.findings) {
    if (finding.severity != Severity::error) continue;
    messages.push_back(finding.message);
    if (finding.subject.empty() || std::find(places.begin(), places.end(), finding.subject) != places.end()) continue;
    places.push_back(finding.subject);
  }
  if (messages.empty()) return std::nullopt;
  const std::string count = messages.size() == 1 ? "1 error" : fmt::format("{} errors", messages.size());
  const auto named = [](std::vector<std::string> list, const char* between, const char* end) {
    const std::size_t more = list.size() - std::min(list.size(), most_named);
    list.resize(list.size() - more);
    return fmt::format("{}{}{}", fmt::join(list, between), more == 0 ? "" : fmt::format(" and {} more", more), end);
  };
  Unsound words;
  words.sentences = fmt::format("The check finds {} in this job. {}", count, named(messages, " ", ""));
  words.on_paper = fmt::format(
      "The check finds {} in this job{}. Cure them before anything is signed or built from "
      "this paper.",
      count, places.empty() ? "" : " (at " + named(places, ", ", ")"));
  return words;
}

Result<MadeFile> printed(const std::string& name, paper::Document document, const study::Report& report) {
  MadeFile made{name + ".pdf", document.title.title, "paper", "application/pdf", "", nullptr};
  if (const auto words = unsound(report)) {
    made.job_errors = words->sentences;
    paper::Blocks& blocks = document.sections.at(0).blocks;
    const bool titled = !blocks.empty() && std::holds_alternative<paper::Heading>(blocks.front());
    blocks.insert(blocks.begin() + (titled ? 1 : 0), paper::Callout{paper::Tone::caution, words->on_paper});
  }
  auto pages = std::make_shared<const paper::LaidOut>(paper::lay_out(document));
  Result<std::string> pdf = paper::pdf_of(*pages);
  if (!pdf) return pdf.error();
  made.bytes = std::move(pdf).value();
  made.pages = std::move(pages);
  return made;
}

Result<MadeFile> written(std::string name, std::string title, const char* kind, const char* media_type,
                         Result<std::string> bytes) {
  if (!bytes) return bytes.error();
  return MadeFile{std::move(name), std::move(title), kind, media_type, std::move(bytes).value(), nullptr};
}

paper::Document frame_of(const PapersOrder& order, const std::string& kind) {
  return paper::frame_of(order.wish, order.job, kind, kind + ": " + paper::garden_of(order.job));
}

// Nothing where the job has no place for anything.
std::optional<paper::Section> wiring_plan(const PapersOrder& order, const paper::Document& frame) {
  paper::PlanLook look;
  look.cable_labels = look.joint_labels = true;
  look.note = "Cables are drawn as planned. Tape lengths in the lists are for digging.";
  return paper::plan_section(order.job, look, order.wish.units, order.wish.size, frame, "Plan of the wiring");
}

paper::CrewWish crew_wish(const PapersOrder& order, const std::string& kind, bool with_plan) {
  paper::CrewWish wish;
  wish.size = order.wish.size;
  wish.units = order.wish.units;
  wish.frame = frame_of(order, kind);
  if (!with_plan) return wish;
  auto plan = wiring_plan(order, wish.frame);
  if (plan) wish.plans.push_back(*std::move(plan));
  return wish;
}

bool is_wanted(const PapersOrder& order, const std::string& name) {
  return order.only.empty() || std::find(order.only.begin(), order.only.end(), name) != order.only.end();
}

Result<MadeFile> make_proposal(const PapersOrder& order, const Known& known, const PapersProgress& progress) {
  Result<ProposalNights> nights = proposal_nights(order, progress);
  if (!nights) return nights.error();
  paper::ProposalParts parts;
  parts.nights = std::move(nights.value().pictures);
  parts.aims = known.crew.aims;
  const auto price = study::price(order.job, order.stock, formats::embedded_deposit_rules().rules);
  parts.price = offered_price(price, order.job);
  Result<MadeFile> made = printed("proposal", paper::proposal_paper(order.wish, order.job, parts), known.report);
  if (made) made.value().remarks = std::move(nights.value().remarks);
  return made;
}

std::vector<Step> paper_steps(const PapersOrder& order, const Known& known) {
  std::vector<Step> steps;
  if (is_wanted(order, "proposal")) {
    steps.push_back({[&](const PapersProgress& progress) { return make_proposal(order, known, progress); },
                     1 + night_effort * static_cast<double>(order.photographs.size())});
  }
  if (is_wanted(order, "crew")) {
    steps.push_back({[&](const PapersProgress&) {
      return printed("crew", paper::crew_paper(crew_wish(order, "Crew set", true), order.job, known.crew),
                     known.report);
    }});
  }
  if (is_wanted(order, "commissioning")) {
    steps.push_back({[&](const PapersProgress&) {
      const paper::CrewWish wish = crew_wish(order, "Commissioning sheet", false);
      return printed("commissioning", paper::commissioning_paper(wish, order.job, known.crew), known.report);
    }});
  }
  if (is_wanted(order, "owner")) {
    steps.push_back({[&](const PapersProgress&) {
      paper::OwnerParts parts{known.report, known.crew.joints, timer_card(order.job, order.stock, order.wish.date)};
      return printed("owner", paper::owner_paper(order.wish, order.job, parts), known.report);
    }});
  }
  return steps;
}

std::vector<Step> list_steps(const PapersOrder& order, const Known& known) {
  if (!order.only.empty()) return {};
  std::vector<Step> steps;
  const auto add = [&](auto make) { steps.push_back({[make](const PapersProgress&) { return make(); }}); };
  add([&] {
    return written("materials.csv", "Materials", "list", "text/csv",
                   formats::table_csv(estimate::materials_table(known.materials)));
  });
  add([&] {
    return written("cut-list.csv", "Cut list", "list", "text/csv",
                   formats::table_csv(estimate::cut_table(known.materials)));
  });
  for (const TableData& table : study::crew_lists(known.crew)) {
    if (table.rows.empty()) continue;
    add([table] {
      return written("crew-" + table.id + ".csv", table.title, "list", "text/csv", formats::table_csv(table));
    });
  }
  add([&] {
    std::vector<TableData> tables{estimate::materials_table(known.materials), estimate::cut_table(known.materials)};
    for (TableData& table : study::crew_lists(known.crew)) tables.push_back(std::move(table));
    return written("lists.xlsx", "All lists", "list",
                   "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
                   office::workbook(tables, {order.job.title, moment_of(order.wish.date)}));
  });
  add([&] { return written("plan.dxf", "Plan", "drawing", "image/vnd.dxf", formats::plan_dxf(order.job)); });
  paper::Document sheet = frame_of(order, "Plan");
  if (auto plan = wiring_plan(order, sheet)) {
    sheet.sections.push_back(*std::move(plan));
    add([sheet] {
      return written("plan.svg", "Plan, as printed", "drawing", "image/svg+xml",
                     paper::svg_of(paper::lay_out(sheet), 0));
    });
  }
  const std::string calendar = care_calendar_of(order.job, order.wish.date, moment_of(order.wish.date));
  if (!calendar.empty()) {
    add([calendar] {
      return written("care.ics", "Care, visits and warranties", "calendar", "text/calendar", calendar);
    });
  }
  return steps;
}

}  // namespace

const std::vector<std::string>& paper_names() {
  static const std::vector<std::string> names{"proposal", "crew", "commissioning", "owner"};
  return names;
}

std::vector<const job::View*> views_shown(const PapersOrder& order) {
  std::vector<const job::View*> views;
  if (!is_wanted(order, "proposal")) return views;
  for (const job::View& view : order.job.views) {
    if (view.calibration) views.push_back(&view);
  }
  return views;
}

Result<std::vector<MadeFile>> make_papers(const PapersOrder& order, const PapersProgress& progress) {
  for (const std::string& name : order.only) {
    const auto& names = paper_names();
    if (std::find(names.begin(), names.end(), name) != names.end()) continue;
    return Error{ErrorCode::invalid,
                 fmt::format("There is no paper \"{}\": the papers are {}.", name, fmt::join(names, ", "))};
  }
  const auto go_on = [&](double share) { return !progress || progress(share); };
  const Error ended{ErrorCode::unavailable, "It was ended. Nothing was made."};
  if (!go_on(0)) return ended;
  Known known;
  known.materials = estimate::materials(order.job, order.stock);
  known.report = study::check(order.job, order.ruleset, order.stock, {false});
  known.crew = study::crew_set(order.job, order.stock, known.materials, known.report);
  std::vector<Step> steps = paper_steps(order, known);
  for (Step& step : list_steps(order, known)) steps.push_back(std::move(step));
  // What was known before the first of them counts as one too.
  double whole = 1;
  for (const Step& step : steps) whole += step.effort;
  double done = 1;
  std::vector<MadeFile> files;
  for (const Step& step : steps) {
    if (!go_on(done / whole)) return ended;
    Result<MadeFile> made = step.make([&](double share) { return go_on((done + share * step.effort) / whole); });
    if (!made) return made.error();
    files.push_back(std::move(made).value());
    done += step.effort;
  }
  if (!go_on(1)) return ended;
  return files;
}

Result<std::string> zip_of(const std::vector<MadeFile>& files, const std::string& date) {
  std::vector<office::ArchiveEntry> entries;
  for (const MadeFile& file : files) entries.push_back({file.name, file.bytes});
  return office::zip_archive(entries, moment_of(date));
}

}  // namespace duskwire::server
