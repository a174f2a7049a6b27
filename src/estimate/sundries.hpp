// SPDX-License-Identifier: Apache-2.0
// Small goods that follow from the cables: staples, sleeves, tags.
#pragma once

#include "estimate/cable_length.hpp"
#include "estimate/line_book.hpp"
#include "estimate/materials.hpp"

namespace duskwire::estimate {

// How far a sleeve reaches past each edge of what it runs under. Common practice, no source.
inline constexpr double sleeve_overhang_m = 0.15;

// Adds pieces of the cheapest sundry of a kind, or says that the catalogue has none.
void add_sundry(Category category, job::SundryKind kind, double pieces, std::string note, const Stockroom& stockroom,
                LineBook& book);

void count_sundries(const job::Job& job, const EndIndex& ends, const Stockroom& stockroom,
                    const MaterialsOptions& options, LineBook& book);

}  // namespace duskwire::estimate
