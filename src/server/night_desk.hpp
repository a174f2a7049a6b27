// SPDX-License-Identifier: Apache-2.0
// Night pictures at full size, made in the background: one at a time, asked after and ended by number. The last few
// finished ones are kept until they are fetched or newer ones come.
#pragma once

#include <atomic>
#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "base/result.hpp"
#include "job/job.hpp"
#include "study/night_session.hpp"

namespace duskwire::server {

struct NightOrder {
  job::Job job;
  study::NightWish wish;
  std::string photograph;  // the file's bytes
};

enum class NightState : std::uint8_t { working = 0, done = 1, failed = 2 };

struct NightStanding {
  NightState state = NightState::working;
  double share = 0;     // done of the whole, 0 to 1
  std::string message;  // of a failure
  std::vector<std::string> assumptions;
  std::vector<std::string> remarks;
};

class NightDesk {
 public:
  explicit NightDesk(unsigned threads);
  // Ends what is at work and waits for it.
  ~NightDesk();
  NightDesk(const NightDesk&) = delete;
  NightDesk& operator=(const NightDesk&) = delete;

  // The number of the new picture. Conflict where one is at work already.
  Result<std::uint64_t> begin(NightOrder order);
  [[nodiscard]] std::optional<NightStanding> standing(std::uint64_t number) const;
  // PNG with its caption; null where it is not done.
  [[nodiscard]] std::shared_ptr<const std::string> picture(std::uint64_t number) const;
  // Ends it, or forgets what it made. False where there is none.
  bool end(std::uint64_t number);

 private:
  struct Work {
    std::atomic<double> share{0};
    std::atomic<bool> unwanted{false};
    NightStanding standing;
    std::shared_ptr<const std::string> png;
  };
  void make(const std::shared_ptr<Work>& work, const NightOrder& order) const;
  void finish(Work& work, Result<std::string> made) const;

  unsigned threads_;
  mutable std::mutex mutex_;
  std::map<std::uint64_t, std::shared_ptr<Work>> works_;
  std::uint64_t last_number_ = 0;
  std::thread maker_;
};

}  // namespace duskwire::server
