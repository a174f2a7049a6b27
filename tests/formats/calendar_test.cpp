// SPDX-License-Identifier: Apache-2.0
// Calendars are read back by libical, which knows nothing of the writer: parsed without a complaint, moments turned
// into UTC by the zone that the calendar itself carries.
#include "formats/calendar.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <libical/ical.h>

#include <cstring>
#include <memory>
#include <string>
#include <vector>

namespace duskwire::formats {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

struct Component {
  explicit Component(const std::string& text) : it(icalparser_parse_string(text.c_str())) {}
  ~Component() {
    if (it != nullptr) icalcomponent_free(it);
  }
  Component(const Component&) = delete;
  Component& operator=(const Component&) = delete;
  icalcomponent* it;
};

almanac::Zone chicago() {
  return {"America/Chicago", {{1762066800, -21600, "CST"}, {1772956800, -18000, "CDT"}, {1793516400, -21600, "CST"}}};
}

CalendarEvent timed(const char* uid, std::int64_t start_utc_s) {
  CalendarEvent event;
  event.uid = uid;
  event.summary = "Night visit";
  event.whole_day = false;
  event.start_utc_s = start_utc_s;
  event.duration_min = 90;
  return event;
}

Calendar small_calendar() {
  Calendar calendar;
  calendar.name = "Garden";
  calendar.zone = chicago();
  calendar.stamp_utc_s = 1790000000;
  CalendarEvent care;
  care.uid = "garden-care-2027@duskwire";
  care.summary = "Care visit, spring; clean \\ aim";
  care.description = "Straighten and aim.\nРасправить и навести свет; 灯を調整する. " + std::string(200, 'x');
  care.location = "14 Tillerpatch Lane, Quenby Falls";
  care.date = almanac::make_date(2027, 4, 12);
  calendar.events.push_back(care);
  return calendar;
}

// libical marks what it cannot read with properties of its own.
std::string complaints(icalcomponent* calendar) {
  icalrestriction_check(calendar);
  const std::string text = icalcomponent_as_ical_string(calendar);
  return text.find("X-LIC-ERROR") == std::string::npos ? "" : text;
}

TEST(Calendar, IsReadByAnotherReaderWithoutAComplaint) {
  Calendar calendar = small_calendar();
  calendar.events.push_back(timed("visit-1@duskwire", 1773016080));
  const Component read(calendar_text(calendar));
  ASSERT_NE(read.it, nullptr);
  EXPECT_EQ(icalcomponent_count_errors(read.it), 0);
  EXPECT_EQ(complaints(read.it), "");
  EXPECT_EQ(icalcomponent_count_components(read.it, ICAL_VEVENT_COMPONENT), 2);
  EXPECT_EQ(icalcomponent_count_components(read.it, ICAL_VTIMEZONE_COMPONENT), 1);
}

TEST(Calendar, TextsComeBackAsTheyWere) {
  const Calendar calendar = small_calendar();
  const Component read(calendar_text(calendar));
  ASSERT_NE(read.it, nullptr);
  icalcomponent* event = icalcomponent_get_first_component(read.it, ICAL_VEVENT_COMPONENT);
  ASSERT_NE(event, nullptr);
  EXPECT_EQ(std::string(icalcomponent_get_summary(event)), calendar.events[0].summary);
  EXPECT_EQ(std::string(icalcomponent_get_description(event)), calendar.events[0].description);
  EXPECT_EQ(std::string(icalcomponent_get_location(event)), calendar.events[0].location);
  EXPECT_EQ(std::string(icalcomponent_get_uid(event)), calendar.events[0].uid);
  const icaltimetype start = icalcomponent_get_dtstart(event);
  EXPECT_TRUE(start.is_date);
  EXPECT_EQ(start.year * 10000 + start.month * 100 + start.day, 20270412);
  const icaltimetype end = icalcomponent_get_dtend(event);
  EXPECT_EQ(end.year * 10000 + end.month * 100 + end.day, 20270413);
}

TEST(Calendar, NoLineIsLongerThanTheStandardAllows) {
  const std::string text = calendar_text(small_calendar());
  for (std::size_t start = 0; start < text.size();) {
    const std::size_t end = text.find("\r\n", start);
    ASSERT_NE(end, std::string::npos) << "every line ends in CRLF";
    EXPECT_LE(end - start, 75u);
    start = end + 2;
  }
}

// Moments on both sides of both changes of 2026, each minute of the repeated hour among them.
TEST(Calendar, MomentsKeepThroughTheZoneThatItCarries) {
  Calendar calendar = small_calendar();
  calendar.events.clear();
  std::vector<std::int64_t> moments;
  for (const std::int64_t change_s : {1772956800, 1793516400}) {
    for (int minute = -130; minute <= 130; minute += 10) moments.push_back(change_s + minute * 60);
  }
  for (const std::int64_t moment_s : moments) calendar.events.push_back(timed("v@duskwire", moment_s));
  const Component read(calendar_text(calendar));
  ASSERT_NE(read.it, nullptr);
  EXPECT_EQ(complaints(read.it), "");
  std::size_t i = 0;
  for (icalcomponent* event = icalcomponent_get_first_component(read.it, ICAL_VEVENT_COMPONENT); event != nullptr;
       event = icalcomponent_get_next_component(read.it, ICAL_VEVENT_COMPONENT), ++i) {
    const icaltimetype start = icalcomponent_get_dtstart(event);
    ASSERT_NE(start.zone, nullptr);
    EXPECT_EQ(icaltime_as_timet_with_zone(start, start.zone), moments[i]) << "moment " << i;
    const icaltimetype end = icalcomponent_get_dtend(event);
    EXPECT_EQ(icaltime_as_timet_with_zone(end, end.zone) - moments[i], 5400) << "moment " << i;
  }
  EXPECT_EQ(i, moments.size());
}

TEST(Calendar, AZoneWithoutChangesAndUtcAreWritten) {
  Calendar calendar = small_calendar();
  calendar.zone = {"Asia/Kathmandu", {{0, 20700, "+0545"}}};
  calendar.events = {timed("a@duskwire", 1790000000)};
  const Component read(calendar_text(calendar));
  icalcomponent* event = icalcomponent_get_first_component(read.it, ICAL_VEVENT_COMPONENT);
  const icaltimetype start = icalcomponent_get_dtstart(event);
  EXPECT_EQ(start.hour * 100 + start.minute, 1958);
  EXPECT_EQ(icaltime_as_timet_with_zone(start, start.zone), 1790000000);
  calendar.zone = almanac::utc_zone();
  const std::string text = calendar_text(calendar);
  EXPECT_THAT(text, HasSubstr("DTSTART:20260921T141320Z\r\n"));
  EXPECT_THAT(text, Not(HasSubstr("VTIMEZONE")));
}

TEST(Calendar, ControlCharactersAndBrokenTextDoNotGetThrough) {
  Calendar calendar = small_calendar();
  calendar.events[0].summary = "a\r\nEND:VEVENT\x01\xff";
  const std::string text = calendar_text(calendar);
  EXPECT_THAT(text, HasSubstr("SUMMARY:a\\nEND:VEVENT\xEF\xBF\xBD\r\n"));
  const Component read(text);
  EXPECT_EQ(icalcomponent_count_components(read.it, ICAL_VEVENT_COMPONENT), 1);
}

}  // namespace
}  // namespace duskwire::formats
