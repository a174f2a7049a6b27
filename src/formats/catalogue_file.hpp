// SPDX-License-Identifier: Apache-2.0
// A catalogue as a file of its own: the stock, or what a shop puts over it (job/catalogue_merge.hpp).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "job/catalogue.hpp"

namespace duskwire::formats {

struct ReadCatalogue {
  std::optional<job::Catalogue> catalogue;  // only where no problem is an error
  std::vector<std::string> remove;          // ids of stock items that the shop does not carry
  Problems problems;
};

[[nodiscard]] ReadCatalogue read_catalogue(std::string_view text);

[[nodiscard]] std::string write_catalogue(const job::Catalogue& catalogue, const std::vector<std::string>& remove = {});

}  // namespace duskwire::formats
