// SPDX-License-Identifier: Apache-2.0
#include "study/crew_picks.hpp"

#include <algorithm>
#include <map>
#include <string_view>
#include <unordered_map>

#include "estimate/goods.hpp"
#include "estimate/stockroom.hpp"

namespace duskwire::study {
namespace {

using estimate::Category;

constexpr double least_quantity = 1e-9;

class Dealer {
 public:
  Dealer(const job::Job& job, const job::Catalogue& stock, const estimate::Materials& materials,
         const std::vector<CrewRun>& runs)
      : job_(job), shelf_(job.catalogue, stock), materials_(materials), runs_(runs) {
    for (const estimate::MaterialLine& line : materials.lines) lines_[{line.category, line.item}] = &line;
    for (const auto& [key, line] : lines_) rest_[key] = line->quantity;
    note_zones();
  }

  std::vector<CrewBag> deal() {
    deal_luminaires();
    deal_cables();
    deal_connectors();
    deal_transformers();
    deal_rest();
    return std::move(bags_);
  }

 private:
  using Key = std::pair<Category, std::string>;

  // A place belongs to the zone of its own lamps, else to that of the first lamp farther out.
  void note_zones() {
    for (const CrewRun& run : runs_) {
      for (auto step = run.steps.rbegin(); step != run.steps.rend(); ++step) {
        if (!step->lamps.empty()) zone_of_[step->to] = run.lamps[step->lamps.front()].zone;
        if (const auto found = zone_of_.find(step->to); found != zone_of_.end()) {
          zone_of_.try_emplace(step->from, found->second);
        }
      }
    }
  }

  [[nodiscard]] std::string zone_at(const std::string& place) const {
    const auto found = zone_of_.find(place);
    return found == zone_of_.end() ? std::string() : found->second;
  }

  CrewBag& bag(BagKind kind, const std::string& name) {
    const auto found = std::find_if(bags_.begin(), bags_.end(),
                                    [&](const CrewBag& bag) { return bag.kind == kind && bag.name == name; });
    if (found != bags_.end()) return *found;
    bags_.push_back({kind, name, {}});
    return bags_.back();
  }

  // Into a bag, as far as the list of materials has it.
  void give(CrewBag& to, Category category, const std::string& item, double quantity, const std::string& user) {
    const auto left = lines_.find({category, item});
    if (left == lines_.end() || !(quantity > 0)) return;
    double& rest = rest_[left->first];
    const double given = std::min(quantity, rest);
    if (given <= 0) return;
    rest -= given;
    auto pick = std::find_if(to.picks.begin(), to.picks.end(),
                             [&](const CrewPick& row) { return row.category == category && row.item == item; });
    if (pick == to.picks.end()) {
      to.picks.push_back({category, item, left->second->title, 0, left->second->unit, {}});
      pick = to.picks.end() - 1;
    }
    pick->quantity += given;
    if (!user.empty()) pick->users.push_back(user);
  }

  void deal_luminaires() {
    for (const job::Luminaire& luminaire : job_.luminaires) {
      CrewBag& zone = bag(BagKind::zone, luminaire.zone);
      give(zone, Category::luminaire, luminaire.item, 1, luminaire.id);
      const auto picked = shelf_.pick(&job::Catalogue::luminaires, luminaire.item);
      if (!picked) continue;
      if (const auto kind = estimate::mount_of(picked.item->kind)) {
        if (const auto mount = shelf_.cheapest(*kind)) give(zone, Category::mount, mount.item->id, 1, luminaire.id);
      }
    }
  }

  void deal_cables() {
    std::unordered_map<std::string_view, const estimate::Cut*> cuts;
    for (const estimate::Cut& cut : materials_.cuts) cuts.emplace(cut.tag, &cut);
    for (const CrewRun& run : runs_) {
      for (const CrewStep& step : run.steps) {
        const auto cut = cuts.find(step.cable);
        if (cut == cuts.end()) continue;
        give(bag(BagKind::zone, zone_at(step.to)), Category::cable, step.item, cut->second->cut_m, step.cable);
      }
    }
  }

  void deal_connectors() {
    for (const estimate::Splice& splice : materials_.splices) {
      give(bag(BagKind::zone, zone_at(splice.joint)), Category::connector, splice.connector, splice.pieces,
           splice.joint);
    }
  }

  void deal_transformers() {
    for (const job::Transformer& transformer : job_.transformers) {
      CrewBag& own = bag(BagKind::transformer, transformer.id);
      give(own, Category::transformer, transformer.item, 1, transformer.id);
      for (const std::string& control : transformer.controls) give(own, Category::control, control, 1, transformer.id);
      if (transformer.mounting != job::Mounting::post) continue;
      if (const auto mount = shelf_.cheapest(job::SundryKind::post_mount)) {
        give(own, Category::mount, mount.item->id, 1, transformer.id);
      }
    }
  }

  void deal_rest() {
    CrewBag van{BagKind::van, {}, {}};
    for (const auto& [key, line] : lines_) {
      const double rest = rest_[key];
      if (rest > least_quantity) van.picks.push_back({key.first, key.second, line->title, rest, line->unit, {}});
    }
    std::erase_if(bags_, [](const CrewBag& bag) { return bag.picks.empty(); });
    for (CrewBag& bag : bags_) {
      std::stable_sort(bag.picks.begin(), bag.picks.end(),
                       [](const CrewPick& p, const CrewPick& q) { return p.category < q.category; });
    }
    if (!van.picks.empty()) bags_.push_back(std::move(van));
  }

  const job::Job& job_;
  estimate::Stockroom shelf_;
  const estimate::Materials& materials_;
  const std::vector<CrewRun>& runs_;
  std::map<Key, const estimate::MaterialLine*> lines_;
  std::map<Key, double> rest_;
  std::unordered_map<std::string, std::string> zone_of_;
  std::vector<CrewBag> bags_;
};

}  // namespace

std::vector<CrewBag> crew_bags(const job::Job& job, const job::Catalogue& stock, const estimate::Materials& materials,
                               const std::vector<CrewRun>& runs) {
  return Dealer(job, stock, materials, runs).deal();
}

}  // namespace duskwire::study
