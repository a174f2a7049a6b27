// SPDX-License-Identifier: Apache-2.0
#include "formats/light_requests.hpp"

#include "formats/shape.hpp"
#include "formats/shape_level_set.hpp"

namespace duskwire::formats {

constexpr const char* type_name(Of<study::LevelsOptions>) { return "levels request"; }
constexpr const char* type_name(Of<study::ChooseRequest>) { return "choose request"; }

template <class Visitor>
void describe(Of<study::LevelsOptions>, Visitor& v) {
  using T = study::LevelsOptions;
  v.field("targets", &T::targets, Text{longest_id}, optional, "Id of the set of levels to judge by");
  v.field("property_line_limit_lx", &T::property_line_limit_lx, lux, optional, "Limit at the property line");
  v.field("window_limit_lx", &T::window_limit_lx, lux, optional, "Limit on neighbours' windows");
  v.field("plan", &T::plan, Flag{}, optional, "Whether to make the night plan");
  v.field("bounce", &T::bounce, Flag{}, optional, "Whether to count light that bounced once");
  v.field("cell_m", &T::cell_m, Number{0.02, 10, "m"}, optional, "Side of its cells");
}

inline constexpr Number reach{0, 100, "m", true};

template <class Visitor>
void describe(Of<study::ChooseRequest>, Visitor& v) {
  using T = study::ChooseRequest;
  v.field("tree", &T::tree, Text{longest_id}, optional, "Id of a tree");
  v.field("area", &T::area, Text{longest_id}, optional, "Id of a walk or of steps");
  v.field("face", &T::face, Text{longest_id + 8}, optional, "Face of a building or wall: house/0");
  v.field("item", &T::item, Text{longest_id}, optional, "Judge this article only");
  v.field("targets", &T::targets, Text{longest_id}, optional, "Id of the set of levels to judge by");
  v.field("setback_m", &T::setback_m, reach, optional, "Lamp to trunk or wall");
  v.field("longest_m", &T::longest_m, reach, optional, "No gap along a walk is longer");
  v.field("pool_m", &T::pool_m, reach, optional, "Across a pool of light");
  v.field("risers_m", &T::risers_m, Numbers{{0, 10'000, "m"}, 0, 1000, true}, optional,
          "Where risers are along the walk");
}

}  // namespace duskwire::formats

// After the shapes that it reads.
#include "formats/read_request.hpp"

namespace duskwire::formats {

ReadRequest<study::LevelsOptions> read_levels_request(std::string_view text) {
  return read_request<study::LevelsOptions>(
      text, [](Context& context, const Json& tree, study::LevelsOptions& out) { read_shape(context, tree, out); });
}

ReadRequest<study::ChooseRequest> read_choose_request(std::string_view text) {
  return read_request<study::ChooseRequest>(
      text, [](Context& context, const Json& tree, study::ChooseRequest& out) { read_shape(context, tree, out); });
}

}  // namespace duskwire::formats
