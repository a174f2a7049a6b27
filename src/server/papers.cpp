// SPDX-License-Identifier: Apache-2.0
#include "server/papers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <map>
#include <optional>

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

using Step = std::function<Result<MadeFile>()>;

Result<MadeFile> printed(const std::string& name, const paper::Document& document) {
  MadeFile made{name + ".pdf", document.title.title, "paper", "application/pdf", "", nullptr};
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

paper::CrewWish crew_wish(const PapersOrder& order, const std::string& kind, bool with_plan) {
  paper::CrewWish wish;
  wish.size = order.wish.size;
  wish.units = order.wish.units;
  wish.frame = paper::frame_of(order.wish, order.job, kind, kind + ": " + paper::garden_of(order.job));
  if (!with_plan) return wish;
  paper::PlanLook look;
  look.cable_labels = look.joint_labels = true;
  look.note = "Cables are drawn as planned. Tape lengths in the lists are for digging.";
  auto plan = paper::plan_section(order.job, look, order.wish.units, order.wish.size, wish.frame, "Plan of the wiring");
  if (plan) wish.plans.push_back(*std::move(plan));
  return wish;
}

std::vector<Step> paper_steps(const PapersOrder& order, const Known& known) {
  const auto wanted = [&](const std::string& name) {
    return order.only.empty() || std::find(order.only.begin(), order.only.end(), name) != order.only.end();
  };
  std::vector<Step> steps;
  if (wanted("proposal")) {
    steps.push_back([&] {
      paper::ProposalParts parts;
      parts.aims = known.crew.aims;
      const auto price = study::price(order.job, order.stock, formats::embedded_deposit_rules().rules);
      parts.price = offered_price(price, order.job);
      return printed("proposal", paper::proposal_paper(order.wish, order.job, parts));
    });
  }
  if (wanted("crew")) {
    steps.push_back(
        [&] { return printed("crew", paper::crew_paper(crew_wish(order, "Crew set", true), order.job, known.crew)); });
  }
  if (wanted("commissioning")) {
    steps.push_back([&] {
      const paper::CrewWish wish = crew_wish(order, "Commissioning sheet", false);
      return printed("commissioning", paper::commissioning_paper(wish, order.job, known.crew));
    });
  }
  if (wanted("owner")) {
    steps.push_back([&] {
      paper::OwnerParts parts{known.report, known.crew.joints, timer_card(order.job, order.stock, order.wish.date)};
      return printed("owner", paper::owner_paper(order.wish, order.job, parts));
    });
  }
  return steps;
}

std::vector<Step> list_steps(const PapersOrder& order, const Known& known) {
  if (!order.only.empty()) return {};
  std::vector<Step> steps;
  steps.push_back([&] {
    return written("materials.csv", "Materials", "list", "text/csv",
                   formats::table_csv(estimate::materials_table(known.materials)));
  });
  steps.push_back([&] {
    return written("cut-list.csv", "Cut list", "list", "text/csv",
                   formats::table_csv(estimate::cut_table(known.materials)));
  });
  for (const TableData& table : study::crew_lists(known.crew)) {
    if (table.rows.empty()) continue;
    steps.push_back([table] {
      return written("crew-" + table.id + ".csv", table.title, "list", "text/csv", formats::table_csv(table));
    });
  }
  steps.push_back([&] {
    std::vector<TableData> tables{estimate::materials_table(known.materials), estimate::cut_table(known.materials)};
    for (TableData& table : study::crew_lists(known.crew)) tables.push_back(std::move(table));
    return written("lists.xlsx", "All lists", "list",
                   "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
                   office::workbook(tables, {order.job.title, moment_of(order.wish.date)}));
  });
  steps.push_back(
      [&] { return written("plan.dxf", "Plan", "drawing", "image/vnd.dxf", formats::plan_dxf(order.job)); });
  const std::string calendar = care_calendar_of(order.job, order.wish.date, moment_of(order.wish.date));
  if (!calendar.empty()) {
    steps.push_back([calendar] {
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
  std::vector<MadeFile> files;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (!go_on(static_cast<double>(i + 1) / static_cast<double>(steps.size() + 1))) return ended;
    Result<MadeFile> made = steps[i]();
    if (!made) return made.error();
    files.push_back(std::move(made).value());
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
