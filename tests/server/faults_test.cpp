// SPDX-License-Identifier: Apache-2.0
// A fault of our own on the way to an answer.
#include <gtest/gtest.h>

#include <stdexcept>

#include "server/running.hpp"

namespace duskwire::server {
namespace {

TEST(Faults, TheWordsOfAnExceptionStayHere) {
  const store::testing::Folder folder;
  const auto workspace = store::testing::open_or_fail(folder.file("w"));
  const std::string secret = "/home/someone/gardens.duskwire: SELECT secret FROM jobs";
  Service service(*workspace, "gardens", Gate(7415, testing::token, "s"), PageFiles(),
                  {[&](std::string_view) -> Result<CleanPicture> { throw std::runtime_error(secret); }, open_picture});
  const std::string body = "x";
  const Head head{"POST",
                  "/api/images/" + store::sha256_hex(body),
                  {{"host", "127.0.0.1:7415"}, {"authorization", "Bearer " + testing::token}, {"content-length", "1"}}};
  ASSERT_TRUE(service.admit(head).admitted);
  const Response response = service.answer(head, body);
  EXPECT_EQ(response.status, 500u);
  EXPECT_EQ(testing::code_of(response), "fault");
  for (const char* part : {"/home", "SELECT", "duskwire:", "exception"}) {
    EXPECT_EQ(response.body.find(part), std::string::npos) << part;
  }
  for (const Field& field : response.fields) EXPECT_EQ(field.value.find("SELECT"), std::string::npos) << field.name;
  EXPECT_EQ(testing::field_of(response, "X-Content-Type-Options"), "nosniff");
  EXPECT_NE(testing::field_of(response, "Content-Security-Policy").find("default-src 'none'"), std::string::npos);
}

}  // namespace
}  // namespace duskwire::server
