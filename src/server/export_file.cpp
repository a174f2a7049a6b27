// SPDX-License-Identifier: Apache-2.0
#include "server/export_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "estimate/materials.hpp"
#include "formats/deposit_rules_file.hpp"
#include "formats/export_tables.hpp"
#include "formats/export_texts.hpp"
#include "office/archive.hpp"
#include "office/unpack.hpp"
#include "store/workspace.hpp"
#include "study/check.hpp"
#include "study/price.hpp"

namespace duskwire::server {
namespace {

constexpr std::size_t hash_digits = 64;
constexpr const char* document_name = "job.json";
constexpr const char* sums_name = "SHA256SUMS";

bool is_hash(std::string_view text) {
  return text.size() == hash_digits && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

// By the bytes, whatever they were called.
const char* ending_of(std::string_view bytes) {
  if (bytes.substr(0, 3) == "\xff\xd8\xff") return "jpg";
  if (bytes.substr(0, 4) == "\x89PNG") return "png";
  if (bytes.substr(0, 4) == "RIFF" && bytes.size() > 12 && bytes.substr(8, 4) == "WEBP") return "webp";
  return "bin";
}

std::vector<formats::ExportText> texts_of(const PapersOrder& order) {
  const estimate::Materials materials = estimate::materials(order.job, order.stock);
  const study::Report report = study::check(order.job, order.ruleset, order.stock, {false});
  const estimate::Price price = study::price(order.job, order.stock, formats::embedded_deposit_rules().rules);
  return formats::export_texts(order.job.title,
                               formats::export_tables(order.job, order.stock, report, materials, price));
}

std::string sums_of(const std::vector<office::ArchiveEntry>& entries) {
  std::string text;
  for (const office::ArchiveEntry& entry : entries) {
    text += fmt::format("{}  {}\n", store::sha256_hex(entry.bytes), entry.name);
  }
  return text;
}

Error refused(std::string message) { return {ErrorCode::invalid, std::move(message)}; }

using ByName = std::map<std::string_view, const office::ArchiveEntry*>;

// Lines as sha256sum writes them: 64 digits, two characters, a name.
Result<bool> sums_hold(std::string_view sums, const ByName& files) {
  constexpr std::size_t before_name = hash_digits + 2;
  for (std::size_t start = 0; start < sums.size();) {
    const std::size_t end = std::min(sums.find('\n', start), sums.size());
    std::string_view line = sums.substr(start, end - start);
    start = end + 1;
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    if (line.empty()) continue;
    if (line.size() <= before_name || !is_hash(line.substr(0, hash_digits))) {
      return refused("SHA256SUMS in the file is no list of checksums. Nothing was taken in.");
    }
    const auto file = files.find(line.substr(before_name));
    if (file == files.end()) {
      return refused(
          fmt::format("The file lacks a part that its SHA256SUMS names ({} parts are there). Nothing was "
                      "taken in. Fetch or copy the file again.",
                      files.size()));
    }
    if (store::sha256_hex(file->second->bytes) != line.substr(0, hash_digits)) {
      return refused(
          fmt::format("\"{}\" does not match its SHA-256: it was changed or damaged. Nothing was taken in. "
                      "Fetch or copy the file again.",
                      file->second->name));
    }
  }
  return true;
}

}  // namespace

std::vector<std::string> picture_hashes(std::string_view document) {
  // References are texts that are hashes: 64 digits between quotes. Nothing else in a document looks so.
  std::vector<std::string> hashes;
  for (std::size_t quote = document.find('"'); quote != std::string_view::npos; quote = document.find('"', quote + 1)) {
    const std::string_view text = document.substr(quote + 1, hash_digits);
    if (!is_hash(text) || document.substr(quote + 1 + hash_digits, 1) != "\"") continue;
    if (std::find(hashes.begin(), hashes.end(), text) == hashes.end()) hashes.emplace_back(text);
  }
  return hashes;
}

Result<ExportedFile> export_file(const std::string& document, const std::vector<ExportPicture>& pictures,
                                 const PapersOrder& order, bool with_papers, const PapersProgress& progress) {
  ExportedFile exported;
  std::vector<office::ArchiveEntry> entries;
  for (formats::ExportText& text : texts_of(order)) entries.push_back({std::move(text.name), std::move(text.text)});
  entries.insert(entries.begin() + 1, {document_name, document});
  std::set<std::string> there;
  for (const ExportPicture& picture : pictures) {
    if (!there.insert(picture.hash).second) continue;
    entries.push_back({fmt::format("pictures/{}.{}", picture.hash, ending_of(picture.bytes)), picture.bytes});
  }
  if (with_papers) {
    PapersOrder all = order;
    all.only = paper_names();
    Result<std::vector<MadeFile>> made = make_papers(all, progress);
    if (!made) return made.error();
    for (const MadeFile& file : made.value()) {
      if (file.job_errors.empty()) continue;
      exported.remarks.push_back(file.job_errors + " The papers carry a caution.");
      break;  // the same on all of them
    }
    for (MadeFile& file : made.value()) {
      for (const std::string& remark : file.remarks) exported.remarks.push_back(file.name + ": " + remark);
      entries.push_back({"papers/" + file.name, std::move(file.bytes)});
    }
  }
  entries.push_back({sums_name, sums_of(entries)});
  Result<std::string> bytes = office::zip_archive(entries, 0);
  if (!bytes) return bytes.error();
  exported.bytes = std::move(bytes).value();
  return exported;
}

Result<ImportedFile> import_file(std::string_view archive) {
  Result<std::vector<office::ArchiveEntry>> unpacked = office::unpack(archive);
  if (!unpacked) return unpacked.error();
  ByName files;
  for (const office::ArchiveEntry& entry : unpacked.value()) files.emplace(entry.name, &entry);
  if (const auto sums = files.find(sums_name); sums != files.end()) {
    if (const Result<bool> hold = sums_hold(sums->second->bytes, files); !hold) return hold.error();
  }
  const auto document = files.find(document_name);
  if (document == files.end()) {
    return refused("There is no job.json in the file: it is no job that was exported. Nothing was taken in.");
  }
  ImportedFile imported;
  imported.document = document->second->bytes;
  std::map<std::string, const office::ArchiveEntry*> pictures;
  for (const auto& [name, entry] : files) {
    if (name.rfind("pictures/", 0) == 0) pictures.emplace(store::sha256_hex(entry->bytes), entry);
  }
  for (const std::string& hash : picture_hashes(imported.document)) {
    const auto picture = pictures.find(hash);
    if (picture == pictures.end()) {
      imported.missing.push_back(hash);
    } else {
      imported.pictures.push_back({hash, picture->second->bytes});
    }
  }
  return imported;
}

}  // namespace duskwire::server
