// SPDX-License-Identifier: Apache-2.0
#include "study/route_kept.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "estimate/cable_length.hpp"

namespace duskwire::study {
namespace {

using wiring::none;

// A cable from its supply's side to the other.
struct Held {
  std::uint32_t cable = 0;  // of the job
  bool reversed = false;
  std::string from, to;
  std::uint32_t from_node = 0, to_node = 0;
  std::uint32_t edge = 0;
  std::uint32_t tree = none, place_in_tree = none;
};

class KeptBuilder {
 public:
  KeptBuilder(const job::Job& job, const RouteGoods& goods, RouteProblem& out)
      : job_(job), goods_(goods), out_(out), ends_(job) {}

  void run(const RouteRequest& request, const std::vector<std::uint32_t>& nodes) {
    out_.own_edge = static_cast<std::uint32_t>(out_.problem.ground.edges.size());
    std::size_t drawn = 0;
    for (const std::string& id : request.pins.kept_cables) {
      for (std::uint32_t c = 0; c < job_.cables.size(); ++c) {
        if (job_.cables[c].id != id || job_.cables[c].path.size() < 2) continue;
        hold(c, nodes[2 * drawn], nodes[2 * drawn + 1]);
        ++drawn;
      }
    }
    // Each tree from its beginning outwards, however the pins were named.
    for (bool grown = true; grown;) {
      grown = false;
      for (Held& held : held_) {
        if (held.tree == none && has_beginning(held)) grown = place(held) || grown;
      }
    }
    number();
  }

 private:
  void refuse(const std::string& id, const std::string& why) {
    out_.obstacles.push_back(
        {id, fmt::format("Cable {} cannot be held fast: {}.", id, why), "Take it out of what is held fast."});
  }

  void hold(std::uint32_t c, std::uint32_t first, std::uint32_t last) {
    const job::Cable& cable = job_.cables[c];
    Held held{c,   ends_.find(cable.to).kind == estimate::EndKind::output, cable.from, cable.to, first, last, 0, none,
              none};
    if (held.reversed) {
      std::swap(held.from, held.to);
      std::swap(held.from_node, held.to_node);
    }
    const estimate::EndKind from = ends_.find(held.from).kind;
    const estimate::EndKind to = ends_.find(held.to).kind;
    if (from == estimate::EndKind::luminaire)
      return refuse(cable.id, "it begins at a luminaire, where a plan puts a joint");
    if (from == estimate::EndKind::unknown || to == estimate::EndKind::unknown)
      return refuse(cable.id, "one of its ends hangs loose");
    if (to == estimate::EndKind::output) return refuse(cable.id, "it leads from output to output");
    if (type_of(cable) == none) return refuse(cable.id, "its item is not among the cables that can be laid");
    if (first == last) return refuse(cable.id, "it ends where it begins");
    if (to == estimate::EndKind::luminaire && lamp_of(held.to) == none)
      return refuse(cable.id, "its luminaire has no place or item");
    auto& edges = out_.problem.ground.edges;
    held.edge = static_cast<std::uint32_t>(edges.size());
    const double length_m = estimate::route_length_m(cable).value_or(0);
    edges.push_back({held.from_node, held.to_node, length_m, 0, wiring::no_duct, {}});
    out_.own_ways.push_back(cable.path);
    held_.push_back(std::move(held));
  }

  [[nodiscard]] std::uint32_t type_of(const job::Cable& cable) const {
    for (std::uint32_t t = 0; t < goods_.cables.size(); ++t) {
      if (goods_.cables[t]->id == cable.item) return t;
    }
    return none;
  }

  [[nodiscard]] std::uint32_t lamp_of(const std::string& id) const {
    for (std::uint32_t i = 0; i < out_.luminaires.size(); ++i) {
      if (job_.luminaires[out_.luminaires[i]].id == id) return i;
    }
    return none;
  }

  // Its beginning is known: no cable that is held leads there, or one that has its place.
  [[nodiscard]] bool has_beginning(const Held& held) const {
    return std::none_of(held_.begin(), held_.end(), [&](const Held& other) {
      return &other != &held && other.to == held.from && other.tree == none;
    });
  }

  bool place(Held& held) {
    auto& kept = out_.problem.kept;
    wiring::KeptCable cable;
    cable.edges = {held.edge};
    cable.type = type_of(job_.cables[held.cable]);
    const auto length = estimate::cable_length(job_, ends_, job_.cables[held.cable]);
    cable.cut_m = length ? length->cut_m() : 0;
    if (ends_.find(held.to).kind == estimate::EndKind::luminaire) cable.lamp = lamp_of(held.to);
    for (const Held& other : held_) {
      if (other.tree == none || other.to != held.from) continue;
      held.tree = other.tree;
      cable.from = other.place_in_tree;
    }
    if (held.tree == none) held.tree = tree_at(held);
    held.place_in_tree = static_cast<std::uint32_t>(kept[held.tree].cables.size());
    kept[held.tree].cables.push_back(std::move(cable));
    return true;
  }

  // A tree that begins at the same joint or output, or a new one.
  std::uint32_t tree_at(const Held& held) {
    auto& kept = out_.problem.kept;
    for (const Held& other : held_) {
      if (&other != &held && other.tree != none && other.from == held.from &&
          kept[other.tree].cables[other.place_in_tree].from == none)
        return other.tree;
    }
    wiring::KeptTree tree;
    tree.node = held.from_node;
    const estimate::EndPlace from = ends_.find(held.from);
    if (from.kind == estimate::EndKind::output) {
      for (std::uint32_t p = 0; p < out_.places.size(); ++p) {
        if (out_.places[p].transformer == from.index) tree.place = p;
      }
      // The cable begins where the transformer hangs, wherever its way was drawn from.
      if (tree.place != none) out_.problem.ground.edges[held.edge].a = out_.problem.places[tree.place].node;
    }
    kept.push_back(std::move(tree));
    return static_cast<std::uint32_t>(kept.size() - 1);
  }

  void number() {
    for (std::uint32_t t = 0; t < out_.problem.kept.size(); ++t) {
      for (std::uint32_t k = 0; k < out_.problem.kept[t].cables.size(); ++k) {
        for (const Held& held : held_) {
          if (held.tree != t || held.place_in_tree != k) continue;
          out_.kept_cables.push_back(held.cable);
          out_.kept_reversed.push_back(held.reversed);
        }
      }
    }
  }

  const job::Job& job_;
  const RouteGoods& goods_;
  RouteProblem& out_;
  estimate::EndIndex ends_;
  std::vector<Held> held_;
};

}  // namespace

void add_kept(const job::Job& job, const RouteGoods& goods, const RouteRequest& request,
              const std::vector<std::uint32_t>& ends, RouteProblem& out) {
  KeptBuilder(job, goods, out).run(request, ends);
}

}  // namespace duskwire::study
