// SPDX-License-Identifier: Apache-2.0
#include "formats/job_writer.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "formats/documents.hpp"
#include "formats/job_reader.hpp"
#include "formats/random_job.hpp"

namespace duskwire::formats {
namespace {

job::Job read(const std::string& text) {
  const ReadJob read = read_job(text);
  EXPECT_TRUE(read.job) << told(read.problems);
  return read.job.value_or(job::Job{});
}

// Members of an object that are not in another, as pointers; lists are compared entry by entry.
void missing(const Json& from, const Json& in, const std::string& pointer, std::vector<std::string>& out) {
  if (from.is_object() && in.is_object()) {
    for (const auto& [key, value] : from.items()) {
      if (!in.contains(key)) {
        out.push_back(pointer + "/" + key);
      } else {
        missing(value, in[key], pointer + "/" + key, out);
      }
    }
  } else if (from.is_array() && in.is_array() && from.size() == in.size()) {
    for (std::size_t i = 0; i < from.size(); ++i) missing(from[i], in[i], pointer + "/" + std::to_string(i), out);
  } else if (from != in) {
    out.push_back(pointer);
  }
}

TEST(JobWriter, AFullJobComesBackWithEveryKeyAndValue) {
  const Json before = Json::parse(full_job_text());
  const Json after = Json::parse(write_job(read(full_job_text())));
  std::vector<std::string> lost;
  missing(before, after, "", lost);
  EXPECT_EQ(lost, std::vector<std::string>{});
}

TEST(JobWriter, ReadingBackGivesAnEqualJob) {
  for (const char* name :
       {"tests/schema/full-job", "examples/ostrey-garden", "examples/ostrey-garden-sound", "examples/small-garden"}) {
    const job::Job job = read(project_file(std::string(name) + ".json"));
    EXPECT_EQ(read(write_job(job)), job) << name;
  }
}

TEST(JobWriter, WritingAgainChangesNothing) {
  const std::string once = write_job(read(full_job_text()));
  EXPECT_EQ(write_job(read(once)), once);
}

TEST(JobWriter, RandomJobsComeBackEqualAndStable) {
  for (std::uint32_t seed = 1; seed <= 150; ++seed) {
    const job::Job job = random_job(seed);
    const std::string text = write_job(job);
    const ReadJob back = read_job(text);
    ASSERT_TRUE(back.job) << "seed " << seed << "\n" << told(back.problems);
    ASSERT_EQ(*back.job, job) << "seed " << seed << "\n" << text;
    ASSERT_EQ(write_job(*back.job), text) << "seed " << seed;
  }
}

TEST(JobWriter, DefaultsAreWrittenAndEmptinessIsNot) {
  job::Job job;
  job.id = "j";
  job.luminaires.resize(1);
  job.luminaires[0].id = "F1";
  const Json tree = Json::parse(write_job(job));
  EXPECT_EQ(tree["site"]["mains_v"], 120);
  EXPECT_EQ(tree["site"]["currency"], "USD");
  EXPECT_EQ(tree["practice"]["waste_pct"], 10);
  EXPECT_EQ(tree["luminaires"][0]["dim_pct"], 100);
  EXPECT_FALSE(tree["luminaires"][0].contains("zone"));
  EXPECT_FALSE(tree["luminaires"][0].contains("position"));
  EXPECT_FALSE(tree.contains("cables"));
  EXPECT_FALSE(tree.contains("client"));
  EXPECT_FALSE(tree.contains("offer"));
}

TEST(JobWriter, KeysComeInTheOrderOfTheFormat) {
  job::Job job = read(full_job_text());
  const std::string text = write_job(job);
  EXPECT_TRUE(text.starts_with("{\n  \"format\": \"duskwire-job\",\n  \"version\": 1,\n  \"id\": \"full-job\",\n"));
  EXPECT_TRUE(text.ends_with("}\n"));
  std::size_t at = 0;
  for (const char* part :
       {"\"site\"", "\"client\"", "\"catalogue\"", "\"plan\"", "\n  \"luminaires\"", "\n  \"transformers\"",
        "\n  \"cables\"", "\n  \"joints\"", "\"views\"", "\"visits\"", "\"unknown_part\""}) {
    const std::size_t next = text.find(part, at);
    EXPECT_NE(next, std::string::npos) << part;
    at = next;
  }
}

TEST(JobWriter, APointStaysOnOneLine) {
  EXPECT_NE(write_job(read(full_job_text())).find("\"path\": [\n        [0.4, -0.2],\n        [1.25, -2.5],\n"),
            std::string::npos);
}

TEST(JobWriter, OneChangedValueChangesOneLine) {
  job::Job job = read(full_job_text());
  const std::string before = write_job(job);
  job.cables[1].length_m = 7.25;
  const std::string after = write_job(job);
  const auto count = [](const std::string& text) { return std::count(text.begin(), text.end(), '\n'); };
  EXPECT_EQ(count(before), count(after));
  std::istringstream p(before), q(after);
  int changed = 0;
  for (std::string line_p, line_q; std::getline(p, line_p) && std::getline(q, line_q);) changed += line_p != line_q;
  EXPECT_EQ(changed, 1);
}

TEST(JobWriter, TextThatIsNotUtf8IsMadeSo) {
  job::Job job;
  job.id = "j";
  job.title = "a\xFF";
  EXPECT_EQ(read(write_job(job)).title, "a\xEF\xBF\xBD");
}

TEST(JobWriter, AnUnknownKeyNeverHidesAKnownOne) {
  job::Job job;
  job.id = "j";
  job.extra = R"({"id":"other","own":1})";
  const Json tree = Json::parse(write_job(job));
  EXPECT_EQ(tree["id"], "j");
  EXPECT_EQ(tree["own"], 1);
}

}  // namespace
}  // namespace duskwire::formats
