// SPDX-License-Identifier: Apache-2.0
// The log of a visit as a typed part of the job: what is wrong with an entry is found at its place, what is right comes
// back as it was written.
#include "formats/log_agreement.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/documents.hpp"
#include "formats/job_reader.hpp"
#include "formats/job_writer.hpp"

namespace duskwire::formats {
namespace {

using ::testing::HasSubstr;

Json full() { return Json::parse(full_job_text()); }

Json& entry(Json& job, std::size_t number) { return job["visits"][0]["log"][number - 1]; }

// Messages about the log, each with its place.
std::string told_of(const Json& job) {
  std::string all;
  for (const Problem& problem : read_job(job.dump()).problems) {
    if (problem.pointer.starts_with("/visits/0")) all += problem.pointer + ": " + problem.message + "\n";
  }
  return all;
}

TEST(LogAgreement, AWholeLogIsTakenWithoutAWord) { EXPECT_EQ(told_of(full()), ""); }

TEST(LogAgreement, EntriesComeBackAsTheyWereWritten) {
  const ReadJob read = read_job(full_job_text());
  ASSERT_TRUE(read.job);
  const Json back = Json::parse(write_job(*read.job));
  Json before = full();
  ASSERT_EQ(back["visits"][0]["log"].size(), before["visits"][0]["log"].size());
  for (std::size_t k = 1; k <= before["visits"][0]["log"].size(); ++k) {
    // As a device hashes them: keys sorted.
    EXPECT_EQ(nlohmann::json::parse(back["visits"][0]["log"][k - 1].dump()),
              nlohmann::json::parse(entry(before, k).dump()));
  }
}

TEST(LogAgreement, StruckReadingsCountNoLonger) {
  const ReadJob read = read_job(full_job_text());
  const job::Visit& visit = read.job->visits[0];
  const std::vector<job::Reading> standing = standing_readings(visit.log);
  EXPECT_EQ(standing, visit.readings);
  EXPECT_EQ(standing.front().value, 12.7) << "not the 1.27 that was struck";
}

TEST(LogAgreement, ABadValueWithinAnEntryIsFoundAtItsPlace) {
  Json job = full();
  entry(job, 2)["reading"]["quantity"] = "volts";
  entry(job, 1)["facts"]["meter_accuracy_pct"] = 200;
  entry(job, 3)["kind"] = "erase";
  const std::string told = told_of(job);
  EXPECT_THAT(told, HasSubstr("/visits/0/log/1/reading/quantity"));
  EXPECT_THAT(told, HasSubstr("/visits/0/log/0/facts/meter_accuracy_pct"));
  EXPECT_THAT(told, HasSubstr("/visits/0/log/2/kind"));
}

TEST(LogAgreement, AnEntryNeedsWhatItsKindSays) {
  Json job = full();
  entry(job, 3).erase("strikes");
  entry(job, 9).erase("covers");
  const std::string told = told_of(job);
  EXPECT_THAT(told, HasSubstr("kind strike, so it needs \"strikes\""));
  EXPECT_THAT(told, HasSubstr("kind sign, so it needs \"covers\""));
  EXPECT_FALSE(read_job(job.dump()).job);
}

TEST(LogAgreement, ALostOrDoubledEntryIsTold) {
  Json job = full();
  job["visits"][0]["log"].erase(1);  // phone-a's number 2, which the next one strikes
  EXPECT_THAT(told_of(job), HasSubstr("1 of the 5 entries that \"phone-a\" wrote are not in the log"));
  EXPECT_THAT(told_of(job), HasSubstr("strikes \"e2\", which the log does not have"));
  Json twice = full();
  twice["visits"][0]["log"].push_back(entry(twice, 4));
  EXPECT_THAT(told_of(twice), HasSubstr("Entry \"e4\" of the log is there twice"));
  EXPECT_TRUE(read_job(twice.dump()).job) << "a warning: nothing is refused";
}

TEST(LogAgreement, ReadingsThatAreNotTheLogsAreWarnedOf) {
  Json job = full();
  job["visits"][0]["readings"][0]["value"] = 12.9;
  EXPECT_THAT(told_of(job), HasSubstr("not those of its log"));
  job["visits"][0].erase("log");
  EXPECT_EQ(told_of(job), "") << "a visit without a log is what it says";
}

TEST(LogAgreement, OrderIsByTimeThenDeviceThenNumber) {
  std::vector<job::LogEntry> log(3);
  const char* places[] = {"late", "second", "first"};
  for (std::size_t k = 0; k < 3; ++k) {
    log[k].id = places[k];
    log[k].at = k == 0 ? "2026-04-02T22:00:00.000Z" : "2026-04-02T21:00:00.000Z";
    log[k].device = k == 1 ? "b" : "a";
    log[k].kind = job::LogKind::reading;
    log[k].reading = std::string(R"({"place":")") + places[k] + R"(","quantity":"voltage"})";
  }
  const std::vector<job::Reading> standing = standing_readings(log);
  EXPECT_EQ(standing[0].place, "first");
  EXPECT_EQ(standing[1].place, "second");
  EXPECT_EQ(standing[2].place, "late");
}

}  // namespace
}  // namespace duskwire::formats
