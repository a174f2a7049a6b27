// SPDX-License-Identifier: Apache-2.0
// The verb `advise`: which tap, which transformer, which protection, each with its reason and with what was rejected.
// How it is decided: docs/algorithms/advice.md.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "job/change.hpp"
#include "job/job.hpp"

namespace duskwire::study {

// One tap of one output, over nominal and every corner.
struct TapVerdict {
  double tap_v = 0;
  bool fits = false;     // every lamp inside its window and in regulation
  bool present = false;  // the job's own tap
  bool chosen = false;
  double lowest_v = 0;
  std::string lowest_lamp;
  std::string lowest_corner;  // in words
  double highest_v = 0;
  std::string highest_lamp;
  std::string highest_corner;
  double low_room_v = 0;  // least volts of any lamp over the least it should see; negative: below it
  std::string low_room_lamp;
  double high_room_v = 0;      // least volts of any lamp under the upper end of its own window
  std::string high_room_lamp;  // ... empty where no lamp has an upper end
  double current_a = 0;        // nominal
  double load_margin = 0;      // nominal, of the lamps of this output; 0: one is out of regulation
  double length_margin = 0;
  std::string reason;  // why rejected, or why it would do
};

struct TapAdvice {
  std::string output;
  std::string transformer;
  double present_tap_v = 0;
  std::optional<double> chosen_tap_v;  // absent: no tap of the item holds every lamp in its window
  std::vector<TapVerdict> taps;        // ascending
  std::string reason;                  // one sentence
  std::vector<job::Change> changes;    // empty where the present tap is the one
};

struct TransformerChoice {
  std::string item;
  std::string title;
  double rating_va = 0;
  std::uint32_t output_count = 0;
  std::int64_t price_minor = 0;
  bool fits = false;
  bool present = false;
  bool chosen = false;
  std::string reason;  // why refused, or why it would do
};

// What a transformer has to feed.
struct TransformerNeed {
  std::uint32_t lamp_count = 0;
  double lamp_w = 0;
  double lamp_va = 0;
  double load_va = 0;              // at the taps in the worst corner, cable losses included; 0: not known
  std::uint32_t output_count = 1;  // outputs that are in use
  std::vector<double> taps_v;      // taps in use
  double load_share = 0.8;         // highest share of the rating to be used
  double output_load_share = 0.8;  // of each output's limit
  bool outdoors = true;
};

struct TransformerAdvice {
  std::string transformer;  // id in the job; empty where a need was asked about
  std::string present_item;
  TransformerNeed need;
  double needed_va = 0;                    // rating that carries the load with its headroom
  std::string chosen_item;                 // empty: none offered does
  std::uint32_t needed_outputs = 0;        // of the chosen item
  std::vector<TransformerChoice> choices;  // by rating, then price
  std::string reason;                      // one or two sentences, in VA
  std::vector<job::Change> changes;
};

// Sizes a transformer by VA and headroom out of `items`; watts never decide.
[[nodiscard]] TransformerAdvice size_transformer(const TransformerNeed& need,
                                                 const std::vector<job::TransformerItem>& items);

struct ProtectionAdvice {
  std::string output;
  double limit_a = 0;          // of the protective device as it is; 0: none
  double worst_current_a = 0;  // that it has to carry
  double far_short_a = 0;      // that it has to see: the least bolted short on this output
  std::string far_short_at;    // joint or luminaire id
  bool trips = false;
  std::optional<double> suggested_limit_a;  // a smaller device that carries the load and sees the far short
  std::string reason;
  std::vector<job::Change> changes;
};

struct Advice {
  std::vector<TapAdvice> taps;  // per output with lamps
  std::vector<TransformerAdvice> transformers;
  std::vector<ProtectionAdvice> protection;  // per output with cables
};

// Never fails: what cannot be solved has no chosen tap and says why. `stock` supplies transformers to choose from.
[[nodiscard]] Advice advise(const job::Job& job, const job::Catalogue& stock);

}  // namespace duskwire::study
