// SPDX-License-Identifier: Apache-2.0
#include "server/paper_desk.hpp"

namespace duskwire::server {

PaperDesk::PaperDesk()
    : Desk({"Papers are being made already: wait until they are done, or end them first.",
            "The papers could not be made."},
           [](const PapersOrder& order, const DeskProgress& progress) -> Result<PaperSet> {
             Result<std::vector<MadeFile>> files = make_papers(order, progress);
             if (!files) return files.error();
             return PaperSet{std::move(files).value(), order.wish.date};
           }) {}

}  // namespace duskwire::server
