// SPDX-License-Identifier: Apache-2.0
#include "server/night_desk.hpp"

#include <utility>

#include "paper/night_sheet.hpp"
#include "paper/view_night.hpp"
#include "pictures/codec.hpp"

namespace duskwire::server {

NightDesk::NightDesk(unsigned threads, PictureOpener open)
    : Desk({"A night picture is being made already: wait until it is done, or end it first.",
            "The night picture could not be made."},
           [threads, open = std::move(open)](const NightOrder& order,
                                             const DeskProgress& progress) -> Result<MadeNight> {
             Result<OpenedPicture> photograph = open(order.photograph, 0);
             if (!photograph) return photograph.error();
             Result<paper::ViewNight> made =
                 paper::view_night(order.job, order.wish, std::move(photograph.value().picture), threads, progress);
             if (!made) return made.error();
             Result<std::string> png =
                 pictures::encode_png(paper::night_sheet(made.value().night, made.value().caption));
             if (!png) return png.error();
             return MadeNight{std::move(png).value(), made.value().view.assumptions, made.value().view.remarks};
           }) {}

}  // namespace duskwire::server
