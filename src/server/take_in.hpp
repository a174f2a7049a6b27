// SPDX-License-Identifier: Apache-2.0
// A job from outside (a file, an archive) put into a workspace: pictures are decoded in the process that can do nothing
// else before anything of them is kept, and a workspace keeps no camera's notes.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "server/export_file.hpp"
#include "server/picture_codec.hpp"
#include "store/workspace.hpp"

namespace duskwire::server {

// Under the hash that the document gives it, and what it is.
struct CheckedPicture {
  store::Picture picture;
  std::string ending;  // of a file of its kind: "jpg"
};

// Decoded whole, so that what is no picture by its bytes never reaches a store or a folder under the name of one.
[[nodiscard]] Result<CheckedPicture> checked_picture(const ExportPicture& given, const PictureTools& tools);

// A picture with a camera's notes (place, moment, device) is made anew, and the document names it by its new content.
// True where that was so.
[[nodiscard]] Result<bool> without_notes(CheckedPicture& checked, std::string& document, const PictureTools& tools);

// Pictures first, so that a stored document never names one that is not there. The document is JSON with an id that can
// name a job. A conflict where the workspace has a job of that id.
[[nodiscard]] store::SaveOutcome put_job(store::Workspace& workspace, const std::string& document,
                                         const std::vector<CheckedPicture>& pictures, const std::string& label);

}  // namespace duskwire::server
