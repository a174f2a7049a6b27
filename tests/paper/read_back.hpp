// SPDX-License-Identifier: Apache-2.0
// PDFs read back by programs that are not ours: poppler's and qpdf.
#pragma once

#include <string>
#include <vector>

namespace duskwire::paper {

// A file of these bytes in a folder of its own, gone when this is.
class PaperFile {
 public:
  explicit PaperFile(const std::string& bytes);
  ~PaperFile();
  PaperFile(const PaperFile&) = delete;
  PaperFile& operator=(const PaperFile&) = delete;

  // What a program said about it, standard error included: "pdfinfo -struct". The file's name is put behind; `behind`
  // follows it.
  [[nodiscard]] std::string told(const std::string& program, const std::string& behind = "") const;
  // A page as poppler paints it: grey, row by row.
  struct Painted {
    int width_px = 0;
    int height_px = 0;
    std::vector<unsigned char> grey;
  };
  [[nodiscard]] Painted painted(int page, double dots_per_inch) const;

 private:
  std::string folder_;
  std::string path_;
};

// The text without line feeds and runs of blanks, so that where lines break does not matter.
[[nodiscard]] std::string on_one_line(const std::string& text);

}  // namespace duskwire::paper
