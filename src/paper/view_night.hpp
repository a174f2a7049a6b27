// SPDX-License-Identifier: Apache-2.0
// The night of one view of a job, from the bytes of its photograph: what the command, the server and the papers show.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/result.hpp"
#include "paper/document.hpp"
#include "paper/night_render.hpp"
#include "paper/night_sheet.hpp"
#include "pictures/picture.hpp"
#include "study/night_session.hpp"

namespace duskwire::paper {

struct NightSize {
  std::optional<std::uint32_t> most_width_px;  // where absent as the photograph is
  unsigned threads = 1;
};

struct ViewNight {
  study::NightView view;
  RenderedNight night;
  NightCaption caption;
};

// Errors: as of a picture that cannot be read and of study::night_view; unavailable where it was ended.
[[nodiscard]] Result<ViewNight> view_night(const job::Job& job, const study::NightWish& wish,
                                           const std::string& photograph, const NightSize& size,
                                           const NightProgress& progress = {});

// The same of a photograph that was decoded elsewhere: opaque, and as large as the night is to be.
[[nodiscard]] Result<ViewNight> view_night(const job::Job& job, const study::NightWish& wish,
                                           pictures::Picture photograph, unsigned threads,
                                           const NightProgress& progress = {});

// As wide as a sheet's text at the resolution of a print: a finer picture would show no more on paper.
inline constexpr std::uint32_t paper_night_width_px = 1400;

// As it stands on a paper, with the caption that says what it is and what was assumed.
[[nodiscard]] Picture night_on_paper(const ViewNight& made);

}  // namespace duskwire::paper
