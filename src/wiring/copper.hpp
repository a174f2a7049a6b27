// SPDX-License-Identifier: Apache-2.0
// Copper and taps: the thinnest cables of one output that keep every lamp in its window in the worst cases, let its
// protective device see a short at every end and carry their current. Thickens, cable by cable, what helps the lamp
// that is worst off most for its money, then takes back what turned out not to be needed.
#pragma once

#include <cstdint>
#include <vector>

#include "wiring/layout.hpp"

namespace duskwire::wiring {

// What feeds an output: of its unit, and which taps may be used.
struct Feed {
  double r_own_ohm = 0;
  double r_shared_ohm = 0;
  double siblings_a = 0;
  double limit_a = 25;  // no larger device than that
  double built_a = 0;   // the output's own limit as built; 0: none but the devices that can be fitted
  const std::vector<double>* taps_v = nullptr;
};

enum class Hindrance : std::uint8_t {
  nothing = 0,
  joint_place = 1,  // a joint would lie where none may
  joint_wires = 2,  // more wires, or sizes, than a connector takes
  tap = 3,          // even the lowest tap is too much for a lamp when mains are high
  current = 4,      // more than an output or the thickest cable carries
  low_volts = 5,    // too little at some lamp with the thickest cable
  far_short = 6,    // no device that carries the load sees a short at the far end
};

class Copper {
 public:
  Copper(const PlanProblem& problem, std::vector<bool> allowed);

  // Sizes every cable of the output in place and sets its record; the first hindrance where that cannot be done, and
  // then the record and the cables are as the attempt left them.
  Hindrance size(Layout& layout, std::uint32_t output, const Feed& feed);

  // The least volts over the floor that the last attempt reached, and the lamp it belongs to.
  [[nodiscard]] double least_room_v() const { return least_room_v_; }
  [[nodiscard]] std::uint32_t worst_lamp() const { return worst_lamp_; }

  // The lowest tap at which the cables as sized still do, written into the output's record.
  void lower_tap(Layout& layout, std::uint32_t output, const Feed& feed);

 private:
  struct Piece {  // a cable, in an order in which each follows the one it begins at
    std::uint32_t lay = 0;
    std::uint32_t parent = none;
    std::uint32_t spot = 0;
    double cut_m = 0;
    double contact_ohm = 0;  // loop
    double r_ohm = 0;        // loop, low corner
    double current_a = 0;
    double v = 0;
    std::uint32_t type = 0;
    std::uint32_t first_load = 0, last_load = 0;
  };
  struct Hang {  // a lamp
    std::uint32_t lamp = 0;
    double lead_ohm = 0;  // loop, low corner
    double current_a = 0;
    double v = 0;
  };

  Hindrance gather(const Layout& layout, std::uint32_t output);
  Hindrance price_joints(const Layout& layout);
  [[nodiscard]] double contact_of(const Layout& layout, const Spot& spot) const;
  void set_type(Piece& piece, std::uint32_t type);
  void settle(double emf_v, const Feed& feed);
  [[nodiscard]] double short_a(const Piece& piece, double emf_v, const Feed& feed, double beyond_ohm) const;
  [[nodiscard]] std::uint32_t thicker(std::uint32_t type) const;
  [[nodiscard]] std::uint32_t thinnest(double current_a, double device_a) const;
  [[nodiscard]] double device_for(double current_a, const Feed& feed) const;
  [[nodiscard]] double load_va(double tap_v, const Feed& feed) const;
  void find_worst();
  bool upgrade_towards(std::uint32_t piece, bool for_volts);
  // Raises the volts of everything beyond a piece by what a change of its resistance gives at the currents as they are.
  void shift_beyond(std::uint32_t piece, double gained_v);
  void find_rooms();
  Hindrance thicken(double emf_v, const Feed& feed, double device_a);
  void thin_again(double emf_v, const Feed& feed, double device_a);
  [[nodiscard]] std::uint32_t blind_end(double emf_v, const Feed& feed, double device_a) const;

  const PlanProblem& problem_;
  std::vector<bool> allowed_;
  std::vector<Piece> pieces_;
  std::vector<Hang> hangs_;
  std::vector<double> room_v_;  // by piece: least of the lamps at and beyond it
  std::vector<char> beyond_;
  std::vector<double> last_v_;             // by lamp: where the last solution left it, to start from
  std::vector<std::uint32_t> floor_type_;  // by piece: thinnest that current and device allow
  double joints_cost_ = 0;
  double ends_cost_ = 0;
  double output_a_ = 0;
  double least_room_v_ = 0;
  std::uint32_t worst_lamp_ = none;
  std::uint32_t worst_piece_ = none;
  bool thickened_ = false;
};

}  // namespace duskwire::wiring
