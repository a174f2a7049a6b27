// SPDX-License-Identifier: Apache-2.0
#include "paper/paper_wish.hpp"

namespace duskwire::paper {

PageSize usual_size(job::DisplayUnits units) {
  return units == job::DisplayUnits::us ? PageSize::letter : PageSize::a4;
}

std::string garden_of(const job::Job& job) { return job.title.empty() ? "this garden" : job.title; }

Document frame_of(const PaperWish& wish, const job::Job& job, const std::string& kind, const std::string& title) {
  Document frame;
  frame.revisions = wish.revisions;
  TitleBlock& block = frame.title;
  block.owner = wish.shop;
  block.title = title;
  block.job = garden_of(job);
  block.kind = kind;
  block.date = wish.date;
  block.made_by = wish.made_by;
  block.number = wish.number.empty() ? job.id : wish.number;
  block.revision = wish.revision.empty() && !wish.revisions.empty() ? wish.revisions.back().letter : wish.revision;
  return frame;
}

}  // namespace duskwire::paper
