// SPDX-License-Identifier: Apache-2.0
// Lengths of one cable: the route as drawn or measured, and the loose cable left at each end. The sum is what is cut
// from the reel and what the current runs through.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <unordered_map>

#include "job/job.hpp"

namespace duskwire::estimate {

enum class EndKind : std::uint8_t { unknown = 0, output = 1, joint = 2, luminaire = 3 };

// What an id of the shared space names, and the index of it: of the transformer for an output.
struct EndPlace {
  EndKind kind = EndKind::unknown;
  std::size_t index = 0;
};

// Looks up cable ends of one job; the job must outlive it.
class EndIndex {
 public:
  explicit EndIndex(const job::Job& job);
  [[nodiscard]] EndPlace find(std::string_view id) const;

 private:
  std::unordered_map<std::string_view, EndPlace> places_;
};

struct CableLength {
  double route_m = 0;  // one way, without slack
  double slack_from_m = 0;
  double slack_to_m = 0;
  [[nodiscard]] double cut_m() const { return route_m + slack_from_m + slack_to_m; }
};

// length_m, or where absent the length of the path; empty where the job gives neither or it is not a length.
[[nodiscard]] std::optional<double> route_length_m(const job::Cable& cable);

// Slack at one end: the cable's own value, else at a luminaire that luminaire's own, else the practice by the kind of
// end; none at an end that the job does not know.
[[nodiscard]] double slack_at_from_m(const job::Job& job, const EndIndex& ends, const job::Cable& cable);
[[nodiscard]] double slack_at_to_m(const job::Job& job, const EndIndex& ends, const job::Cable& cable);

// Empty where route_length_m is.
[[nodiscard]] std::optional<CableLength> cable_length(const job::Job& job, const EndIndex& ends,
                                                      const job::Cable& cable);

}  // namespace duskwire::estimate
