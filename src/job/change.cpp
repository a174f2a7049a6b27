// SPDX-License-Identifier: Apache-2.0
// apply(): each kind of change is one small function on a copy of the job; the first that cannot be done ends it.
#include "job/change.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace duskwire::job {
namespace {

using Failure = std::optional<Error>;

constexpr double largest = 1e9;
constexpr double most_pieces = 1000;

template <class Thing>
Thing* find(std::vector<Thing>& things, const std::string& id) {
  const auto found = std::find_if(things.begin(), things.end(), [&](const Thing& thing) { return thing.id == id; });
  return found == things.end() ? nullptr : &*found;
}

Error not_found(const char* what, const std::string& id) {
  return {ErrorCode::not_found, std::string("There is no ") + what + " \"" + id + "\" in the job to change."};
}

Error invalid(const Change& change, const std::string& expected) {
  return {ErrorCode::invalid, "The change of \"" + change.target + "\" needs " + expected + "."};
}

// The item is in the job's own catalogue, or is copied there from the stock.
template <class Item>
Failure have_item(std::vector<Item>& own, const std::vector<Item>& stock, const std::string& id) {
  if (find(own, id) != nullptr) return {};
  const auto found = std::find_if(stock.begin(), stock.end(), [&](const Item& item) { return item.id == id; });
  if (found == stock.end()) {
    return Error{ErrorCode::not_found, "Neither the job's catalogue nor the stock has an item \"" + id + "\"."};
  }
  own.push_back(*found);
  return {};
}

double nearest_tap(const std::vector<double>& taps_v, double wanted_v) {
  if (taps_v.empty()) return wanted_v;
  return *std::min_element(taps_v.begin(), taps_v.end(),
                           [&](double p, double q) { return std::abs(p - wanted_v) < std::abs(q - wanted_v); });
}

class Applier {
 public:
  Applier(Job job, const Catalogue& stock) : job_(std::move(job)), stock_(stock) {}

  Failure apply(const Change& change) {
    using Step = Failure (Applier::*)(const Change&);
    // In the order of ChangeKind.
    static constexpr std::array<Step, 17> steps{
        &Applier::set_tap,         &Applier::set_cable_item,      &Applier::move_cable_end,
        &Applier::set_transformer, &Applier::set_connector,       &Applier::set_connector_count,
        &Applier::set_depth,       &Applier::set_slack,           &Applier::set_luminaire_item,
        &Applier::move_to_joint,   &Applier::add_cable,           &Applier::remove_cable,
        &Applier::set_limit,       &Applier::set_mounting_height, &Applier::set_extension_cord,
        &Applier::set_joint_kind,  &Applier::set_crossed};
    const auto kind = static_cast<std::size_t>(change.kind);
    if (kind >= steps.size()) return invalid(change, "a kind that this version knows");
    return (this->*steps[kind])(change);
  }

  Job take() { return std::move(job_); }

 private:
  static bool is_between(double value, double min, double max) { return value >= min && value <= max; }
  static bool is_flag(double value) { return value == 0 || value == 1; }

  Output* find_output(const std::string& id) {
    for (Transformer& transformer : job_.transformers) {
      if (Output* output = find(transformer.outputs, id)) return output;
    }
    return nullptr;
  }

  bool is_cable_end(const std::string& id) {
    return find_output(id) || find(job_.joints, id) || find(job_.luminaires, id);
  }

  std::optional<geometry::Point2> position_of(const std::string& id) {
    if (const Joint* joint = find(job_.joints, id)) return joint->position;
    if (const Luminaire* lamp = find(job_.luminaires, id); lamp && lamp->position) {
      return geometry::Point2{lamp->position->x_m, lamp->position->y_m};
    }
    for (Transformer& transformer : job_.transformers) {
      if (find(transformer.outputs, id)) return transformer.position;
    }
    return {};
  }

  Failure set_tap(const Change& change) {
    Output* output = find_output(change.target);
    if (!output) return not_found("output", change.target);
    if (!(change.number > 0 && change.number <= largest)) return invalid(change, "a tap above 0 V");
    output->tap_v = change.number;
    return {};
  }

  Failure set_cable_item(const Change& change) {
    Cable* cable = find(job_.cables, change.target);
    if (!cable) return not_found("cable", change.target);
    if (Failure failure = have_item(job_.catalogue.cables, stock_.cables, change.text)) return failure;
    cable->item = change.text;
    return {};
  }

  Failure move_cable_end(const Change& change) {
    Cable* cable = find(job_.cables, change.target);
    if (!cable) return not_found("cable", change.target);
    if (!is_cable_end(change.other)) return not_found("output, joint or luminaire", change.other);
    if (change.text != "from" && change.text != "to") return invalid(change, "an end, \"from\" or \"to\"");
    const bool is_from = change.text == "from";
    if (change.other == (is_from ? cable->to : cable->from)) return invalid(change, "two different ends");
    (is_from ? cable->from : cable->to) = change.other;
    const std::optional<geometry::Point2> position = position_of(change.other);
    if (position && !cable->path.empty()) (is_from ? cable->path.front() : cable->path.back()) = *position;
    return {};
  }

  Failure set_transformer(const Change& change) {
    Transformer* transformer = find(job_.transformers, change.target);
    if (!transformer) return not_found("transformer", change.target);
    if (Failure failure = have_item(job_.catalogue.transformers, stock_.transformers, change.text)) return failure;
    transformer->item = change.text;
    fit_outputs(*transformer, *find(job_.catalogue.transformers, change.text));
    return {};
  }

  // Present outputs stay, on the nearest tap that the item has; the item's further outputs are added behind them.
  void fit_outputs(Transformer& transformer, const TransformerItem& item) {
    for (Output& output : transformer.outputs) output.tap_v = nearest_tap(item.taps_v, output.tap_v);
    while (transformer.outputs.size() < item.output_count) {
      Output added;
      added.id = free_output_id(transformer);
      added.tap_v = transformer.outputs.empty() ? nearest_tap(item.taps_v, 0) : transformer.outputs.front().tap_v;
      transformer.outputs.push_back(std::move(added));
    }
  }

  // "T1-B" for the second output of T1, or the next letter that is free.
  std::string free_output_id(const Transformer& transformer) {
    for (std::size_t i = transformer.outputs.size();; ++i) {
      const std::string tail = i < 26 ? std::string(1, static_cast<char>('A' + i)) : std::to_string(i + 1);
      std::string id = transformer.id + "-" + tail;
      if (!is_cable_end(id)) return id;
    }
  }

  Failure set_connector(const Change& change) {
    Joint* joint = find(job_.joints, change.target);
    if (!joint) return not_found("joint", change.target);
    if (Failure failure = have_item(job_.catalogue.connectors, stock_.connectors, change.text)) return failure;
    joint->connector = change.text;
    return {};
  }

  Failure set_connector_count(const Change& change) {
    Joint* joint = find(job_.joints, change.target);
    if (!joint) return not_found("joint", change.target);
    const bool fits = is_between(change.number, 0, most_pieces) && change.number == std::floor(change.number);
    if (!fits) return invalid(change, "a whole number of pieces");
    joint->connector_count = static_cast<std::uint32_t>(change.number);
    return {};
  }

  Failure set_depth(const Change& change) {
    Cable* cable = find(job_.cables, change.target);
    if (!cable) return not_found("cable", change.target);
    if (!is_between(change.number, 0, largest)) return invalid(change, "a depth of 0 m or more");
    cable->depth_m = change.number;
    return {};
  }

  Failure set_slack(const Change& change) {
    Cable* cable = find(job_.cables, change.target);
    if (!cable) return not_found("cable", change.target);
    if (change.text != "from" && change.text != "to") return invalid(change, "an end, \"from\" or \"to\"");
    if (!is_between(change.number, 0, largest)) return invalid(change, "a slack of 0 m or more");
    (change.text == "from" ? cable->slack_from_m : cable->slack_to_m) = change.number;
    return {};
  }

  Failure set_luminaire_item(const Change& change) {
    Luminaire* lamp = find(job_.luminaires, change.target);
    if (!lamp) return not_found("luminaire", change.target);
    if (Failure failure = have_item(job_.catalogue.luminaires, stock_.luminaires, change.text)) return failure;
    lamp->item = change.text;
    return {};
  }

  Failure move_to_joint(const Change& change) {
    Luminaire* lamp = find(job_.luminaires, change.target);
    if (!lamp) return not_found("luminaire", change.target);
    if (!find(job_.joints, change.other)) return not_found("joint", change.other);
    lamp->joint = change.other;
    return {};
  }

  Failure add_cable(const Change& change) {
    const std::size_t space = change.other.find(' ');
    if (space == std::string::npos) return invalid(change, "two ends, separated by a space");
    Cable cable;
    cable.id = change.target;
    cable.item = change.text;
    cable.from = change.other.substr(0, space);
    cable.to = change.other.substr(space + 1);
    cable.length_m = change.number;
    if (cable.id.empty() || find(job_.cables, cable.id)) return invalid(change, "an id that no cable has");
    if (!is_cable_end(cable.from)) return not_found("output, joint or luminaire", cable.from);
    if (!is_cable_end(cable.to)) return not_found("output, joint or luminaire", cable.to);
    if (cable.from == cable.to) return invalid(change, "two different ends");
    if (!is_between(change.number, 0, largest)) return invalid(change, "a length of 0 m or more");
    if (Failure failure = have_item(job_.catalogue.cables, stock_.cables, cable.item)) return failure;
    job_.cables.push_back(std::move(cable));
    return {};
  }

  Failure remove_cable(const Change& change) {
    if (!find(job_.cables, change.target)) return not_found("cable", change.target);
    std::erase_if(job_.cables, [&](const Cable& cable) { return cable.id == change.target; });
    return {};
  }

  Failure set_limit(const Change& change) {
    Output* output = find_output(change.target);
    if (!output) return not_found("output", change.target);
    if (!(change.number > 0 && change.number <= largest)) return invalid(change, "a limit above 0 A");
    output->limit_a = change.number;
    return {};
  }

  Failure set_mounting_height(const Change& change) {
    Transformer* transformer = find(job_.transformers, change.target);
    if (!transformer) return not_found("transformer", change.target);
    if (!is_between(change.number, -largest, largest)) return invalid(change, "a height in metres");
    transformer->mounting_height_m = change.number;
    return {};
  }

  Failure set_extension_cord(const Change& change) {
    Transformer* transformer = find(job_.transformers, change.target);
    if (!transformer) return not_found("transformer", change.target);
    if (!is_flag(change.number)) return invalid(change, "0 or 1");
    transformer->extension_cord = change.number == 1;
    return {};
  }

  Failure set_joint_kind(const Change& change) {
    Joint* joint = find(job_.joints, change.target);
    if (!joint) return not_found("joint", change.target);
    const bool fits = is_between(change.number, 0, static_cast<double>(JointKind::end_of_run)) &&
                      change.number == std::floor(change.number);
    if (!fits) return invalid(change, "the number of a kind of joint, 0 to 3");
    joint->kind = static_cast<JointKind>(change.number);
    return {};
  }

  Failure set_crossed(const Change& change) {
    Cable* cable = find(job_.cables, change.target);
    if (!cable) return not_found("cable", change.target);
    if (!is_flag(change.number)) return invalid(change, "0 or 1");
    cable->crossed = change.number == 1;
    return {};
  }

  Job job_;
  const Catalogue& stock_;
};

}  // namespace

Result<Job> apply(const Job& job, const std::vector<Change>& changes, const Catalogue& stock) {
  Applier applier(job, stock);
  for (const Change& change : changes) {
    if (Failure failure = applier.apply(change)) return *std::move(failure);
  }
  return applier.take();
}

}  // namespace duskwire::job
