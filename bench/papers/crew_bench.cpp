// SPDX-License-Identifier: Apache-2.0
// The crew's papers of a large estate, from the wired job to the PDF's bytes: how long by the clock and by the
// processor (which is what stays the same on a busy computer), for what, how many pages, how large. Words: lamps,
// repetitions.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <ctime>
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

double processor_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

struct Made {
  double clock_s = 0;
  // Of the processor.
  double study_s = 0;
  double layout_s = 0;
  double pdf_s = 0;
  std::size_t pages = 0;
  std::size_t bytes = 0;

  [[nodiscard]] double processor_s() const { return study_s + layout_s + pdf_s; }
};

// Both papers: with the check of the job, since a crew's figures come from it.
Made make(const job::Job& job) {
  Made made;
  const auto begun = std::chrono::steady_clock::now();
  double mark_s = processor_s();
  const auto lap = [&mark_s](double& sum_s) {
    const double now_s = processor_s();
    sum_s += now_s - mark_s;
    mark_s = now_s;
  };
  const study::Report report = study::check(job, sites::us_rules(), sites::stock(), {.cures = false});
  const study::CrewSet set = study::crew_set(job, sites::stock(), estimate::materials(job, sites::stock()), report);
  paper::CrewWish wish;
  wish.units = job.site.units;
  lap(made.study_s);
  for (const paper::Document& document :
       {paper::crew_paper(wish, job, set), paper::commissioning_paper(wish, job, set)}) {
    const paper::LaidOut pages = paper::lay_out(document);
    lap(made.layout_s);
    made.pages += pages.pages.size();
    made.bytes += paper::pdf_of(pages).value().size();
    lap(made.pdf_s);
  }
  made.clock_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
  return made;
}

int run(std::uint32_t lamps, int repetitions) {
  study::RouteRequest request;
  request.most_steps = 3;
  const study::RouteAnswer answer = sites::planned(sites::lot({lamps, 5}, sites::stock()), request);
  if (!answer.job) return 1;
  std::vector<Made> all;
  for (int i = 0; i < repetitions; ++i) all.push_back(make(*answer.job));
  std::sort(all.begin(), all.end(), [](const Made& a, const Made& b) { return a.processor_s() < b.processor_s(); });
  const Made& made = all[all.size() / 2];
  fmt::print("{} lamps: crew set and commissioning sheet, {} pages, {:.2f} MB, {:.2f} s by the clock\n", lamps,
             made.pages, static_cast<double>(made.bytes) / 1e6, made.clock_s);
  fmt::print("of the processor {:.2f} s (best {:.2f}, worst {:.2f} of {}): study {:.2f}, layout {:.2f}, PDF {:.2f}\n",
             made.processor_s(), all.front().processor_s(), all.back().processor_s(), repetitions, made.study_s,
             made.layout_s, made.pdf_s);
  return 0;
}

}  // namespace
}  // namespace duskwire::bench

int main(int count, char** words) {
  const auto lamps = static_cast<std::uint32_t>(count > 1 ? std::atoi(words[1]) : 300);
  return duskwire::bench::run(lamps, std::max(1, count > 2 ? std::atoi(words[2]) : 5));
}
