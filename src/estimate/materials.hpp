// SPDX-License-Identifier: Apache-2.0
// The list of materials of a job: what to buy, how to cut the cable, what each joint takes, how many minutes the
// catalogue allows for it. Estimates for an order, from the job alone: nothing here depends on volts.
// Method and the figures that are common practice: docs/algorithms/materials.md.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "job/job.hpp"

namespace duskwire::estimate {

// In the order of the list.
enum class Category : std::uint8_t {
  luminaire = 0,
  transformer = 1,
  control = 2,
  cable = 3,
  connector = 4,
  mount = 5,   // stakes, tree and post mounts, drainage
  sundry = 6,  // staples, sleeves, tags
};
[[nodiscard]] std::string_view category_name(Category category);

// One item to buy. Exactly quantity x unit price, rounded half up to a minor unit once.
struct MaterialLine {
  Category category = Category::luminaire;
  std::string item;  // id in the catalogue
  std::string title;
  double quantity = 0;                // pieces, or metres as sold
  std::string unit;                   // "piece" or "m"
  std::int64_t unit_price_minor = 0;  // 0 with a note where the catalogue is in another currency
  std::int64_t price_minor = 0;
  double labour_min = 0;  // cable: along its route; all others: per piece (or metre)
  std::string note;       // what it is for
};

// One type of cable, as summed before it becomes a line.
struct CableTotal {
  std::string item;
  std::string title;
  std::uint32_t cuts = 0;
  double route_m = 0;       // as drawn
  double slack_m = 0;       // both ends of every cut
  double cut_m = 0;         // route + slack
  double with_waste_m = 0;  // cut + waste of the practice
  double bought_m = 0;      // rounded up to what is sold
};

// A length as bought. An item that is sold by the metre step comes as one reel.
struct Reel {
  std::string item;
  std::uint32_t number = 1;  // within the item
  double length_m = 0;
  double used_m = 0;  // sum of its cuts, without waste
};

// One line of the cutter's list.
struct Cut {
  std::string tag;  // the cable's id: what is written on both ends
  std::string item;
  std::string from;       // id of the end
  std::string from_name;  // its name for the crew, else its id
  std::string to;
  std::string to_name;
  double route_m = 0;
  double slack_from_m = 0;
  double slack_to_m = 0;
  double cut_m = 0;
  std::uint32_t reel = 1;  // Reel::number of the same item
  double running_m = 0;    // cut from that reel so far, this cut included
};

// What one joint takes.
struct Splice {
  std::string joint;
  std::string name;
  std::optional<job::JointKind> kind;  // as the wires make it, whatever the job calls it; empty: fewer than two wires
  std::uint32_t wires_per_conductor = 0;
  std::string connector;     // item; empty: none chosen and none fits
  bool suggested = false;    // the job names none: the cheapest that is sealed, held and fits
  bool fits = false;         // all wires of a conductor fit, with pigtails where there is more than one piece
  std::uint32_t pieces = 0;  // for both conductors together
  std::uint32_t pieces_per_conductor = 0;
  std::uint32_t spare_ports = 0;  // wires of the largest size that would still go in, per conductor
  std::string note;
};

struct Materials {
  std::string currency;             // of the site
  std::vector<MaterialLine> lines;  // by category, then item id
  std::vector<CableTotal> cables;   // by item id
  std::vector<Reel> reels;          // by item id, then number
  std::vector<Cut> cuts;            // by item id, longest first, then tag
  std::vector<Splice> splices;      // in the order of the job's joints
  std::int64_t price_minor = 0;     // sum of the lines
  double labour_min = 0;            // sum of the lines
  Problems problems;                // what could not be counted, or only in part
};

// Lengths in which an item is sold, where it is not sold by the step. Any number of each can be had.
struct CoilSizes {
  std::string item;
  std::vector<double> lengths_m;
};

struct MaterialsOptions {
  std::vector<CoilSizes> coils;
  std::vector<std::string> laid_sleeves;  // ids of sleeves of the plan that are in the ground: not bought
};

// Never fails: what is wrong with the job stands in `problems`. Items come from the job's own catalogue, else from
// `stock`; sundries are the cheapest of their kind there.
[[nodiscard]] Materials materials(const job::Job& job, const job::Catalogue& stock,
                                  const MaterialsOptions& options = {});

}  // namespace duskwire::estimate
