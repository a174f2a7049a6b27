// SPDX-License-Identifier: Apache-2.0
// Pictures from outside are decoded in a process of their own, with little memory, little time and no way out: a fault
// in a decoder then ends that process alone. Linux only; whoever brings this to another system writes this pair anew.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "server/picture_codec.hpp"

namespace duskwire::server {

// The program started with one of these arguments is a worker: a picture on standard input, the clean one, or its
// elements no wider than the second argument says, on standard output. No commands for people, so no help page names
// them.
inline constexpr std::string_view clean_picture_argument = "clean-picture-from-standard-input";
inline constexpr std::string_view open_picture_argument = "open-picture-from-standard-input";

// The worker's own side: what main() returns, or nothing where the arguments are other ones.
std::optional<int> run_as_picture_worker(int argc, const char* const* argv);

class PictureWorker {
 public:
  // `program`: what to start. Empty: the program that is running.
  explicit PictureWorker(std::string program = "", std::chrono::milliseconds most_time = std::chrono::seconds(60))
      : program_(std::move(program)), most_time_(most_time) {}

  // As clean_picture(). Whatever becomes of the worker (crash, no memory, no end) is an error here: invalid; one that
  // cannot be started: unavailable. Calls may come from any thread.
  [[nodiscard]] Result<CleanPicture> clean(std::string_view bytes) const;
  // As open_picture(), with the same errors.
  [[nodiscard]] Result<OpenedPicture> open(std::string_view bytes, std::uint32_t most_width_px) const;
  [[nodiscard]] PictureTools tools() const;

 private:
  // What a worker with these arguments says about the picture.
  [[nodiscard]] Result<std::string> ask(const std::vector<std::string>& arguments, std::string_view bytes) const;

  std::string program_;
  std::chrono::milliseconds most_time_;
};

}  // namespace duskwire::server
