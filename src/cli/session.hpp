// SPDX-License-Identifier: Apache-2.0
// What a command works with, read from files once: the job, its rules, the catalogue. Whatever cannot be used ends the
// run with every problem named.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>

#include "cli/invocation.hpp"
#include "cli/parse.hpp"
#include "cli/text_style.hpp"
#include "job/job.hpp"
#include "study/rules.hpp"

namespace duskwire::cli {

template <class T>
using Or = std::variant<T, Outcome>;

// The rules of an id (us, ca, iec ...) or of a file.
[[nodiscard]] Or<study::Ruleset> load_ruleset(const std::string& name, const TextStyle& style);

struct Stock {
  job::Catalogue catalogue;
  std::string remarks;  // warnings as text for standard error
};

// The stock, with a shop's file over it where one is named.
[[nodiscard]] Or<Stock> load_stock(const std::string& shop_file, const TextStyle& style);

struct Session {
  job::Job job;                  // units of the job already as asked for
  job::DisplayUnits file_units;  // units as the file has them
  job::Catalogue stock;
  TextStyle style;
  std::string remarks;  // warnings as text for standard error
};

// The ruleset to judge by: as asked for, else as the job says.
[[nodiscard]] std::string ruleset_name(const Session& session, const Common& common);

[[nodiscard]] Or<Session> open_session(const std::string& job_file, const Common& common, TextStyle style);

enum class JobReading : std::uint8_t {
  strict = 0,   // errors end it
  lenient = 1,  // as far as it can be read; what is wrong stands in the remarks
};

// The same of a document's text; `name` is what it is called in a complaint.
[[nodiscard]] Or<Session> session_of(const std::string& name, const std::string& text, const Common& common,
                                     TextStyle style, JobReading reading = JobReading::strict);

// A complaint about bad input: a headline and all problems.
[[nodiscard]] Outcome refuse(const std::string& headline, const Problems& problems, const TextStyle& style);
[[nodiscard]] Outcome refuse(const Error& error);

}  // namespace duskwire::cli
