// SPDX-License-Identifier: Apache-2.0
// Memory runs out at the n-th allocation of each reader, once and from then on: std::bad_alloc for the edge (which
// answers 500 and goes on), an error, or the right answer; never another answer, never a leak, never the end of the
// program. At the quick size some forty places of each reader, DUSKWIRE_STORE_SIZE=nightly tries all.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http.hpp>
#include <cstdio>
#include <exception>
#include <fstream>
#include <functional>
#include <iterator>
#include <map>

#include "failing_new.hpp"
#include "formats/catalogue_file.hpp"
#include "formats/embedded.hpp"
#include "formats/job_reader.hpp"
#include "formats/lamps_csv.hpp"
#include "light/intensity_reader.hpp"
#include "office/archive.hpp"
#include "pictures/codec.hpp"
#include "server/export_file.hpp"
#include "server/gate.hpp"
#include "server/head_end.hpp"
#include "server/head_of.hpp"
#include "store/sizes.hpp"
#include "store/temporary.hpp"

namespace duskwire::server {
namespace {

using duskwire::testing::failing_new;

enum class Answer { right, told, wrong };

std::string file_of(const std::string& name) {
  std::ifstream file(std::string(DUSKWIRE_SOURCE_DIR) + "/" + name, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

Answer right_if(bool right) { return right ? Answer::right : Answer::wrong; }

// `again`, where it is given, is asked with memory there again after each failure.
void fail_at_each(const char* name, const std::function<Answer()>& work, const std::function<bool()>& again = {}) {
  ASSERT_EQ(work(), Answer::right) << name;
  failing_new().calls = 0;
  ASSERT_EQ(work(), Answer::right) << name;
  const std::int64_t count = failing_new().calls;
  const std::int64_t step = store::testing::sized<std::int64_t>(count / 40 | 1, 1, 1);
  int thrown = 0;
  int told = 0;
  int right = 0;
  for (std::int64_t at = 0; at < count; at += step) {
    for (const bool ever_after : {false, true}) {
      const std::int64_t live = failing_new().live;
      Answer answer = Answer::told;
      bool threw = false;
      failing_new().calls = 0;
      failing_new().ever_after = ever_after;
      failing_new().fail_at = at;
      try {
        answer = work();
      } catch (const std::bad_alloc&) {
        threw = true;
      }
      failing_new().fail_at = -1;
      ++(threw ? thrown : answer == Answer::told ? told : right);
      ASSERT_NE(answer, Answer::wrong) << name << ", allocation " << at << (ever_after ? " and after" : "");
      ASSERT_EQ(failing_new().live, live) << name << " leaks, allocation " << at << (ever_after ? " and after" : "");
      if (again) {
        ASSERT_TRUE(again()) << name << ", allocation " << at << (ever_after ? " and after" : "");
      }
    }
  }
  std::printf("%s: %lld allocations; %d times thrown, %d told, %d right all the same\n", name,
              static_cast<long long>(count), thrown, told, right);
  EXPECT_GT(thrown + told, 0) << name;
}

// To free a tree the library for JSON takes memory, in a destructor, and the program ends where there is none
// (docs/validation.md, "The store", known limits): each try has a process of its own, and what it did not end is right.
TEST(ReaderMemory, OfAJob) {
  const std::string text = file_of("examples/small-garden.json");
  const auto work = [&] {
    const formats::ReadJob read = formats::read_job(text);
    return read.job.has_value() && read.problems.empty();
  };
  failing_new().calls = 0;
  ASSERT_TRUE(work());
  const std::int64_t count = failing_new().calls;
  constexpr int right = 10;
  constexpr int wrong = 11;
  constexpr int thrown = 12;
  constexpr int ended = 13;
  std::map<int, int> times;
  const std::int64_t step = store::testing::sized<std::int64_t>(count / 40 | 1, 1, 1);
  for (std::int64_t at = 0; at < count; at += step) {
    for (const bool ever_after : {false, true}) {
      const pid_t child = ::fork();
      if (child == 0) {
        std::set_terminate([] { ::_exit(ended); });
        int answer = thrown;
        failing_new() = {0, at, ever_after, 0};
        try {
          answer = work() ? right : wrong;
        } catch (const std::bad_alloc&) {
        }
        ::_exit(failing_new().live == 0 ? answer : wrong);
      }
      int status = 0;
      ASSERT_EQ(::waitpid(child, &status, 0), child);
      ASSERT_TRUE(WIFEXITED(status)) << "allocation " << at;
      ++times[WEXITSTATUS(status)];
      ASSERT_NE(WEXITSTATUS(status), wrong) << "allocation " << at << (ever_after ? " and after" : "");
    }
  }
  std::printf("job: %lld allocations; %d times thrown, %d ended, %d right all the same\n",
              static_cast<long long>(count), times[thrown], times[ended], times[right]);
  EXPECT_GE(times[thrown] + times[right], times[ended]);
}

TEST(ReaderMemory, OfPhotometry) {
  for (const char* name : {"made-here/ldt-isym0.ldt", "ies/c-full-0-360-asymmetric-1991.ies"}) {
    const std::string text = file_of(std::string("tests/reference/photometry/") + name);
    const std::size_t problems = light::read_intensities(text).problems.size();
    fail_at_each(name, [&] {
      const light::ReadIntensities read = light::read_intensities(text);
      return right_if(read.file.has_value() && read.problems.size() == problems);
    });
  }
}

TEST(ReaderMemory, OfLampsCsv) {
  const std::string text = file_of("examples/lamps.csv");
  const job::Catalogue stock = *formats::read_catalogue(formats::embedded_stock_catalogue()).catalogue;
  const std::size_t lamps = formats::read_lamps_csv(text, stock).lamps.size();
  fail_at_each("csv", [&] {
    const formats::ReadLamps read = formats::read_lamps_csv(text, stock);
    return right_if(read.lamps.size() == lamps && read.problems.empty());
  });
}

TEST(ReaderMemory, OfPictures) {
  pictures::Picture picture;
  picture.width_px = 8;
  picture.height_px = 4;
  picture.elements.assign(8 * 4 * 3, 77);
  const std::string files[] = {pictures::encode_jpeg(picture).value(), pictures::encode_png(picture).value(),
                               pictures::encode_webp(picture).value()};
  for (const std::string& file : files) {
    fail_at_each("picture", [&] {
      const auto read = pictures::decode(file);
      return read ? right_if(read.value().picture.width_px == 8) : Answer::told;
    });
  }
}

TEST(ReaderMemory, OfAJobAsOneFile) {
  const std::string document = file_of("examples/small-garden.json");
  const std::string sums = store::sha256_hex(document) + "  job.json\n";
  const std::string archive = office::zip_archive({{"job.json", document}, {"SHA256SUMS", sums}}, 0).value();
  fail_at_each("archive", [&] {
    const auto read = import_file(archive);
    return read ? right_if(read.value().document == document) : Answer::told;
  });
}

TEST(ReaderMemory, OfTheHeadOfARequest) {
  namespace http = boost::beast::http;
  const std::string text =
      "GET /api/jobs/garden?with=papers-of-many-kinds HTTP/1.1\r\nHost: 127.0.0.1:7415\r\nAuthorization: Bearer "
      "the-token-of-this-start\r\nCookie: duskwire-7415=not-the-secret-of-the-cookie\r\n\r\n";
  const Gate gate(7415, "the-token-of-this-start", "the-secret-of-the-cookie");
  fail_at_each("http", [&] {
    if (find_head_end(text).bytes != text.size()) return Answer::wrong;
    http::request_parser<http::string_body> parser;
    parser.header_limit(16 * 1024);
    boost::beast::error_code fault;
    parser.put(boost::asio::buffer(text), fault);
    if (fault) return Answer::told;
    const Head head = head_of(parser.get());
    return right_if(parser.is_header_done() && gate.knows(head) && !gate.refusal(head, true));
  });
}

TEST(ReaderMemory, OfAWorkspace) {
  const store::testing::Folder folder;
  const auto workspace = store::testing::open_or_fail(folder.file("w"));
  const std::string document(3000, 'x');
  store::Save save = store::testing::save_of("garden", 0, document);
  std::int64_t revision = 0;
  const auto next = [&] {
    save.base_revision = revision;
    save.save_id = "save-" + std::to_string(revision);
  };
  // A save that failed is given again as it was, and is there once.
  const auto settle = [&] {
    const store::SaveOutcome outcome = workspace->save(save);
    const auto* saved = std::get_if<store::Saved>(&outcome);
    if (saved == nullptr || saved->revision != revision + 1) return false;
    revision = saved->revision;
    next();
    return workspace->job("garden").value().revision == revision;
  };
  next();
  ASSERT_TRUE(settle());
  const auto repeated = [&] {
    const store::SaveOutcome outcome = workspace->save(save);
    if (std::holds_alternative<Error>(outcome)) return Answer::told;
    return right_if(std::holds_alternative<store::Saved>(outcome));
  };
  fail_at_each("save", repeated, settle);
  fail_at_each("job", [&] {
    const auto read = workspace->job("garden");
    return read ? right_if(read.value().document == document) : Answer::told;
  });
  fail_at_each("jobs", [&] {
    const auto read = workspace->jobs();
    return read ? right_if(read.value().size() == 1) : Answer::told;
  });
  fail_at_each("verify", [&] {
    const auto read = workspace->verify();
    return read ? right_if(read.value().empty()) : Answer::told;
  });
  const std::string other = folder.file("other");
  fail_at_each("open", [&] {
    const auto opened = store::Workspace::open(other, store::testing::counting_environment());
    return opened ? right_if(opened.value()->workspace_id() == "w-0123456789abcdef") : Answer::told;
  });
}

}  // namespace
}  // namespace duskwire::server
