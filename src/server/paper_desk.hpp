// SPDX-License-Identifier: Apache-2.0
// Papers made in the background: one set at a time, asked after and ended by number. The last finished sets are kept
// until newer ones come.
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
#include "server/papers.hpp"

namespace duskwire::server {

enum class PapersState : std::uint8_t { working = 0, done = 1, failed = 2 };

// Never changed once it is there.
struct PaperSet {
  std::vector<MadeFile> files;
  std::string date;
};

struct PapersStanding {
  PapersState state = PapersState::working;
  double share = 0;     // done of the whole, 0 to 1
  std::string message;  // of a failure
  std::shared_ptr<const PaperSet> set;
};

class PaperDesk {
 public:
  PaperDesk() = default;
  // Ends what is at work and waits for it.
  ~PaperDesk();
  PaperDesk(const PaperDesk&) = delete;
  PaperDesk& operator=(const PaperDesk&) = delete;

  // The number of the new set. Conflict where one is at work already.
  Result<std::uint64_t> begin(PapersOrder order);
  [[nodiscard]] std::optional<PapersStanding> standing(std::uint64_t number) const;
  // Ends it, or forgets what it made. False where there is none.
  bool end(std::uint64_t number);

 private:
  struct Work {
    std::atomic<double> share{0};
    std::atomic<bool> unwanted{false};
    PapersStanding standing;
  };
  void make(const std::shared_ptr<Work>& work, const PapersOrder& order) const;

  mutable std::mutex mutex_;
  std::map<std::uint64_t, std::shared_ptr<Work>> works_;
  std::uint64_t last_number_ = 0;
  std::thread maker_;
};

}  // namespace duskwire::server
