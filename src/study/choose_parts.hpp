// SPDX-License-Identifier: Apache-2.0
// What the choices for trees, faces, walks and steps have in common. Internal to the room.
#pragma once

#include <functional>

#include "geometry/strip.hpp"
#include "light/choose.hpp"
#include "study/choose.hpp"
#include "study/level_places.hpp"
#include "study/lit_lamps.hpp"

namespace duskwire::study {

struct ChooseContext {
  const job::Job& job;
  const ChooseRequest& request;
  const job::Catalogue& stock;
  const LevelSet* set = nullptr;  // in force
};

[[nodiscard]] Choice choose_for_tree(const ChooseContext& context, const job::Tree& tree);
[[nodiscard]] Choice choose_for_face(const ChooseContext& context, const job::Area& area, std::size_t edge);
[[nodiscard]] Choice choose_for_walk(const ChooseContext& context, const job::Area& area, const geometry::Strip& strip);
[[nodiscard]] Choice choose_for_steps(const ChooseContext& context, const job::Area& area);

// Articles to choose from: of these kinds, and only the one asked for where one is.
[[nodiscard]] std::vector<const job::LuminaireItem*> candidates(const ChooseContext& context,
                                                                const std::vector<job::LuminaireKind>& kinds);

// What the set in force asks of such a place on average; nothing where it is silent.
[[nodiscard]] std::optional<double> asked_average_lx(const ChooseContext& context, LitPlace place);

// The light of an option's lamps alone on the place of that id, with everything solid where it stands.
[[nodiscard]] LuxFigures light_of(const ChooseContext& context, const ChoiceOption& option,
                                  const std::string& place_id);

// A length in the job's units, as sentences say it; metres with so many decimals more than one.
[[nodiscard]] std::string span_words(const ChooseContext& context, double length_m, int more_decimals = 0);

// Title, kind, lumens and price of `count` of an article.
[[nodiscard]] ChoiceOption option_of(const job::LuminaireItem& item, std::uint32_t count);

// The way from a place to the eye that the garden is composed for: the first view point that is no neighbour's; south
// where the plan has none.
[[nodiscard]] geometry::Point2 way_to_eye(const job::Job& job, geometry::Point2 from);

// A lamp at a place that looks at another.
[[nodiscard]] ChosenLamp aimed_lamp(const job::Job& job, const std::string& item, geometry::Point3 from,
                                    geometry::Point3 at);

// Fitting ones first; then the cheaper; then the one with more light.
void put_best_first(std::vector<ChoiceOption>& options);

}  // namespace duskwire::study
