// SPDX-License-Identifier: Apache-2.0
// The photograph of a view, from the disk: the file named on the command line, the file of that name beside the job, or
// the picture beside the job whose content has the hash that the job names.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "job/view.hpp"

namespace duskwire::cli {

// The file's bytes. `given`: as typed; empty where it was left out.
[[nodiscard]] Result<std::string> read_photo(const job::View& view, const std::string& job_file,
                                             const std::string& given);

struct PictureBeside {
  std::string hash;
  std::string bytes;
};

// Those of these hashes that are the content of a picture beside the job.
[[nodiscard]] std::vector<PictureBeside> pictures_beside(const std::string& job_file,
                                                         const std::vector<std::string>& hashes);

}  // namespace duskwire::cli
