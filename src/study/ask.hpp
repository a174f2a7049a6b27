// SPDX-License-Identifier: Apache-2.0
// The verb `ask`: the quick question without a job. So many lamps of so many watts over this length of this cable from
// this tap: what does the last one see, and how far is it from the edge? One part may be left out and is then solved
// for on the same engine: how many lamps, how far, which tap, which cable.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "electrical/solution.hpp"
#include "job/catalogue.hpp"
#include "job/site.hpp"

namespace duskwire::study {

enum class Spread : std::uint8_t {
  chain = 0,  // lamps at even distances, the last at the end
  end = 1,    // all lamps at the end
  hub = 2,    // all lamps on leads of equal length from one hub at the end
  tee = 3,    // half the length to a tee, from there two arms of the other half with half of the lamps evenly on each
};

// What to ask for by leaving it out.
enum class Asked : std::uint8_t { nothing = 0, lamps = 1, length = 2, tap = 3, cable = 4 };

struct Question {
  std::optional<std::uint32_t> lamps;
  std::optional<double> length_m;  // along the cable from the tap to the farthest lamp (a hub: to the hub)
  std::optional<double> tap_v;
  std::optional<job::CableItem> cable;
  double lamp_w = 4;
  double power_factor = 1;  // VA = W / power factor
  Spread spread = Spread::chain;
  double source_ohm = 0;  // of the winding behind the tap
  // The widest window that LED fixtures of the trade are commonly sold with begins at 9 V (common practice, no source).
  double window_min_v = 9;  // also where regulation ends
  double window_max_v = 15;
  double cut_off_v = 6;            // dark below; no more than window_min_v
  double mains_tolerance_pct = 0;  // "holds" is judged at both ends of it
  double cable_c = 20;
  double lead_length_m = 4.5;                     // hub: each lamp's own lead ...
  double lead_ohm_per_m_20c = 0.00828551;         // ... of 14 AWG
  std::vector<double> taps_v = {12, 13, 14, 15};  // to choose from
  std::vector<job::CableItem> cables;             // to choose from
};

// One value that was tried for the part left out.
struct Tried {
  double value = 0;   // volts of the tap, or mm2 of the cable
  std::string name;   // of the cable
  double last_v = 0;  // nominal
  double worst_low_v = 0;
  double worst_high_v = 0;
  bool holds = false;
};

struct Answer {
  Asked asked = Asked::nothing;
  bool found = true;  // false: no value of the part asked for holds every lamp; the rest then describes the best try
  bool unbounded = false;   // the search stopped at its cap (lamps, length): more would still hold
  std::uint32_t lamps = 0;  // the question with its gap filled
  double length_m = 0;
  double tap_v = 0;
  job::CableItem cable;
  bool holds = false;      // every lamp inside the window and in regulation, over the mains tolerance
  double last_v = 0;       // farthest lamp, nominal
  double first_v = 0;      // nearest lamp, nominal
  double worst_low_v = 0;  // over all lamps and the mains tolerance
  double worst_high_v = 0;
  electrical::LampState last_state = electrical::LampState::off;
  double last_light = 0;  // share of full light
  double current_a = 0;
  double lamp_va = 0;
  double load_va = 0;      // at the terminals
  double load_margin = 0;  // factor to collapse; 0: a lamp is out of regulation already
  bool load_beyond_cap = false;
  double length_margin = 0;
  bool length_beyond_cap = false;
  double short_a = 0;        // bolted short at the far end
  std::vector<Tried> tried;  // taps or cables, ascending
  std::string sentence;      // the answer in words, metric or US as asked
};

inline constexpr std::uint32_t most_asked_lamps = 2000;
inline constexpr double most_asked_length_m = 3000;

// Errors: invalid where a number is out of range or where more than one part is left out.
[[nodiscard]] Result<Answer> ask(const Question& question, job::DisplayUnits units = job::DisplayUnits::metric);

}  // namespace duskwire::study
