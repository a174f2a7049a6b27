// SPDX-License-Identifier: Apache-2.0
// Pictures from outside are decoded in a process of their own, with little memory, little time and no way out: a fault
// in a decoder then ends that process alone. Linux only; whoever brings this to another system writes this pair anew.
#pragma once

#include <chrono>
#include <cstddef>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "server/picture_codec.hpp"

namespace duskwire::server {

// The program started with this one argument is a worker: a picture on standard input, the clean one on standard
// output. Not a command for people, so no help page names it.
inline constexpr std::string_view picture_worker_argument = "clean-picture-from-standard-input";

// The worker's own side; what main() returns.
int run_picture_worker();

class PictureWorker {
 public:
  // `program`: what to start. Empty: the program that is running.
  explicit PictureWorker(std::string program = "", std::chrono::milliseconds most_time = std::chrono::seconds(60))
      : program_(std::move(program)), most_time_(most_time) {}

  // As clean_picture(). Whatever becomes of the worker (crash, no memory, no end) is an error here: invalid; one that
  // cannot be started: unavailable. Calls may come from any thread.
  [[nodiscard]] Result<CleanPicture> operator()(std::string_view bytes) const;

 private:
  std::string program_;
  std::chrono::milliseconds most_time_;
};

}  // namespace duskwire::server
