// SPDX-License-Identifier: Apache-2.0
// What a reader carries along: the place in the document, the problems met, and the ids that are defined and named, to
// be looked up once all is read.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/problem.hpp"
#include "formats/json_text.hpp"
#include "formats/shape.hpp"

namespace duskwire::formats {

// "joint"; with an article: "a joint".
[[nodiscard]] const char* kind_name(Kind kind);
[[nodiscard]] std::string kind_words(const Ref& ref);

// A value as a person would type it, short.
[[nodiscard]] std::string shown(const Json& value);

// "a number", "text", ...
[[nodiscard]] const char* type_words(const Json& value);

class Context {
 public:
  // A key or index below the present place, for as long as it lives.
  class Scope {
   public:
    Scope(Context& context, std::string_view key);
    Scope(Context& context, std::size_t index);
    ~Scope();
    Scope(const Scope&) = delete;
    Scope& operator=(const Scope&) = delete;

   private:
    Context& context_;
    std::size_t length_;
  };

  // Names the object that is being read, for messages, for as long as it lives: joint "S1". The document must outlive
  // look_up(), since words are made of it only where there is something to report.
  class Subject {
   public:
    Subject(Context& context, const char* type, const Json& object);
    ~Subject();
    Subject(const Subject&) = delete;
    Subject& operator=(const Subject&) = delete;

   private:
    Context& context_;
    const char* type_before_;
    const std::string* id_before_;
  };

  void report(Severity severity, std::string value, std::string expected, std::string message);
  void error(const Json& value, std::string expected, std::string message);
  // An array or object of the wrong type: what hangs below it cannot be read, so no job can be shown.
  void broken(const Json& value, std::string expected, std::string message);
  // At a place other than the present one.
  void report_at(std::string pointer, Problem problem);

  void define(Kind kind, const std::string& id);
  void refer(const Ref& ref, const std::string& id);
  // Reports each id that was named but never defined.
  void look_up();

  void add(Problems problems);
  [[nodiscard]] Problems take();
  [[nodiscard]] bool is_broken() const { return broken_; }
  [[nodiscard]] const std::string& pointer() const { return pointer_; }

 private:
  struct Definition {
    Kind kind = Kind::none;
    std::string pointer;
  };
  struct Reference {
    Ref ref;
    std::string id;
    std::string pointer;
    const char* subject_type = nullptr;
    const std::string* subject_id = nullptr;
  };

  void report_missing(const Reference& reference);
  [[nodiscard]] std::vector<std::string> ids_of(const Ref& ref) const;

  std::string pointer_;
  const char* subject_type_ = nullptr;
  const std::string* subject_id_ = nullptr;  // null: nothing with an id is being read
  Problems problems_;
  std::size_t left_out_ = 0;
  bool left_out_error_ = false;
  bool broken_ = false;
  std::array<std::unordered_map<std::string, Definition>, kind_count> definitions_;
  std::vector<Reference> references_;
};

}  // namespace duskwire::formats
