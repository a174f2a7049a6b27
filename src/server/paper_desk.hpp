// SPDX-License-Identifier: Apache-2.0
// Papers made in the background.
#pragma once

#include <string>
#include <vector>

#include "server/desk.hpp"
#include "server/papers.hpp"

namespace duskwire::server {

struct PaperSet {
  std::vector<MadeFile> files;
  std::string date;
};

class PaperDesk : public Desk<PapersOrder, PaperSet> {
 public:
  PaperDesk();
};

}  // namespace duskwire::server
