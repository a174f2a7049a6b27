// SPDX-License-Identifier: Apache-2.0
#include "estimate/materials.hpp"

#include "estimate/cable_length.hpp"
#include "estimate/cutting.hpp"
#include "estimate/goods.hpp"
#include "estimate/line_book.hpp"
#include "estimate/splices.hpp"
#include "estimate/sundries.hpp"

namespace duskwire::estimate {

std::string_view category_name(Category category) {
  switch (category) {
    case Category::luminaire:
      return "luminaire";
    case Category::transformer:
      return "transformer";
    case Category::control:
      return "control";
    case Category::cable:
      return "cable";
    case Category::connector:
      return "connector";
    case Category::mount:
      return "mount";
    case Category::sundry:
      return "sundry";
  }
  return "";
}

Materials materials(const job::Job& job, const job::Catalogue& stock, const MaterialsOptions& options) {
  Materials list;
  list.currency = job.site.currency;
  const EndIndex ends(job);
  const Stockroom stockroom(job.catalogue, stock);
  LineBook book(list.currency);
  count_goods(job, stockroom, book);
  count_cables(job, ends, stockroom, options, book, list);
  count_connectors(job, stockroom, book, list);
  count_sundries(job, ends, stockroom, options, book);
  book.hand_over(list);
  return list;
}

}  // namespace duskwire::estimate
