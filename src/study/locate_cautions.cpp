// SPDX-License-Identifier: Apache-2.0
#include "study/locate_cautions.hpp"

namespace duskwire::study {

using diagnosis::Quantity;

std::vector<std::string> dig_cautions(const Site& site) {
  std::vector<std::string> cautions;
  if (site.spot.kind == SpotKind::transformer) {
    return {
        "Mains work belongs to a licensed electrician. A residual-current device that keeps tripping is a finding: "
        "never swap it for a plain outlet.",
        "Never fit a larger breaker, and never put two outputs or taps in parallel."};
  }
  if (!site.digging) return {"Switch off and unplug before the lamp is opened."};
  cautions.emplace_back(
      "Have public lines marked before any digging and wait for the marks. Private lines (gas, irrigation) are not "
      "marked: dig by hand.");
  cautions.emplace_back("Switch off and unplug before the joint is opened.");
  if (site.ground == job::GroundKind::root_zone) cautions.emplace_back("Do not cut roots below a crown.");
  if (site.ground == job::GroundKind::pool || site.ground == job::GroundKind::water) {
    cautions.emplace_back(
        "No ordinary splice, cable or transformer in the zone of a pool: stop and call an electrician.");
  }
  return cautions;
}

std::vector<std::string> reading_cautions(const diagnosis::Probe& probe) {
  switch (probe.quantity) {
    case Quantity::mains_v:
    case Quantity::input_va:
      return {
          "Mains: only with a meter and leads rated for it, at a dry outlet. Opening mains parts is an electrician's."};
    case Quantity::node_v:
    case Quantity::cable_end_v:
      return {
          "Live readings at dry, open points only. Use a test lamp or a low-impedance range: a plain meter shows "
          "ghost volts."};
    case Quantity::loop_ohm:
      return {
          "All off and the run lifted first. No insulation tester and no locator signal through drivers or the "
          "transformer: disconnect both."};
    case Quantity::output_a:
    case Quantity::cable_a:
    case Quantity::cable_net_a:
      return {"A warm cable or lug means stop: a far short may not trip its protection."};
    default:
      return {};
  }
}

std::vector<std::string> standing_cautions() {
  return {"Likelihoods are not certainty: dig here first, never the fault is here.",
          "Computed volts are estimates. The signed log of readings is the record.",
          "Low volts can still burn. Local code and a licensed electrician decide."};
}

std::vector<std::string> misfit_checks() {
  return {"Read again what is marked, at the point that is named, with all lamps on.",
          "Is the plan what lies in the ground? Look for lamps, runs and splices that it does not show.",
          "Is each run on the output and tap of the plan? Tug each cable at the lugs and read its tag.",
          "Lengths and gauge: look at the print on the jacket.",
          "Take the mains volts and the volts at each output with the lamps on.",
          "More than two faults at once: clear the surest one first and read anew."};
}

}  // namespace duskwire::study
