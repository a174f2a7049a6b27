// SPDX-License-Identifier: Apache-2.0
// What all papers of a job share: sheet, units, whose they are and of which issue.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "paper/document.hpp"

namespace duskwire::paper {

struct PaperWish {
  PageSize size = PageSize::a4;
  job::DisplayUnits units = job::DisplayUnits::metric;
  std::string shop;  // the contractor, as it stands on papers
  std::string made_by;
  std::string date;      // of issue, ISO 8601
  std::string number;    // empty: of the offer, else the job's id
  std::string revision;  // empty: of the last of `revisions`
  std::vector<Revision> revisions;
};

// A4 where people write A4.
[[nodiscard]] PageSize usual_size(job::DisplayUnits units);

// The title block and the revisions of one paper, without sections: "Proposal" -> "Proposal for The Ostrey garden".
[[nodiscard]] Document frame_of(const PaperWish& wish, const job::Job& job, const std::string& kind,
                                const std::string& title);

// "the Ostrey garden" where the job has a title, else "this garden".
[[nodiscard]] std::string garden_of(const job::Job& job);

}  // namespace duskwire::paper
