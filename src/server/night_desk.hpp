// SPDX-License-Identifier: Apache-2.0
// Night pictures at full size, made in the background.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "server/desk.hpp"
#include "server/picture_codec.hpp"
#include "study/night_session.hpp"

namespace duskwire::server {

struct NightOrder {
  job::Job job;
  study::NightWish wish;
  std::string photograph;  // the file's bytes
};

struct MadeNight {
  std::string png;  // with its caption
  std::vector<std::string> assumptions;
  std::vector<std::string> remarks;
};

class NightDesk : public Desk<NightOrder, MadeNight> {
 public:
  NightDesk(unsigned threads, PictureOpener open);
};

}  // namespace duskwire::server
