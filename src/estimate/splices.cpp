// SPDX-License-Identifier: Apache-2.0
#include "estimate/splices.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "estimate/connector_choice.hpp"
#include "estimate/joint_wires.hpp"

namespace duskwire::estimate {
namespace {

const char* kind_text(job::JointKind kind) {
  switch (kind) {
    case job::JointKind::in_line:
      return "in line";
    case job::JointKind::branch:
      return "a branch";
    case job::JointKind::hub:
      return "a hub";
    case job::JointKind::end_of_run:
      return "the end of a run";
  }
  return "";
}

// What is known about one joint while its connectors are counted.
struct Bench {
  const job::Joint& joint;
  std::size_t index;
  const std::vector<JointWire>& wires;
  LineBook& book;
  Splice splice;

  [[nodiscard]] std::string pointer(const char* key) const { return fmt::format("/joints/{}{}", index, key); }
  void use(const job::ConnectorItem& item, const ConnectorFit& fit) {
    splice.connector = item.id;
    splice.fits = true;
    splice.pieces_per_conductor = fit.pieces_per_conductor;
    splice.pieces = pieces_for_both(item, fit);
    splice.spare_ports = fit.spare_ports;
  }
};

bool all_sizes_known(const std::vector<JointWire>& wires) {
  return std::all_of(wires.begin(), wires.end(), [](const JointWire& wire) { return wire.area_mm2.has_value(); });
}

// The job's own choice of items first; one piece from the stock goes before pigtails from the job.
std::optional<ConnectorChoice> suggestion(const std::vector<JointWire>& wires, const Stockroom& stockroom) {
  const auto own = choose_connector(wires, stockroom.own());
  if (own && own->fit.pieces_per_conductor == 1) return own;
  const auto stock = choose_connector(wires, stockroom.stock());
  if (stock && (!own || stock->fit.pieces_per_conductor == 1)) return stock;
  return own;
}

void suggest(Bench& bench, const Stockroom& stockroom) {
  const std::optional<ConnectorChoice> choice = suggestion(bench.wires, stockroom);
  if (choice) {
    bench.use(*choice->item, choice->fit);
    bench.splice.suggested = true;
    return;
  }
  const bool known = all_sizes_known(bench.wires);
  bench.book.problem(
      Severity::error, bench.pointer("/connector"), "", "a connector that is sealed, held and takes these wires",
      fmt::format("No connector is counted for joint {}: {}.", bench.joint.id,
                  known ? fmt::format("none in the catalogue takes its {} wires per conductor, even with pigtails",
                                      bench.wires.size())
                        : std::string("the size of a wire there is not known")));
}

void use_chosen(Bench& bench, const Stockroom& stockroom) {
  const auto picked = stockroom.pick(&job::Catalogue::connectors, bench.joint.connector);
  if (!picked) {
    bench.book.problem(Severity::error, bench.pointer("/connector"), bench.joint.connector,
                       "id of a connector in the catalogue",
                       fmt::format("Joint {} is not counted: the catalogue has no connector \"{}\".", bench.joint.id,
                                   bench.joint.connector));
    return;
  }
  if (const auto fit = connector_fit(*picked.item, bench.wires)) {
    bench.use(*picked.item, *fit);
    return;
  }
  bench.use(*picked.item, ConnectorFit{});
  bench.splice.fits = false;
  const auto other = suggestion(bench.wires, stockroom);
  bench.book.problem(Severity::warning, bench.pointer("/connector"), bench.joint.connector,
                     fmt::format("fill for {} wires per conductor of their sizes", bench.wires.size()),
                     fmt::format("The {} wires per conductor at joint {} do not fit a {}: {}.", bench.wires.size(),
                                 bench.joint.id, picked.item->title.empty() ? picked.item->id : picked.item->title,
                                 other ? fmt::format("{} x {} would take them", other->pieces, other->item->id)
                                       : std::string("nor any other connector of the catalogue")));
}

// As fitted, a joint may have more pieces than it needs, never fewer on the list.
void heed_recorded_count(Bench& bench) {
  if (!bench.joint.connector_count || bench.splice.pieces == 0) return;
  const std::uint32_t recorded = *bench.joint.connector_count;
  if (recorded < bench.splice.pieces) {
    bench.book.problem(
        Severity::warning, bench.pointer("/connector_count"), std::to_string(recorded),
        fmt::format("{} or more", bench.splice.pieces),
        fmt::format("Joint {} is recorded with {} connector{}, but takes {}: the list has {}.", bench.joint.id,
                    recorded, recorded == 1 ? "" : "s", bench.splice.pieces, bench.splice.pieces));
  }
  bench.splice.pieces = std::max(recorded, bench.splice.pieces);
}

void note_shape(Bench& bench) {
  Splice& splice = bench.splice;
  splice.note = fmt::format("{}, {} wires per conductor", kind_text(*splice.kind), splice.wires_per_conductor);
  if (splice.pieces_per_conductor > 1) {
    const std::uint32_t pigtails = splice.pieces_per_conductor - 1;
    splice.note += fmt::format("; {} pieces per conductor, linked by {} pigtail{}", splice.pieces_per_conductor,
                               pigtails, pigtails == 1 ? "" : "s");
  } else if (splice.fits && splice.spare_ports > 0) {
    splice.note += fmt::format("; room for {} more", splice.spare_ports);
  }
  if (*splice.kind != bench.joint.kind) {
    bench.book.problem(Severity::note, bench.pointer("/kind"), "", "the kind that its wires make",
                       fmt::format("Joint {} is called {}, but its {} wires per conductor make it {}.", bench.joint.id,
                                   kind_text(bench.joint.kind), splice.wires_per_conductor, kind_text(*splice.kind)));
  }
}

Splice count_joint(Bench bench, const Stockroom& stockroom) {
  bench.splice.joint = bench.joint.id;
  bench.splice.name = bench.joint.name.empty() ? bench.joint.id : bench.joint.name;
  bench.splice.kind = joint_kind(bench.wires);
  bench.splice.wires_per_conductor = static_cast<std::uint32_t>(bench.wires.size());
  bench.splice.connector = bench.joint.connector;
  if (!bench.splice.kind) {
    bench.splice.note = "nothing is joined here";
    bench.book.problem(Severity::warning, bench.pointer(""), bench.joint.id, "two wires or more",
                       fmt::format("Joint {} has {}: nothing is joined there and no connector is counted.",
                                   bench.joint.id, bench.wires.empty() ? "no wire" : "only one wire per conductor"));
    return bench.splice;
  }
  if (bench.joint.connector.empty()) {
    suggest(bench, stockroom);
  } else {
    use_chosen(bench, stockroom);
  }
  heed_recorded_count(bench);
  note_shape(bench);
  return bench.splice;
}

// Cables that meet inside a luminaire are taken to be joined by its terminals: only a joint can say with what else.
void report_joints_in_luminaires(const job::Job& job, LineBook& book) {
  std::map<std::string_view, std::size_t> ends;
  for (const job::Cable& cable : job.cables) {
    ++ends[cable.from];
    ++ends[cable.to];
  }
  std::vector<std::string> met;
  for (const job::Luminaire& luminaire : job.luminaires) {
    const auto found = ends.find(luminaire.id);
    if (found != ends.end() && found->second > 1) met.push_back(luminaire.id);
  }
  if (met.empty()) return;
  book.problem(Severity::note, "/luminaires", name_list(met), "at most one cable end",
               fmt::format("Cables meet at {}: no connector is counted, as if the luminaire's own terminals join them; "
                           "where they do not, put a joint there.",
                           name_list(met)));
}

struct Need {
  std::uint32_t pieces = 0;
  std::vector<std::string> joints;
  std::vector<std::string> suggested;
};

}  // namespace

void count_connectors(const job::Job& job, const Stockroom& stockroom, LineBook& book, Materials& materials) {
  report_joints_in_luminaires(job, book);
  const auto wires = all_joint_wires(job);
  std::map<std::string, Need> needs;
  for (std::size_t i = 0; i < job.joints.size(); ++i) {
    Splice splice = count_joint({job.joints[i], i, wires[i], book, {}}, stockroom);
    if (splice.pieces > 0) {
      Need& need = needs[splice.connector];
      need.pieces += splice.pieces;
      need.joints.push_back(splice.joint);
      if (splice.suggested) need.suggested.push_back(splice.joint);
    }
    materials.splices.push_back(std::move(splice));
  }
  for (const auto& [id, need] : needs) {
    std::string note = fmt::format("joint{} {}", need.joints.size() == 1 ? "" : "s", name_list(need.joints));
    if (!need.suggested.empty()) note += fmt::format("; suggested for {}", name_list(need.suggested));
    book.add(Category::connector, stockroom.pick(&job::Catalogue::connectors, id), need.pieces, "piece", note);
  }
}

}  // namespace duskwire::estimate
