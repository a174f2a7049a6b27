// SPDX-License-Identifier: Apache-2.0
// Sums that are kept while one lamp is in hand: whatever happens to the lamps, their light is that of fresh sums.
#include "light/night_sums.hpp"

#include <gtest/gtest.h>

#include <random>

namespace duskwire::light {
namespace {

constexpr std::size_t places = 50;

// What a place gets in a colour, the lamp in hand with it.
float lux(const NightLight& light, double colour_temperature_k, std::size_t place) {
  float sum_lx = 0;
  for (const ColouredLight& one : light.by_colour) {
    if (one.colour_temperature_k == colour_temperature_k) sum_lx += one.lx[place];
  }
  const LampInHand& hand = light.hand;
  if (!hand.layer_lx.empty() && hand.state.colour_temperature_k == colour_temperature_k) {
    sum_lx += static_cast<float>(hand.state.share) * hand.layer_lx[place];
  }
  return sum_lx;
}

float full_lux(const NightLight& light, std::size_t place) {
  return (light.all_lx.empty() ? 0 : light.all_lx[place]) +
         (light.hand.layer_lx.empty() ? 0 : light.hand.layer_lx[place]);
}

class Garden {
 public:
  explicit Garden(std::uint32_t seed) : random_(seed), layers(6), states(6) {
    for (std::uint32_t lamp = 0; lamp < 5; ++lamp) move(lamp);
    states[1].colour_temperature_k = 4000;
  }

  void move(std::uint32_t lamp) {
    layers[lamp].resize(places);
    for (float& one_lx : layers[lamp]) one_lx = static_cast<float>(random_() % 1000) / 10;
  }
  void dim(std::uint32_t lamp) { states[lamp].share = static_cast<double>(random_() % 100) / 100; }
  [[nodiscard]] std::uint32_t any_lamp() { return random_() % 5; }
  [[nodiscard]] bool chance() { return random_() % 3 == 0; }

 private:
  std::mt19937 random_;

 public:
  std::vector<std::vector<float>> layers;  // the last one lights nothing
  std::vector<LampState> states;
};

void expect_fresh(const NightSums& kept, const Garden& garden) {
  NightSums fresh;
  const std::vector<std::uint32_t> all{0, 1, 2, 3, 4, 5};
  fresh.update(garden.layers, garden.states, all);
  EXPECT_FALSE(fresh.in_hand());
  for (std::size_t i = 0; i < places; ++i) {
    for (const double colour_k : {2700.0, 4000.0}) {
      EXPECT_NEAR(lux(kept.light(), colour_k, i), lux(fresh.light(), colour_k, i), 2e-4);
    }
    EXPECT_NEAR(full_lux(kept.light(), i), full_lux(fresh.light(), i), 2e-4);
  }
}

TEST(NightSums, ALampThatIsDraggedStaysInHandAndTheOthersStay) {
  Garden garden(1);
  NightSums sums;
  sums.update(garden.layers, garden.states, std::vector<std::uint32_t>{0, 1, 2, 3, 4, 5});
  for (int i = 0; i < 4; ++i) {
    garden.move(2);
    sums.update(garden.layers, garden.states, std::vector<std::uint32_t>{2});
    EXPECT_EQ(sums.in_hand(), 2u);
    expect_fresh(sums, garden);
  }
  // Nothing changed: it stays where it is.
  sums.update(garden.layers, garden.states, {});
  EXPECT_EQ(sums.in_hand(), 2u);
  garden.dim(1);
  sums.update(garden.layers, garden.states, std::vector<std::uint32_t>{1});
  EXPECT_EQ(sums.in_hand(), 1u);
  expect_fresh(sums, garden);
}

TEST(NightSums, AreThoseOfFreshSumsWhateverIsTouched) {
  for (const std::uint32_t seed : {2u, 3u, 4u}) {
    Garden garden(seed);
    NightSums sums;
    sums.update(garden.layers, garden.states, std::vector<std::uint32_t>{0, 1, 2, 3, 4, 5});
    for (int round = 0; round < 40; ++round) {
      std::vector<std::uint32_t> touched;
      if (!garden.chance()) touched.push_back(garden.any_lamp());
      if (garden.chance()) touched.push_back(5);
      for (const std::uint32_t lamp : touched) {
        if (lamp < 5) garden.move(lamp);
        garden.dim(lamp);
      }
      sums.update(garden.layers, garden.states, touched);
      expect_fresh(sums, garden);
    }
  }
}

TEST(NightSums, ForgetStartsAnew) {
  Garden garden(5);
  NightSums sums;
  sums.update(garden.layers, garden.states, std::vector<std::uint32_t>{0, 1, 2, 3, 4, 5});
  garden.move(0);
  garden.move(1);
  sums.forget();
  EXPECT_TRUE(sums.light().by_colour.empty());
  sums.update(garden.layers, garden.states, std::vector<std::uint32_t>{0});
  EXPECT_FALSE(sums.in_hand());
  expect_fresh(sums, garden);
}

}  // namespace
}  // namespace duskwire::light
