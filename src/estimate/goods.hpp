// SPDX-License-Identifier: Apache-2.0
// What is bought by the piece for its own sake: luminaires with their mounts, transformers, controls.
#pragma once

#include <optional>

#include "estimate/line_book.hpp"

namespace duskwire::estimate {

// What a luminaire of this kind stands or hangs on, as bought with it. Common practice, no source.
[[nodiscard]] std::optional<job::SundryKind> mount_of(job::LuminaireKind kind);

void count_goods(const job::Job& job, const Stockroom& stockroom, LineBook& book);

}  // namespace duskwire::estimate
