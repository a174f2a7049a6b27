// SPDX-License-Identifier: Apache-2.0
#include "study/first_look.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "study/client_note.hpp"
#include "study/price_band.hpp"

namespace duskwire::study {
namespace {

// Trees below this take two small uplights, taller ones three to five (common practice).
constexpr double small_tree_m = 6;
constexpr double tall_tree_m = 15;

// What a feature takes; counts are estimates for a house of usual size.
struct HabitOfTrade {
  const char* name;
  const char* technique;
  std::uint32_t lamps_low;
  std::uint32_t lamps_high;
};

HabitOfTrade practice_of(Feature feature) {
  switch (feature) {
    case Feature::steps:
      return {"steps", "a shielded light low at the side of every second or third riser, none that is looked into", 2,
              4};
    case Feature::walk:
      return {"walk", "pools of light that nearly touch, staggered, one at each turn", 4, 8};
    case Feature::door:
      return {"door", "soft light on the door and on faces, from above and from the side", 1, 2};
    case Feature::tree:
      return {"tree", "uplights that show trunk and crown, on the side that is looked at", 2, 3};
    case Feature::wall:
      return {"wall", "a wash from the bed, with dark between", 2, 5};
    case Feature::terrace:
      return {"terrace", "low light at the edge, and a soft one from above where there is a tree or a roof", 3, 6};
    case Feature::water:
      return {"water", "light on what stands behind the water, so that it mirrors", 1, 3};
    default:
      return {"planting", "a few low accents, not a row", 2, 4};
  }
}

// Safety first, then what is loved, then the rest as the note has it.
std::uint32_t urgency(const NotedFeature& noted) {
  const bool is_way = noted.feature == Feature::steps || noted.feature == Feature::walk;
  if (noted.feeling == Feeling::fear) return is_way ? 0 : 1;
  return noted.feeling == Feeling::love ? 2 : 3;
}

std::string reason_of(const NotedFeature& noted) {
  switch (noted.feeling) {
    case Feeling::fear:
      return fmt::format("Safety comes first: \"{}\"", noted.words);
    case Feeling::love:
      return fmt::format("The focal point: \"{}\"", noted.words);
    default:
      return fmt::format("Named: \"{}\"", noted.words);
  }
}

double tallest_tree_m(const FirstLook& look) {
  double height_m = 0;
  for (const SizeEstimate& size : look.sizes) {
    const ClientNote named = read_note(size.name);
    const bool is_tree = std::any_of(named.features.begin(), named.features.end(),
                                     [](const NotedFeature& each) { return each.feature == Feature::tree; });
    if (is_tree) height_m = std::max(height_m, size.size_m);
  }
  return height_m;
}

void add_sizes(FirstLook& out, const FirstLookRequest& request) {
  const double m_per_px = request.known_m / request.known.size_px;
  // Each size is the difference of two marks.
  const double mark_px = std::sqrt(2.0) * request.click_error_px;
  for (const SeenThing& thing : request.things) {
    const double share =
        std::hypot(std::hypot(mark_px / request.known.size_px, mark_px / thing.size_px), request.depth_error_share);
    const double size_m = m_per_px * thing.size_px;
    out.sizes.push_back({thing.name, size_m, share * size_m, share});
  }
}

void add_effects(FirstLook& out, const ClientNote& note) {
  std::vector<NotedFeature> features = note.features;
  std::stable_sort(features.begin(), features.end(),
                   [](const NotedFeature& a, const NotedFeature& b) { return urgency(a) < urgency(b); });
  const double tree_m = tallest_tree_m(out);
  for (const NotedFeature& noted : features) {
    HabitOfTrade practice = practice_of(noted.feature);
    if (noted.feature == Feature::tree && tree_m > 0) {
      practice.lamps_high = tree_m < small_tree_m ? 2 : tree_m < tall_tree_m ? 3 : 5;
      if (tree_m >= tall_tree_m) practice.lamps_low = 3;
    }
    out.effects.push_back({static_cast<std::uint32_t>(out.effects.size() + 1), practice.name, reason_of(noted),
                           practice.technique, practice.lamps_low, practice.lamps_high});
  }
}

void add_asks(FirstLook& out, const FirstLookRequest& request, const ClientNote& note) {
  if (!request.outlet_known) {
    out.asks.emplace_back(
        "Where is an outlet outdoors, and is it protected against residual current? A photograph of it.");
  }
  const bool names_water = std::any_of(note.features.begin(), note.features.end(),
                                       [](const NotedFeature& each) { return each.feature == Feature::water; });
  if (!request.water_known) {
    out.asks.emplace_back(names_water ? "How far is the water from the lights, and is it swum in?"
                                      : "Is there a pool or a pond, yes or no?");
  }
  if (!request.night_photo_seen) {
    out.asks.emplace_back("A photograph after dark from the same place, with the lights in the house on.");
  }
  if (note.features.empty()) out.asks.emplace_back("What should be seen at night, and where is it too dark?");
  if (request.depth_error_share > 0.05 && !request.things.empty()) {
    out.asks.push_back(fmt::format(
        "How far in front of or behind the {} is each measured thing? Then the sizes are surer than {:.0f} %.",
        request.known.name, 100 * request.depth_error_share));
  }
}

void add_price(FirstLook& out) {
  std::uint32_t low = 0;
  std::uint32_t high = 0;
  for (const Effect& effect : out.effects) {
    low += effect.lamps_low;
    high += effect.lamps_high;
  }
  out.price_low_minor = low * light_low_minor;
  out.price_high_minor = high * light_high_minor;
  out.price_basis = fmt::format(
      "{} to {} lights at 150 to 400 USD each, put in. An estimate from quotes seen in public: a price comes "
      "after the walk, and rock, roots and drive crossings raise it.",
      low, high);
}

}  // namespace

Result<FirstLook> first_look(const FirstLookRequest& request) {
  if (!(request.known_m > 0) || !(request.known.size_px > 0)) {
    return Error{ErrorCode::invalid,
                 "A known size takes a length in the garden and its length on the photograph, both above 0: a door is "
                 "mostly 2.03 m high."};
  }
  for (const SeenThing& thing : request.things) {
    if (thing.size_px > 0) continue;
    return Error{ErrorCode::invalid,
                 fmt::format("\"{}\" has no length on the photograph: measure it in px, above 0.", thing.name)};
  }
  FirstLook out;
  const ClientNote note = read_note(request.note);
  add_sizes(out, request);
  add_effects(out, note);
  for (const std::string& eye : note.eyes) out.eyes.push_back({eye, "No bare lamp may be seen from there"});
  add_asks(out, request, note);
  add_price(out);
  return out;
}

}  // namespace duskwire::study
