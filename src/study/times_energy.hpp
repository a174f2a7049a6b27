// SPDX-License-Identifier: Apache-2.0
// What a year of switching burns and takes from the mains, by lamp and by transformer, and the same light by LED and by
// halogen. Internal to the room.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "almanac/burn.hpp"
#include "job/job.hpp"
#include "study/times.hpp"
#include "study/times_programme.hpp"

namespace duskwire::study {

// The lamps' powers and the losses of their supplies, from the wiring as it is, all lamps on.
struct Powers {
  std::vector<std::uint32_t> transformer_of;  // by luminaire; no_transformer: it hangs on none
  std::vector<double> lamp_w;                 // by luminaire, with its own dimming
  std::vector<almanac::Supply> supplies;      // by transformer; the last one stands for none
};

[[nodiscard]] Powers powers_of(const job::Job& job);

// All lamps that the same entries light from the same supply burn alike.
class YearBurn {
 public:
  YearBurn(const job::Job& job, const Powers& powers, const TimedProgramme& programme);

  // Of a stretch of days: hours with any light, and what each supply takes.
  struct Sum {
    double hours = 0;
    std::vector<almanac::Use> supplies;  // as Powers::supplies
    [[nodiscard]] almanac::Use total() const;
  };
  [[nodiscard]] Sum sum(const std::vector<almanac::DayTimes>& days, const almanac::Tariff& tariff,
                        const almanac::Zone& zone) const;

  [[nodiscard]] std::vector<LampBurn> lamps(const std::vector<almanac::DayTimes>& days) const;

 private:
  struct Group {
    std::vector<std::uint32_t> rules;
    std::uint32_t supply = 0;
    double power_w = 0;
    std::vector<std::uint32_t> lamps;
  };

  const job::Job& job_;
  const Powers& powers_;
  const TimedProgramme& programme_;
  std::vector<Group> groups_;
};

// Nothing where no lamp's light is known. `burns` by luminaire.
[[nodiscard]] std::optional<Retrofit> retrofit_of(const job::Job& job, const job::Catalogue& stock,
                                                  const std::vector<LampBurn>& burns,
                                                  const std::optional<almanac::Tariff>& tariff);

}  // namespace duskwire::study
