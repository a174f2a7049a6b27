// SPDX-License-Identifier: Apache-2.0
// What the variables of the program of a small site are called. With d a direction of a way (twice its index, plus one
// backwards), h the point at which a cable ends (each lamp has exactly one, another point at most one), p a point at
// which it begins, g its size, c a class of current:
//   y<way> dug   z<d> dug, away from the transformer   f<lamp>_<d> the trench leads to this lamp over d
//   r<h>_<d> the cable lies there   s<h>_<p> it begins at p   t<h> it ends in the lamp itself   u<h> there is a joint
//   b<h>_<g>_<c> its size and class   l<h>_<g>_<c> its metres   i<h> its amperes   w<h>_<p> those drawn from p
//   e<h>_<g>_<c> its amperes in its size and class   a<lamp> the lamp's amperes
//   k<n> the n-th device is fitted   o<h> ohms from the terminals to its end
//   n<way>_<g> cables of a size in a way   x<way>_<g> their amperes   p<way>_<g> VA lost in them   q<h> VA lost in
//   slack one the constant 1   v<h> volts lost from the terminals to its end   j<h>_<n>_<g> a joint of n wires, the
//   thickest of size g
#pragma once

#include <fmt/format.h>

#include <cstdint>
#include <string>

namespace duskwire::wiring {

inline constexpr std::uint32_t current_classes = 4;

template <class... Indices>
[[nodiscard]] std::string name(char letter, Indices... indices) {
  std::string text(1, letter);
  const char* between = "";
  ((text += fmt::format("{}{}", between, indices), between = "_"), ...);
  return text;
}

}  // namespace duskwire::wiring
