// SPDX-License-Identifier: Apache-2.0
// Work in the background: one order at a time, asked after and ended by number. The last few things made are kept until
// newer ones come. Calls may come from any thread.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <cstdint>
#include <exception>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <utility>

#include "base/result.hpp"

namespace duskwire::server {

enum class DeskState : std::uint8_t { working = 0, done = 1, failed = 2 };

template <class Made>
struct DeskStanding {
  DeskState state = DeskState::working;
  double share = 0;                  // done of the whole, 0 to 1
  std::string message;               // of a failure
  std::shared_ptr<const Made> made;  // once it is done; never changed after that
};

// Told how much is done, 0 to 1; false ends the work.
using DeskProgress = std::function<bool(double share)>;

// What a person reads where there is nothing to fetch.
struct DeskWords {
  const char* busy;   // another order is at work
  const char* fault;  // a fault of our own, or no memory
};

template <class Order, class Made>
class Desk {
 public:
  using Making = std::function<Result<Made>(const Order& order, const DeskProgress& progress)>;

  Desk(DeskWords words, Making making) : words_(words), making_(std::move(making)) {}
  // Ends what is at work and waits for it.
  ~Desk() {
    {
      const std::lock_guard<std::mutex> lock(mutex_);
      for (const auto& [number, work] : works_) work->unwanted = true;
    }
    if (maker_.joinable()) maker_.join();
  }
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;

  // The number of the new work. Conflict where one is at work already.
  Result<std::uint64_t> begin(Order order) {
    const std::lock_guard<std::mutex> lock(mutex_);
    const bool busy = std::any_of(works_.begin(), works_.end(),
                                  [](const auto& entry) { return entry.second->standing.state == DeskState::working; });
    if (busy) return Error{ErrorCode::conflict, words_.busy};
    // Its work has said that it is over: the wait is short.
    if (maker_.joinable()) maker_.join();
    while (works_.size() >= most_kept) works_.erase(works_.begin());
    auto work = std::make_shared<Work>();
    works_[++last_number_] = work;
    maker_ = std::thread([this, work, order = std::move(order)] { make(*work, order); });
    return last_number_;
  }

  [[nodiscard]] std::optional<DeskStanding<Made>> standing(std::uint64_t number) const {
    const std::lock_guard<std::mutex> lock(mutex_);
    const auto found = works_.find(number);
    if (found == works_.end()) return std::nullopt;
    DeskStanding<Made> standing = found->second->standing;
    standing.share = standing.state == DeskState::done ? 1 : found->second->share.load();
    return standing;
  }

  // Ends it, or forgets what it made. False where there is none.
  bool end(std::uint64_t number) {
    const std::lock_guard<std::mutex> lock(mutex_);
    const auto found = works_.find(number);
    if (found == works_.end()) return false;
    found->second->unwanted = true;
    // One at work stays listed until it has noticed, so that the next one does not run beside it.
    if (found->second->standing.state != DeskState::working) works_.erase(found);
    return true;
  }

 private:
  // Some megabytes each.
  static constexpr std::size_t most_kept = 4;

  struct Work {
    std::atomic<double> share{0};
    std::atomic<bool> unwanted{false};
    DeskStanding<Made> standing;
  };

  void make(Work& work, const Order& order) const {
    Result<Made> made = Error{ErrorCode::unavailable, words_.fault};
    try {
      made = making_(order, [&work](double share) {
        work.share = share;
        return !work.unwanted;
      });
    } catch (const std::exception&) {
      // The message above says what a person needs to know.
    }
    const std::lock_guard<std::mutex> lock(mutex_);
    // It may have been ended after it was asked for the last time.
    if (made && work.unwanted) made = Error{ErrorCode::unavailable, "It was ended."};
    if (made) {
      work.standing.made = std::make_shared<const Made>(std::move(made).value());
      work.standing.state = DeskState::done;
    } else {
      work.standing.message = made.error().message;
      work.standing.state = DeskState::failed;
    }
  }

  DeskWords words_;
  Making making_;
  mutable std::mutex mutex_;
  std::map<std::uint64_t, std::shared_ptr<Work>> works_;
  std::uint64_t last_number_ = 0;
  std::thread maker_;
};

}  // namespace duskwire::server
