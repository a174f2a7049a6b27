// SPDX-License-Identifier: Apache-2.0
// Any bytes as the head of a request, through the parser with the server's limit and then through the gate: no crash,
// and whoever neither names the token nor carries the cookie is not known.
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http.hpp>
#include <cctype>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "server/gate.hpp"
#include "server/head_of.hpp"

namespace {

void demand(bool condition, const char* what) {
  if (condition) return;
  std::fprintf(stderr, "broken: %s\n", what);
  std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  namespace http = boost::beast::http;
  using namespace duskwire::server;
  http::request_parser<http::string_body> parser;
  parser.header_limit(16 * 1024);
  boost::beast::error_code fault;
  parser.put(boost::asio::buffer(data, size), fault);
  if (!parser.is_header_done()) return 0;
  const Head head = head_of(parser.get());
  demand(head.path().size() + head.query().size() <= head.target.size(), "path and query lie within the target");
  static const Gate gate(7415, "the-token-of-this-start", "the-secret-of-the-cookie");
  const std::string_view sent(reinterpret_cast<const char*>(data), size);
  const bool carries_a_secret = sent.find("the-token-of-this-start") != std::string_view::npos ||
                                sent.find("the-secret-of-the-cookie") != std::string_view::npos;
  demand(!gate.knows(head) || carries_a_secret, "who carries no secret is not known");
  for (const bool below_api : {false, true}) {
    const auto refusal = gate.refusal(head, below_api);
    demand(!refusal || (refusal->status >= 400 && refusal->status < 500), "a refusal has its status");
    // Names of computers have no case.
    std::string host = head.field("host") != nullptr ? *head.field("host") : "";
    for (char& letter : host) letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
    const bool ours = host == "127.0.0.1:7415" || host == "localhost:7415" || host == "[::1]:7415";
    demand(refusal || ours, "only one of our own names comes in");
  }
  return 0;
}
