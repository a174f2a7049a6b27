// SPDX-License-Identifier: Apache-2.0
#include "electrical/loads.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "electrical/nets.hpp"

namespace duskwire::electrical {
namespace {

Load load_of(LoadKind kind) {
  Load load = test::led(0, 20);
  load.kind = kind;
  load.rated_v = 12;
  return load;
}

constexpr LoadKind every_kind[] = {LoadKind::regulated_led, LoadKind::filament, LoadKind::resistive,
                                   LoadKind::constant_current_led};

TEST(Loads, RegulatedLedKeepsItsPowerInsideItsRange) {
  const Load load = load_of(LoadKind::regulated_led);
  for (const double v : {9.0, 10.5, 12.0, 15.0}) EXPECT_NEAR(load_point(load, 20, v).current_a * v, 20, 1e-12);
}

TEST(Loads, RegulatedLedHoldsItsCurrentBelowItsRange) {
  const Load load = load_of(LoadKind::regulated_led);
  EXPECT_DOUBLE_EQ(load_point(load, 20, 8.0).current_a, 20.0 / 9.0);
  EXPECT_DOUBLE_EQ(load_point(load, 20, 6.25).current_a, 20.0 / 9.0);
}

TEST(Loads, LedBelowCutOffOnlyLeaks) {
  const Load load = load_of(LoadKind::regulated_led);
  EXPECT_DOUBLE_EQ(load_point(load, 20, 5.0).current_a, 5.0 * off_leak_s);
}

TEST(Loads, ConstantCurrentLedKeepsItsCurrent) {
  const Load load = load_of(LoadKind::constant_current_led);
  EXPECT_DOUBLE_EQ(load_point(load, 20, 9.5).current_a, 20.0 / 12.0);
  EXPECT_DOUBLE_EQ(load_point(load, 20, 14.0).current_a, 20.0 / 12.0);
}

TEST(Loads, ResistiveFollowsOhm) {
  EXPECT_DOUBLE_EQ(load_point(load_of(LoadKind::resistive), 20, 6.0).current_a, 20.0 / 12.0 / 2);
}

// Exponents: IES Lighting Handbook form (from memory); factors computed from v^1.6 and v^3.4.
TEST(Loads, FilamentPowerAndLightFollowTheirExponents) {
  const Load load = load_of(LoadKind::filament);
  EXPECT_NEAR(load_point(load, 20, 10.8).current_a * 10.8 / 20, 0.8449, 5e-5);
  EXPECT_NEAR(load_light(load, 1, 10.8), 0.6989, 5e-5);
  EXPECT_NEAR(load_light(load, 1, 12.6), 1.1804, 5e-5);
}

TEST(Loads, EveryLawIsOddInVolts) {
  for (const LoadKind kind : every_kind) {
    for (double v = 0.1; v < 16; v += 0.37) {
      EXPECT_DOUBLE_EQ(load_point(load_of(kind), 20, -v).current_a, -load_point(load_of(kind), 20, v).current_a);
    }
  }
}

TEST(Loads, SlopeIsTheDerivativeAwayFromCorners) {
  constexpr double h = 1e-6;
  for (const LoadKind kind : every_kind) {
    for (const double v : {0.2, 3.1, 6.11, 7.7, 9.9, 12.3, 14.8}) {
      const Load load = load_of(kind);
      const double numeric = (load_point(load, 20, v + h).current_a - load_point(load, 20, v - h).current_a) / (2 * h);
      EXPECT_NEAR(load_point(load, 20, v).slope_s, numeric, 1e-6) << "kind " << static_cast<int>(kind) << " at " << v;
    }
  }
}

TEST(Loads, EveryLawIsContinuous) {
  for (const LoadKind kind : every_kind) {
    for (double v = 0; v < 16; v += 1e-3) {
      const Load load = load_of(kind);
      EXPECT_LT(std::abs(load_point(load, 20, v + 1e-3).current_a - load_point(load, 20, v).current_a), 0.02);
    }
  }
}

TEST(Loads, BankLinesTouchTheLawOfEachLoad) {
  LoadBank bank;
  std::vector<Load> loads;
  for (const LoadKind kind : every_kind) loads.push_back(load_of(kind));
  for (std::uint32_t j = 0; j < loads.size(); ++j) bank.add(loads[j], j);
  bank.add_empty();
  const std::vector<double> special_s(bank.special.size(), 20.0);
  for (const double at : {0.5, 5.9, 6.1, 8.0, 12.0, -12.0, -6.1}) {
    for (const Linearisation mode : {Linearisation::tangent, Linearisation::monotone, Linearisation::chord}) {
      const std::vector<double> v(bank.size(), at);
      std::vector<double> slope(bank.size(), 0.0);
      std::vector<double> offset(bank.size(), 0.0);
      linearise(bank, bank.s_va.data(), special_s.data(), v.data(), 0, bank.size(), 0, bank.special.size(), mode,
                slope.data(), offset.data());
      for (std::size_t j = 0; j < loads.size(); ++j) {
        EXPECT_NEAR(slope[j] * at + offset[j], load_point(loads[j], 20, at).current_a, 1e-12);
      }
      EXPECT_EQ(slope.back() * at + offset.back(), 0.0);
    }
  }
}

TEST(Loads, MonotoneLinesNeverFall) {
  LoadBank bank;
  bank.add(load_of(LoadKind::regulated_led), 0);
  for (double at = 0; at < 15; at += 0.1) {
    double slope = 0;
    double offset = 0;
    linearise(bank, bank.s_va.data(), nullptr, &at, 0, 1, 0, 0, Linearisation::monotone, &slope, &offset);
    EXPECT_GE(slope, 0.0);
  }
}

// So that a step down along such lines never passes the steady state.
TEST(Loads, NoLoadIsBelowItsChordFurtherDown) {
  for (const LoadKind kind : every_kind) {
    LoadBank bank;
    bank.add(load_of(kind), 0);
    const double special_s = 20;
    for (double at = 0; at < 15; at += 0.1) {
      double slope = 0;
      double offset = 0;
      linearise(bank, bank.s_va.data(), &special_s, &at, 0, 1, 0, bank.special.size(), Linearisation::chord, &slope,
                &offset);
      for (double v = 0; v <= at; v += 0.02) {
        EXPECT_GE(load_point(load_of(kind), 20, v).current_a, slope * v + offset - 1e-5)
            << static_cast<int>(kind) << " from " << at << " at " << v;
      }
    }
  }
}

TEST(Loads, NoChordFallsMoreSteeplyThanTheLeast) {
  for (const LoadKind kind : every_kind) {
    const Load load = load_of(kind);
    for (double x = 0; x < 15; x += 0.21) {
      for (double top = x; top < 15; top += 0.7) {
        const double least_s = least_chord_s(load, 20, x, top);
        for (double v = x + 0.01; v <= top; v += 0.03) {
          const double chord_s = (load_point(load, 20, v).current_a - load_point(load, 20, x).current_a) / (v - x);
          EXPECT_GE(chord_s, least_s - 1e-9) << static_cast<int>(kind) << " from " << x << " to " << v << " of " << top;
        }
      }
    }
  }
}

TEST(Loads, StateNamesWhereTheVoltsLie) {
  const Load load = load_of(LoadKind::regulated_led);
  EXPECT_EQ(load_state(load, 20, 5.9), LampState::off);
  EXPECT_EQ(load_state(load, 20, 8.9), LampState::dim);
  EXPECT_EQ(load_state(load, 20, 9.0), LampState::regulated);
  EXPECT_EQ(load_state(load, 20, 15.1), LampState::over);
  EXPECT_EQ(load_state(load, 0, 12.0), LampState::off);
}

TEST(Loads, LightFallsBelowRegulationAndEndsAtCutOff) {
  const Load load = load_of(LoadKind::regulated_led);
  EXPECT_EQ(load_light(load, 1, 12), 1);
  EXPECT_NEAR(load_light(load, 1, 8), 8.0 / 9.0, 1e-12);
  EXPECT_EQ(load_light(load, 1, 6), 0);
  EXPECT_EQ(load_light(load, 0.4, 12), 0.4);
}

}  // namespace
}  // namespace duskwire::electrical
