// SPDX-License-Identifier: Apache-2.0
#include "server/night_desk.hpp"

#include <algorithm>
#include <exception>
#include <utility>

#include "paper/night_sheet.hpp"
#include "pictures/codec.hpp"
#include "study/night_view.hpp"

namespace duskwire::server {
namespace {

// A 12-megapixel picture is some 20 MB: so many are kept.
constexpr std::size_t most_kept = 4;

const job::View* find_view(const job::Job& job, const std::string& id) {
  const auto found = std::find_if(job.views.begin(), job.views.end(), [&](const auto& view) { return view.id == id; });
  return found == job.views.end() ? nullptr : &*found;
}

}  // namespace

NightDesk::NightDesk(unsigned threads) : threads_(std::max(1u, threads)) {}

NightDesk::~NightDesk() {
  {
    const std::lock_guard<std::mutex> lock(mutex_);
    for (const auto& [number, work] : works_) work->unwanted = true;
  }
  if (maker_.joinable()) maker_.join();
}

Result<std::uint64_t> NightDesk::begin(NightOrder order) {
  const std::lock_guard<std::mutex> lock(mutex_);
  const bool busy = std::any_of(works_.begin(), works_.end(),
                                [](const auto& entry) { return entry.second->standing.state == NightState::working; });
  if (busy) {
    return Error{ErrorCode::conflict, "A night picture is being made already: wait until it is done, or end it first."};
  }
  // Its work has said that it is over: the wait is short.
  if (maker_.joinable()) maker_.join();
  while (works_.size() >= most_kept) works_.erase(works_.begin());
  auto work = std::make_shared<Work>();
  works_[++last_number_] = work;
  maker_ = std::thread([this, work, order = std::move(order)] { make(work, order); });
  return last_number_;
}

void NightDesk::make(const std::shared_ptr<Work>& work, const NightOrder& order) const {
  Result<std::string> made = Error{ErrorCode::unavailable, "The night picture could not be made."};
  try {
    made = [&]() -> Result<std::string> {
      Result<pictures::Decoded> decoded = pictures::decode(order.photograph);
      if (!decoded) return decoded.error();
      pictures::Picture picture = pictures::opaque(decoded.value().picture);
      const light::Photograph photograph{picture.width_px, picture.height_px, std::move(picture.elements)};
      Result<study::NightView> view =
          study::night_view(order.job, order.wish.view, photograph.width_px, photograph.height_px);
      if (!view) return view.error();
      study::apply(order.wish, view.value());
      const auto night = paper::render_night(photograph, view.value(), threads_, [&](double share) {
        work->share = share;
        return !work->unwanted;
      });
      if (!night) return Error{ErrorCode::unavailable, "It was ended."};
      const job::View* named = find_view(order.job, order.wish.view);
      const paper::NightCaption caption = paper::night_caption(view.value(), named != nullptr ? named->name : "",
                                                               order.job.title, night->adaptation_cd_m2);
      {
        const std::lock_guard<std::mutex> lock(mutex_);
        work->standing.assumptions = view.value().assumptions;
        work->standing.remarks = view.value().remarks;
      }
      return pictures::encode_png(paper::night_sheet(*night, caption));
    }();
  } catch (const std::exception&) {
    // A fault of our own, or no memory: the message above says what a person needs to know.
  }
  finish(*work, std::move(made));
}

void NightDesk::finish(Work& work, Result<std::string> made) const {
  const std::lock_guard<std::mutex> lock(mutex_);
  if (made) {
    work.png = std::make_shared<const std::string>(std::move(made).value());
    work.standing.state = NightState::done;
  } else {
    work.standing.message = made.error().message;
    work.standing.state = NightState::failed;
  }
}

std::optional<NightStanding> NightDesk::standing(std::uint64_t number) const {
  const std::lock_guard<std::mutex> lock(mutex_);
  const auto found = works_.find(number);
  if (found == works_.end()) return std::nullopt;
  NightStanding standing = found->second->standing;
  standing.share = standing.state == NightState::done ? 1 : found->second->share.load();
  return standing;
}

std::shared_ptr<const std::string> NightDesk::picture(std::uint64_t number) const {
  const std::lock_guard<std::mutex> lock(mutex_);
  const auto found = works_.find(number);
  return found == works_.end() ? nullptr : found->second->png;
}

bool NightDesk::end(std::uint64_t number) {
  const std::lock_guard<std::mutex> lock(mutex_);
  const auto found = works_.find(number);
  if (found == works_.end()) return false;
  found->second->unwanted = true;
  // One at work stays listed until it has noticed, so that the next one does not run beside it.
  if (found->second->standing.state != NightState::working) works_.erase(found);
  return true;
}

}  // namespace duskwire::server
