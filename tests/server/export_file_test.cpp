// SPDX-License-Identifier: Apache-2.0
// A job as one file and back.
#include "server/export_file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "formats/catalogue_file.hpp"
#include "formats/embedded.hpp"
#include "formats/job_reader.hpp"
#include "formats/ruleset_file.hpp"
#include "office/unpack.hpp"
#include "store/workspace.hpp"

namespace duskwire::server {
namespace {

using ::testing::HasSubstr;

std::string example(const std::string& name) {
  std::ifstream file(std::string(DUSKWIRE_SOURCE_DIR) + "/examples/" + name, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

class ExportFile : public ::testing::Test {
 protected:
  ExportFile() {
    order_.job = *formats::read_job(document_).job;
    order_.stock = *formats::read_catalogue(formats::embedded_stock_catalogue()).catalogue;
    order_.ruleset = *formats::read_ruleset(formats::embedded_ruleset("us")).ruleset;
    order_.wish.date = "2026-11-26";
  }

  std::string exported(bool with_papers = false) {
    auto made = export_file(document_, {{store::sha256_hex(photo_), photo_}}, order_, with_papers);
    return made ? made.value().bytes : made.error().message;
  }

  // The archive with one file changed, or left out where `bytes` is null.
  std::string changed(const std::string& name, const std::string* bytes) {
    std::vector<office::ArchiveEntry> entries = office::unpack(exported()).value();
    std::vector<office::ArchiveEntry> kept;
    for (office::ArchiveEntry& entry : entries) {
      if (entry.name != name) kept.push_back(entry);
      if (entry.name == name && bytes != nullptr) kept.push_back({name, *bytes});
    }
    return office::zip_archive(kept, 0).value();
  }

  std::string document_ = example("ostrey-garden-sound.json");
  std::string photo_ = example("ostrey-front.jpg");
  PapersOrder order_;
};

TEST_F(ExportFile, ComesBackByteForByteWithItsPicture) {
  const std::string archive = exported();
  const auto imported = import_file(archive);
  ASSERT_TRUE(imported.ok()) << imported.error().message;
  EXPECT_EQ(store::sha256_hex(imported.value().document), store::sha256_hex(document_));
  ASSERT_EQ(imported.value().pictures.size(), 1u);
  EXPECT_EQ(imported.value().pictures[0].bytes, photo_);
  EXPECT_TRUE(imported.value().missing.empty());
  EXPECT_EQ(exported(), archive);
}

TEST_F(ExportFile, HoldsPapersTablesSchemaAndAChecksumForEachFile) {
  const auto files = office::unpack(exported(true));
  ASSERT_TRUE(files.ok());
  std::string sums;
  std::vector<std::string> names;
  for (const office::ArchiveEntry& entry : files.value()) {
    names.push_back(entry.name);
    if (entry.name == "SHA256SUMS") sums = entry.bytes;
    if (entry.name.rfind("papers/", 0) == 0) {
      EXPECT_EQ(entry.bytes.substr(0, 5), "%PDF-") << entry.name;
    }
  }
  for (const char* name :
       {"README.txt", "job.json", "papers/proposal.pdf", "papers/crew.pdf", "papers/commissioning.pdf",
        "papers/owner.pdf", "tables/lamps.csv", "tables/cables.csv", "tables/joints.csv", "tables/outputs.csv",
        "tables/materials.csv", "tables/price.csv", "tables/readings.csv", "schema/job-v1.schema.json"}) {
    EXPECT_THAT(names, ::testing::Contains(name));
    EXPECT_THAT(sums, HasSubstr(std::string("  ") + name + "\n"));
  }
}

TEST_F(ExportFile, RefusesWhatIsChangedOrMissing) {
  const std::string other = "{}";
  const auto edited = import_file(changed("job.json", &other));
  ASSERT_FALSE(edited.ok());
  EXPECT_THAT(edited.error().message, HasSubstr("\"job.json\" does not match its SHA-256"));
  const auto lacking = import_file(changed("tables/lamps.csv", nullptr));
  ASSERT_FALSE(lacking.ok());
  EXPECT_THAT(lacking.error().message, HasSubstr("lacks a part"));
  const std::string nonsense = "not a list\n";
  const auto unlisted = import_file(changed("SHA256SUMS", &nonsense));
  ASSERT_FALSE(unlisted.ok());
  EXPECT_THAT(unlisted.error().message, HasSubstr("no list of checksums"));
  const auto strange = import_file(office::zip_archive({{"letter.txt", "x"}}, 0).value());
  ASSERT_FALSE(strange.ok());
  EXPECT_THAT(strange.error().message, HasSubstr("no job.json"));
}

// A file of the page of before has no checksums: it is read, and what it lacks is named.
TEST_F(ExportFile, ReadsAFileWithoutChecksumsAndNamesTheMissingPicture) {
  const auto imported = import_file(office::zip_archive({{"job.json", document_}}, 0).value());
  ASSERT_TRUE(imported.ok());
  EXPECT_EQ(imported.value().missing, std::vector<std::string>{store::sha256_hex(photo_)});
}

// With carriage returns, empty lines and no end of the last one, as a person's own tools leave them.
TEST_F(ExportFile, ReadsChecksumsThatAnotherSystemWroteAnew) {
  const auto files = office::unpack(exported());
  const std::string& sums = files.value().back().bytes;
  std::string again;
  for (const char c : sums) again += c == '\n' ? std::string("\r\n\r\n\n") : std::string(1, c);
  again.resize(again.find_last_not_of("\r\n") + 1);
  const auto imported = import_file(changed("SHA256SUMS", &again));
  EXPECT_TRUE(imported.ok()) << imported.error().message;
}

TEST_F(ExportFile, RefusesALineThatIsNoChecksum) {
  const std::string hash(64, 'a');
  for (const std::string& line : {std::string("x"), hash, hash + "  ", hash.substr(1) + "A  job.json",
                                  std::string(64, 'g') + "  job.json", " " + hash + " job.json"}) {
    const auto refused = import_file(office::zip_archive({{"job.json", "{}"}, {"SHA256SUMS", line}}, 0).value());
    ASSERT_FALSE(refused.ok()) << line;
    EXPECT_THAT(refused.error().message, HasSubstr("no list of checksums")) << line;
  }
  EXPECT_THAT(import_file("PK and nothing else").error().message, HasSubstr("no zip archive"));
}

TEST_F(ExportFile, NamesPicturesByTheirBytesAndKeepsEachOnce) {
  const std::string a(64, 'a'), b(64, 'b'), c(64, 'c'), d(64, 'd'), e(64, 'e');
  const auto made = export_file(document_,
                                {{a, "\x89PNG and more"},
                                 {b, "RIFF....WEBPVP8 "},
                                 {c, "RIFF"},
                                 {d, "RIFF....WAVEfmt "},
                                 {e, photo_},
                                 {a, "\x89PNG and more"},
                                 {std::string(64, 'f'), "plain words"}},
                                order_, false);
  ASSERT_TRUE(made.ok()) << made.error().message;
  std::vector<std::string> names;
  const auto files = office::unpack(made.value().bytes);
  for (const office::ArchiveEntry& entry : files.value()) {
    if (entry.name.rfind("pictures/", 0) == 0) names.push_back(entry.name.substr(9 + 63));
  }
  EXPECT_EQ(names, (std::vector<std::string>{"a.png", "b.webp", "c.bin", "d.bin", "e.jpg", "f.bin"}));
  EXPECT_FALSE(export_file(document_, {{"../a", photo_}}, order_, false).ok()) << "no name within the archive";
}

TEST_F(ExportFile, EndsWhenItIsToldTo) {
  EXPECT_FALSE(export_file(document_, {}, order_, true, [](double) { return false; }).ok());
}

TEST_F(ExportFile, SaysThatThePapersOfAJobWithErrorsCarryACaution) {
  document_ = example("small-garden.json");
  order_.job = *formats::read_job(document_).job;
  order_.job.cables.at(0).length_m = 5000;
  const auto made = export_file(document_, {}, order_, true);
  ASSERT_TRUE(made.ok()) << made.error().message;
  EXPECT_THAT(made.value().remarks, ::testing::Contains(HasSubstr("The papers carry a caution.")));
}

TEST(PictureHashes, AreTheTextsOfADocumentThatAreHashes) {
  const std::string a(64, 'a');
  const std::string b(64, '0');
  EXPECT_EQ(picture_hashes("{\"image\": \"" + a + "\", \"x\": [\"" + b + "\", \"" + a + "\", \"" + a + "0\", \"" +
                           std::string(64, 'A') + "\"], \"" + a),
            (std::vector<std::string>{a, b}));
}

}  // namespace
}  // namespace duskwire::server
