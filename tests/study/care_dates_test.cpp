// SPDX-License-Identifier: Apache-2.0
#include "study/care_dates.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "almanac/zones_2026.hpp"

namespace duskwire::study {
namespace {

job::Visit visit(const char* date, job::VisitKind kind) {
  job::Visit made;
  made.date = date;
  made.kind = kind;
  return made;
}

job::Job kept_garden() {
  job::Job job;
  job.site.latitude_deg = 41.6;
  job.visits = {visit("2026-03-01", job::VisitKind::survey), visit("2026-05-20", job::VisitKind::commissioning),
                visit("2026-05-22T20:30", job::VisitKind::hand_over)};
  job::Offer offer;
  offer.number = "17";
  offer.date = "2026-03-10";
  offer.terms.valid_days = 30;
  offer.terms.warranties = {{"transformer", 5, {}}, {"labour", 1.5, {}}};
  job.offer = offer;
  return job;
}

std::string date_of_id(const std::vector<CareDate>& dates, const std::string& id) {
  for (const CareDate& date : dates) {
    if (date.id == id) return almanac::date_text(date.date);
  }
  return "";
}

TEST(CareDates, AreThoseOfVisitsCareWarrantiesAndTheOffer) {
  const auto dates = care_dates(kept_garden(), almanac::testing::chicago_2026(), 2026, 2031);
  EXPECT_EQ(date_of_id(dates, "visit-1"), "2026-03-01");
  EXPECT_EQ(date_of_id(dates, "offer-end"), "2026-04-09");
  EXPECT_EQ(date_of_id(dates, "care-2026-spring"), "");
  EXPECT_EQ(date_of_id(dates, "care-2026-autumn"), "");  // under five months after the hand-over
  EXPECT_EQ(date_of_id(dates, "care-2027-spring"), "2027-04-15");
  EXPECT_EQ(date_of_id(dates, "care-2031-autumn"), "2031-10-15");
  EXPECT_EQ(date_of_id(dates, "warranty-1"), "2031-05-22");
  EXPECT_EQ(date_of_id(dates, "warranty-2"), "2027-11-22");
  EXPECT_TRUE(
      std::is_sorted(dates.begin(), dates.end(), [](const CareDate& a, const CareDate& b) { return a.date < b.date; }));
}

TEST(CareDates, ATimeWithoutAnOffsetIsTheSites) {
  job::Job job = kept_garden();
  job.visits.push_back(visit("2026-11-02T02:15:00Z", job::VisitKind::care));
  job.visits.push_back(visit("2026-07-01T08:00:00+02:00", job::VisitKind::service));
  const auto dates = care_dates(job, almanac::testing::chicago_2026(), 2026, 2026);
  const auto start = [&](const std::string& id) {
    const auto found = std::find_if(dates.begin(), dates.end(), [&](const CareDate& d) { return d.id == id; });
    return found->start_utc_s.value_or(0);
  };
  EXPECT_EQ(start("visit-2"), 0);
  EXPECT_EQ(start("visit-3"), almanac::testing::read_utc_s("2026-05-23T01:30:00Z"));
  EXPECT_EQ(start("visit-4"), almanac::testing::read_utc_s("2026-11-02T02:15:00Z"));
  EXPECT_EQ(date_of_id(dates, "visit-4"), "2026-11-01");  // by the site's clock
  EXPECT_EQ(start("visit-5"), almanac::testing::read_utc_s("2026-07-01T06:00:00Z"));
}

TEST(CareDates, SeasonsAreTurnedAboutInTheSouth) {
  job::Job job = kept_garden();
  job.site.latitude_deg = -33.9;
  const auto dates = care_dates(job, almanac::testing::sydney_2026(), 2027, 2027);
  EXPECT_EQ(date_of_id(dates, "care-2027-autumn"), "2027-04-15");
  EXPECT_EQ(date_of_id(dates, "care-2027-spring"), "2027-10-15");
}

TEST(CareDates, AMechanicalTimerIsSetOnEachChangeOfTheClocks) {
  job::Job job = kept_garden();
  job.catalogue.controls = {{"dial", "", job::ControlKind::mechanical_timer, 0, 0, {}}};
  job.transformers.resize(1);
  job.transformers[0].controls = {"dial"};
  const auto dates = care_dates(job, almanac::testing::chicago_2026(), 2026, 2026);
  EXPECT_EQ(date_of_id(dates, "clock-2026-03-08"), "2026-03-08");
  EXPECT_EQ(date_of_id(dates, "clock-2026-11-01"), "2026-11-01");
}

TEST(CareDates, WithoutAHandOverNothingIsPromised) {
  job::Job job = kept_garden();
  job.visits.clear();
  job.offer.reset();
  EXPECT_TRUE(care_dates(job, almanac::testing::chicago_2026(), 2026, 2031).empty());
  EXPECT_FALSE(handed_over(job));
}

TEST(CareDates, AWarrantyThatBeginsOnALeapDayEndsOnTheLastOfFebruary) {
  job::Job job = kept_garden();
  job.visits = {visit("2028-02-29", job::VisitKind::hand_over)};
  job.offer->terms.warranties = {{"lamps", 1, {}}};
  EXPECT_EQ(date_of_id(care_dates(job, almanac::testing::chicago_2026(), 2028, 2030), "warranty-1"), "2029-02-28");
}

}  // namespace
}  // namespace duskwire::study
