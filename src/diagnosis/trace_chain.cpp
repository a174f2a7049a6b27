// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/trace_chain.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::diagnosis {
namespace {

constexpr int chains = 8;
constexpr int cooling = 40;    // rounds over all lamps
constexpr int counted = 150;   // rounds
constexpr double hottest = 8;  // weights are taken to the power of its inverse at first

// The same on every computer, unlike the distributions of the standard library.
class Lots {
 public:
  explicit Lots(std::uint64_t seed) : state_(seed) {}
  double below_one() { return static_cast<double>(next() >> 11U) * 0x1.0p-53; }
  std::size_t below(std::size_t count) {
    return std::min(count - 1, static_cast<std::size_t>(below_one() * static_cast<double>(count)));
  }

 private:
  std::uint64_t next() {
    state_ ^= state_ << 13U;
    state_ ^= state_ >> 7U;
    state_ ^= state_ << 17U;
    return state_;
  }
  std::uint64_t state_;
};

class Chain {
 public:
  Chain(TraceModel& model, std::uint64_t seed) : model_(model), lots_(seed) {
    const std::size_t lamps = model.problem().lamps.size();
    members_.resize(model.problem().runs.size());
    taken_.assign(lamps, none_taken);
    for (std::uint32_t lamp = 0; lamp < lamps; ++lamp) {
      const auto& choices = model_.choices_of(lamp);
      if (choices.empty()) continue;
      open_.push_back(lamp);
      take(lamp, *std::max_element(choices.begin(), choices.end(), [&](std::uint32_t a, std::uint32_t b) {
             return model_.choices()[a].log_prior < model_.choices()[b].log_prior;
           }));
    }
  }

  void run(TraceChances& sum) {
    for (int round = 0; round < cooling + counted; ++round) {
      heat_ = round < cooling ? std::pow(hottest, 1 - static_cast<double>(round) / cooling) : 1;
      for (const std::uint32_t lamp : open_) draw(lamp, round >= cooling ? &sum : nullptr);
      for (std::size_t k = 0; k < open_.size(); ++k) exchange();
    }
    // What has no place at all is not drawn.
    for (std::uint32_t lamp = 0; lamp < taken_.size(); ++lamp) {
      if (model_.choices_of(lamp).empty()) sum.unwalked[lamp] += counted;
    }
  }

 private:
  static constexpr std::uint32_t none_taken = 0xffffffff;

  std::vector<std::uint32_t>& run_of(std::uint32_t choice) { return members_[model_.choices()[choice].run]; }

  void take(std::uint32_t lamp, std::uint32_t choice) {
    taken_[lamp] = choice;
    if (choice == none_taken) return;
    auto& list = run_of(choice);
    list.insert(std::lower_bound(list.begin(), list.end(), choice), choice);
  }

  void leave(std::uint32_t lamp) {
    if (taken_[lamp] == none_taken) return;
    auto& list = run_of(taken_[lamp]);
    list.erase(std::lower_bound(list.begin(), list.end(), taken_[lamp]));
    taken_[lamp] = none_taken;
  }

  double weight_of_run(std::uint32_t run) { return model_.log_weight(run, members_[run]); }

  // The lamp's share of the weight at `choice`, the rest as it stands.
  double log_share(std::uint32_t lamp, std::uint32_t choice) {
    if (choice == none_taken) return model_.log_unwalked(lamp);
    const TraceChoice& at = model_.choices()[choice];
    const double without = weight_of_run(at.run);
    take(lamp, choice);
    const double with = weight_of_run(at.run);
    leave(lamp);
    return at.log_prior + with - without;
  }

  void draw(std::uint32_t lamp, TraceChances* sum) {
    leave(lamp);
    std::vector<std::uint32_t> options = model_.choices_of(lamp);
    options.push_back(none_taken);
    std::vector<double> share;
    for (const std::uint32_t one : options) share.push_back(log_share(lamp, one) / heat_);
    const double most = *std::max_element(share.begin(), share.end());
    double total = 0;
    for (double& one : share) total += one = std::exp(one - most);
    double lot = lots_.below_one() * total;
    std::size_t drawn = 0;
    while (drawn + 1 < share.size() && lot >= share[drawn]) lot -= share[drawn++];
    take(lamp, options[drawn]);
    if (!sum) return;
    for (std::size_t k = 0; k < options.size(); ++k) {
      double& counted_at = options[k] == none_taken ? sum->unwalked[lamp] : sum->of_choice[options[k]];
      counted_at += share[k] / total;
    }
  }

  // Two lamps change runs at once: one alone would spoil the amperes of both.
  void exchange() {
    const std::uint32_t one = open_[lots_.below(open_.size())];
    const std::uint32_t other = open_[lots_.below(open_.size())];
    const std::uint32_t from = taken_[one];
    const std::uint32_t to = taken_[other];
    if (from == none_taken || to == none_taken) return;
    const std::uint32_t first = model_.choices()[from].run;
    const std::uint32_t second = model_.choices()[to].run;
    if (first == second) return;
    const std::uint32_t ahead = choice_on(one, second);
    const std::uint32_t back = choice_on(other, first);
    if (ahead == none_taken || back == none_taken) return;
    // With several places of a run the way back would not be as likely as the way there.
    if (choice_on(one, first) != from || choice_on(other, second) != to) return;
    const auto& choices = model_.choices();
    const double before =
        weight_of_run(first) + weight_of_run(second) + choices[from].log_prior + choices[to].log_prior;
    swap(one, ahead, other, back);
    const double after =
        weight_of_run(first) + weight_of_run(second) + choices[ahead].log_prior + choices[back].log_prior;
    if (std::log(lots_.below_one() + 1e-300) > (after - before) / heat_) swap(one, from, other, to);
  }

  void swap(std::uint32_t one, std::uint32_t choice, std::uint32_t other, std::uint32_t other_choice) {
    leave(one);
    leave(other);
    take(one, choice);
    take(other, other_choice);
  }

  // The first of its places on that run.
  [[nodiscard]] std::uint32_t choice_on(std::uint32_t lamp, std::uint32_t run) const {
    for (const std::uint32_t one : model_.choices_of(lamp)) {
      if (model_.choices()[one].run == run) return one;
    }
    return none_taken;
  }

  TraceModel& model_;
  Lots lots_;
  std::vector<std::vector<std::uint32_t>> members_;
  std::vector<std::uint32_t> taken_;
  std::vector<std::uint32_t> open_;  // lamps that have a place
  double heat_ = 1;
};

}  // namespace

TraceChances draw_traces(TraceModel& model) {
  TraceChances sum;
  sum.of_choice.assign(model.choices().size(), 0);
  sum.unwalked.assign(model.problem().lamps.size(), 0);
  for (int chain = 0; chain < chains; ++chain) {
    Chain(model, (model.problem().seed + 1) * 0x9e3779b97f4a7c15ULL +
                     static_cast<std::uint64_t>(chain) * 0xd1342543de82ef95ULL + 1)
        .run(sum);
  }
  constexpr double all = chains * counted;
  for (double& one : sum.of_choice) one /= all;
  for (double& one : sum.unwalked) one /= all;
  return sum;
}

}  // namespace duskwire::diagnosis
