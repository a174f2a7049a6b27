// SPDX-License-Identifier: Apache-2.0
// The crew's papers of a large estate, from the wired job to the PDF's bytes: how long, how many pages, how large.
// Words: lamps, repetitions.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <vector>

#include "estimate/materials.hpp"
#include "paper/commissioning_paper.hpp"
#include "paper/crew_paper.hpp"
#include "paper/layout.hpp"
#include "paper/render.hpp"
#include "sites/lots.hpp"
#include "sites/planned.hpp"
#include "sites/stock.hpp"
#include "study/check.hpp"

namespace duskwire::bench {
namespace {

struct Made {
  double seconds = 0;
  std::size_t pages = 0;
  std::size_t bytes = 0;
};

// Both papers: with the check of the job, since a crew's figures come from it.
Made make(const job::Job& job) {
  const auto begun = std::chrono::steady_clock::now();
  const study::Report report = study::check(job, sites::us_rules(), sites::stock(), {.cures = false});
  const study::CrewSet set = study::crew_set(job, sites::stock(), estimate::materials(job, sites::stock()), report);
  paper::CrewWish wish;
  wish.units = job.site.units;
  Made made;
  for (const paper::Document& document :
       {paper::crew_paper(wish, job, set), paper::commissioning_paper(wish, job, set)}) {
    const paper::LaidOut pages = paper::lay_out(document);
    made.pages += pages.pages.size();
    made.bytes += paper::pdf_of(pages).value().size();
  }
  made.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
  return made;
}

int run(std::uint32_t lamps, int repetitions) {
  study::RouteRequest request;
  request.most_steps = 3;
  const study::RouteAnswer answer = sites::planned(sites::lot({lamps, 5}, sites::stock()), request);
  if (!answer.job) return 1;
  std::vector<double> seconds;
  Made made;
  for (int i = 0; i < repetitions; ++i) {
    made = make(*answer.job);
    seconds.push_back(made.seconds);
  }
  std::sort(seconds.begin(), seconds.end());
  fmt::print(
      "{} lamps: crew set and commissioning sheet, {} pages, {:.2f} MB, {:.2f} s (best {:.2f}, worst {:.2f} of {})\n",
      lamps, made.pages, static_cast<double>(made.bytes) / 1e6, seconds[seconds.size() / 2], seconds.front(),
      seconds.back(), repetitions);
  return 0;
}

}  // namespace
}  // namespace duskwire::bench

int main(int count, char** words) {
  const auto lamps = static_cast<std::uint32_t>(count > 1 ? std::atoi(words[1]) : 300);
  return duskwire::bench::run(lamps, std::max(1, count > 2 ? std::atoi(words[2]) : 5));
}
