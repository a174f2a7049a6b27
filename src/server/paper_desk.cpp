// SPDX-License-Identifier: Apache-2.0
#include "server/paper_desk.hpp"

#include <algorithm>
#include <exception>
#include <utility>

namespace duskwire::server {
namespace {

// A set is some megabytes.
constexpr std::size_t most_kept = 4;

}  // namespace

PaperDesk::~PaperDesk() {
  {
    const std::lock_guard<std::mutex> lock(mutex_);
    for (const auto& [number, work] : works_) work->unwanted = true;
  }
  if (maker_.joinable()) maker_.join();
}

Result<std::uint64_t> PaperDesk::begin(PapersOrder order) {
  const std::lock_guard<std::mutex> lock(mutex_);
  const bool busy = std::any_of(works_.begin(), works_.end(),
                                [](const auto& entry) { return entry.second->standing.state == PapersState::working; });
  if (busy) {
    return Error{ErrorCode::conflict, "Papers are being made already: wait until they are done, or end them first."};
  }
  // Its work has said that it is over: the wait is short.
  if (maker_.joinable()) maker_.join();
  while (works_.size() >= most_kept) works_.erase(works_.begin());
  auto work = std::make_shared<Work>();
  works_[++last_number_] = work;
  maker_ = std::thread([this, work, order = std::move(order)] { make(work, order); });
  return last_number_;
}

void PaperDesk::make(const std::shared_ptr<Work>& work, const PapersOrder& order) const {
  Result<std::vector<MadeFile>> made = Error{ErrorCode::unavailable, "The papers could not be made."};
  try {
    made = make_papers(order, [&](double share) {
      work->share = share;
      return !work->unwanted;
    });
  } catch (const std::exception&) {
    // A fault of our own, or no memory: the message above says what a person needs to know.
  }
  const std::lock_guard<std::mutex> lock(mutex_);
  if (made) {
    work->standing.set = std::make_shared<const PaperSet>(PaperSet{std::move(made).value(), order.wish.date});
    work->standing.state = PapersState::done;
  } else {
    work->standing.message = made.error().message;
    work->standing.state = PapersState::failed;
  }
}

std::optional<PapersStanding> PaperDesk::standing(std::uint64_t number) const {
  const std::lock_guard<std::mutex> lock(mutex_);
  const auto found = works_.find(number);
  if (found == works_.end()) return std::nullopt;
  PapersStanding standing = found->second->standing;
  standing.share = standing.state == PapersState::done ? 1 : found->second->share.load();
  return standing;
}

bool PaperDesk::end(std::uint64_t number) {
  const std::lock_guard<std::mutex> lock(mutex_);
  const auto found = works_.find(number);
  if (found == works_.end()) return false;
  found->second->unwanted = true;
  // One at work stays listed until it has noticed, so that the next one does not run beside it.
  if (found->second->standing.state != PapersState::working) works_.erase(found);
  return true;
}

}  // namespace duskwire::server
