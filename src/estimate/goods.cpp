// SPDX-License-Identifier: Apache-2.0
#include "estimate/goods.hpp"

#include <fmt/format.h>

#include <map>

#include "estimate/sundries.hpp"

namespace duskwire::estimate {
namespace {

using Names = std::vector<std::string>;

// Users of each item id, with the place of the first for a problem to point at.
struct Users {
  std::string pointer;
  Names names;
};
using ByItem = std::map<std::string, Users>;

void note_user(ByItem& by_item, const std::string& item, std::string pointer, const std::string& user) {
  Users& users = by_item[item];
  if (users.names.empty()) users.pointer = std::move(pointer);
  users.names.push_back(user);
}

template <class Item>
void add_lines(Category category, std::vector<Item> job::Catalogue::*shelf, const char* what, const ByItem& by_item,
               const Stockroom& stockroom, LineBook& book) {
  for (const auto& [id, users] : by_item) {
    const auto picked = stockroom.pick(shelf, id);
    if (picked) {
      book.add(category, picked, static_cast<double>(users.names.size()), "piece", name_list(users.names));
      continue;
    }
    book.problem(
        Severity::error, users.pointer, id, fmt::format("id of a {} in the catalogue", what),
        fmt::format("Not counted, since the catalogue has no {} \"{}\": {}.", what, id, name_list(users.names)));
  }
}

void count_luminaires(const job::Job& job, const Stockroom& stockroom, LineBook& book,
                      std::map<job::SundryKind, Names>& mounts) {
  ByItem by_item;
  for (std::size_t i = 0; i < job.luminaires.size(); ++i) {
    const job::Luminaire& luminaire = job.luminaires[i];
    note_user(by_item, luminaire.item, fmt::format("/luminaires/{}/item", i), luminaire.id);
    const auto picked = stockroom.pick(&job::Catalogue::luminaires, luminaire.item);
    if (!picked) continue;
    if (const auto mount = mount_of(picked.item->kind)) mounts[*mount].push_back(luminaire.id);
  }
  add_lines(Category::luminaire, &job::Catalogue::luminaires, "luminaire", by_item, stockroom, book);
}

void count_transformers(const job::Job& job, const Stockroom& stockroom, LineBook& book,
                        std::map<job::SundryKind, Names>& mounts) {
  ByItem transformers;
  ByItem controls;
  for (std::size_t i = 0; i < job.transformers.size(); ++i) {
    const job::Transformer& transformer = job.transformers[i];
    note_user(transformers, transformer.item, fmt::format("/transformers/{}/item", i), transformer.id);
    for (std::size_t k = 0; k < transformer.controls.size(); ++k) {
      note_user(controls, transformer.controls[k], fmt::format("/transformers/{}/controls/{}", i, k), transformer.id);
    }
    if (transformer.mounting == job::Mounting::post) mounts[job::SundryKind::post_mount].push_back(transformer.id);
  }
  add_lines(Category::transformer, &job::Catalogue::transformers, "transformer", transformers, stockroom, book);
  add_lines(Category::control, &job::Catalogue::controls, "control", controls, stockroom, book);
}

}  // namespace

// These stand on a stake, a tree light hangs on stand-off bolts, a well stands in gravel.
std::optional<job::SundryKind> mount_of(job::LuminaireKind kind) {
  switch (kind) {
    case job::LuminaireKind::path:
    case job::LuminaireKind::bullet:
    case job::LuminaireKind::wall_wash:
    case job::LuminaireKind::bollard:
      return job::SundryKind::stake;
    case job::LuminaireKind::tree_downlight:
      return job::SundryKind::tree_mount;
    case job::LuminaireKind::well:
      return job::SundryKind::drainage;
    case job::LuminaireKind::step:
    case job::LuminaireKind::strip:
    case job::LuminaireKind::underwater:
    case job::LuminaireKind::retrofit_lamp:
    case job::LuminaireKind::halogen_lamp:
      return std::nullopt;
  }
  return std::nullopt;
}

void count_goods(const job::Job& job, const Stockroom& stockroom, LineBook& book) {
  std::map<job::SundryKind, Names> mounts;
  count_luminaires(job, stockroom, book, mounts);
  count_transformers(job, stockroom, book, mounts);
  for (const auto& [kind, users] : mounts) {
    add_sundry(Category::mount, kind, static_cast<double>(users.size()), name_list(users), stockroom, book);
  }
}

}  // namespace duskwire::estimate
