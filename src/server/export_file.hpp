// SPDX-License-Identifier: Apache-2.0
// A job as one file for the long now: the document as it is, its pictures as they are stored, its papers, every
// schedule as CSV, the schema, a README and checksums (docs/job-file.md). And the way back.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "server/papers.hpp"

namespace duskwire::server {

struct ExportPicture {
  std::string hash;  // SHA-256 of `bytes`
  std::string bytes;
};

// The hashes that a document refers to, each once, in the order of the document.
[[nodiscard]] std::vector<std::string> picture_hashes(std::string_view document);

struct ExportedFile {
  std::string bytes;                 // of the archive
  std::vector<std::string> remarks;  // what its papers lack and why, a sentence each
};

// `document`: the text that `order.job` was read from; it comes back byte for byte. Without papers where `with_papers`
// is false. The same order gives the same bytes.
[[nodiscard]] Result<ExportedFile> export_file(const std::string& document, const std::vector<ExportPicture>& pictures,
                                               const PapersOrder& order, bool with_papers,
                                               const PapersProgress& progress = {});

struct ImportedFile {
  std::string document;
  std::vector<ExportPicture> pictures;  // that the document refers to
  std::vector<std::string> missing;     // hashes that it refers to and the file lacks
};

// Every checksum that the file brings is held against its bytes. Errors: as office::unpack, and invalid where a
// checksum is wrong, a file that it names is missing, or there is no job.json.
[[nodiscard]] Result<ImportedFile> import_file(std::string_view archive);

}  // namespace duskwire::server
