// SPDX-License-Identifier: Apache-2.0
// All papers of a job, made in one go: the one place where prices, lists, the plan and the pages meet. The command
// writes them into a folder, the server hands them to the page.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "job/job.hpp"
#include "paper/layout.hpp"
#include "paper/paper_wish.hpp"
#include "server/picture_codec.hpp"
#include "study/rules.hpp"

namespace duskwire::server {

// The photograph of a view, as a file's bytes.
struct ViewPhotograph {
  std::string view;  // its id
  std::string bytes;
};

struct PapersOrder {
  job::Job job;
  job::Catalogue stock;
  study::Ruleset ruleset;
  paper::PaperWish wish;
  std::vector<std::string> only;                 // of paper_names(); empty: all of them, with the lists and drawings
  std::vector<ViewPhotograph> photographs = {};  // of calibrated views: the proposal shows their nights
  unsigned threads = 1;                          // for the nights
  PictureOpener open = open_picture;             // of the photographs
};

struct MadeFile {
  std::string name;  // "proposal.pdf"
  std::string title;
  std::string kind;  // "paper", "list", "drawing", "calendar"
  std::string media_type;
  std::string bytes;
  std::shared_ptr<const paper::LaidOut> pages;  // of a paper: to be painted one by one
  std::vector<std::string> remarks = {};        // what it lacks and why, a sentence each
  std::string job_errors = "";                  // of a paper: what the check finds wrong in the job; empty: nothing
};

// Told how much is done, 0 to 1; false ends the work.
using PapersProgress = std::function<bool(double share)>;

[[nodiscard]] const std::vector<std::string>& paper_names();

// The views whose nights the papers of this order show: photographs of them are what it wants.
[[nodiscard]] std::vector<const job::View*> views_shown(const PapersOrder& order);

// Errors: invalid (a name of no paper), unavailable (the drawing library gave up; ended).
[[nodiscard]] Result<std::vector<MadeFile>> make_papers(const PapersOrder& order, const PapersProgress& progress = {});

// One archive of them, dated as the papers are.
[[nodiscard]] Result<std::string> zip_of(const std::vector<MadeFile>& files, const std::string& date);

}  // namespace duskwire::server
