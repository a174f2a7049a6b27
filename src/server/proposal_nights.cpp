// SPDX-License-Identifier: Apache-2.0
#include "server/proposal_nights.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "paper/view_night.hpp"

namespace duskwire::server {
namespace {

const std::string* photograph_of(const PapersOrder& order, const std::string& view) {
  const auto found = std::find_if(order.photographs.begin(), order.photographs.end(),
                                  [&](const ViewPhotograph& photograph) { return photograph.view == view; });
  return found == order.photographs.end() ? nullptr : &found->bytes;
}

std::string without(const job::View& view, const std::string& why) {
  return fmt::format("Without the night of view {}: {}", view.name.empty() ? view.id : view.name, why);
}

}  // namespace

Result<ProposalNights> proposal_nights(const PapersOrder& order, const PapersProgress& progress) {
  ProposalNights nights;
  const std::vector<const job::View*> views = views_shown(order);
  const double count = static_cast<double>(std::max<std::size_t>(views.size(), 1));
  for (std::size_t i = 0; i < views.size(); ++i) {
    const job::View& view = *views[i];
    const std::string* photograph = photograph_of(order, view.id);
    if (photograph == nullptr) {
      nights.remarks.push_back(without(view, "its photograph is not there. Keep the photograph with the job."));
      continue;
    }
    bool unwanted = false;
    study::NightWish wish;
    wish.view = view.id;
    Result<OpenedPicture> day = order.open(*photograph, paper::paper_night_width_px);
    if (!day) {
      nights.remarks.push_back(without(view, day.error().message));
      continue;
    }
    const Result<paper::ViewNight> made =
        paper::view_night(order.job, wish, std::move(day.value().picture), order.threads, [&](double share) {
          unwanted = unwanted || (progress && !progress((static_cast<double>(i) + share) / count));
          return !unwanted;
        });
    if (made) {
      nights.pictures.push_back(paper::night_on_paper(made.value()));
    } else if (unwanted) {
      return made.error();
    } else {
      nights.remarks.push_back(without(view, made.error().message));
    }
  }
  return nights;
}

}  // namespace duskwire::server
