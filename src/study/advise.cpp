// SPDX-License-Identifier: Apache-2.0
#include "study/advise.hpp"

#include "study/advice_parts.hpp"

namespace duskwire::study {

Advice advise(const job::Job& job, const job::Catalogue& stock) {
  const Built built = build(job);
  const Numbers numbers = analyse(built);
  Advice advice;
  advice.taps = advise_taps(job);
  advice.transformers = advise_transformers(built, numbers, stock);
  advice.protection = advise_protection(built, numbers);
  return advice;
}

}  // namespace duskwire::study
