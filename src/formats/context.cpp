// SPDX-License-Identifier: Apache-2.0
#include "formats/context.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/nearest.hpp"
#include "base/utf8.hpp"

namespace duskwire::formats {
namespace {

constexpr std::size_t most_problems = 1000;
// Among more ids than this no look-alike is sought: the search is linear for each unknown id.
constexpr std::size_t most_candidates = 2000;

// Ids are unique within a space; a cable ends at any of luminaires, outputs and joints, so these share one.
std::size_t space_of(Kind kind) {
  const bool is_cable_end = kind == Kind::output || kind == Kind::joint;
  return static_cast<std::size_t>(is_cable_end ? Kind::luminaire : kind);
}

bool admits(const Ref& ref, Kind kind) { return kind == ref.kind || kind == ref.or_kind || kind == ref.or_kind_too; }

// Joint "S1": , to stand before a message.
std::string subject_words(const char* type, const std::string* id) {
  if (id == nullptr) return "";
  std::string words(type);
  for (char& c : words) c = c == '_' ? ' ' : c;
  words = fmt::format("{} \"{}\": ", words, shortened(*id, 30));
  words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

bool is_catalogue_item(Kind kind) { return kind <= Kind::sundry_item; }

}  // namespace

const char* kind_name(Kind kind) {
  constexpr std::array<const char*, kind_count> words{
      "object", "luminaire item", "transformer item", "cable item", "connector item", "control item",    "sundry item",
      "area",   "sleeve",         "receptacle",       "view point", "tree",           "fixed point",     "luminaire",
      "output", "joint",          "transformer",      "cable",      "view",           "programme entry", "offer option",
      "rule"};
  return words.at(static_cast<std::size_t>(kind));
}

std::string kind_words(const Ref& ref) {
  const std::string name = kind_name(ref.kind);
  std::string words = (std::string_view("aeio").find(name[0]) == std::string_view::npos ? "a " : "an ") + name;
  if (ref.or_kind != Kind::none) words += std::string(", ") + kind_name(ref.or_kind);
  if (ref.or_kind_too != Kind::none) words += std::string(" or ") + kind_name(ref.or_kind_too);
  return words;
}

std::string shown(const Json& value) {
  if (value.is_object()) return value.empty() ? "{}" : "{...}";
  if (value.is_array()) return value.empty() ? "[]" : fmt::format("[{} entries]", value.size());
  return shortened(compact_text(value));
}

const char* type_words(const Json& value) {
  if (value.is_object()) return "an object {...}";
  if (value.is_array()) return "a list [...]";
  if (value.is_string()) return "text";
  if (value.is_boolean()) return "true or false";
  return value.is_number() ? "a number" : "null";
}

Context::Scope::Scope(Context& context, std::string_view key) : context_(context), length_(context.pointer_.size()) {
  context.pointer_ += '/';
  context.pointer_ += pointer_part(key);
}
Context::Scope::Scope(Context& context, std::size_t index) : context_(context), length_(context.pointer_.size()) {
  context.pointer_ += '/';
  context.pointer_ += std::to_string(index);
}
Context::Scope::~Scope() { context_.pointer_.resize(length_); }

Context::Subject::Subject(Context& context, const char* type, const Json& object)
    : context_(context), type_before_(context.subject_type_), id_before_(context.subject_id_) {
  const auto id = object.find("id");
  if (id == object.end() || !id->is_string()) return;
  context.subject_type_ = type;
  context.subject_id_ = &id->get_ref<const std::string&>();
}
Context::Subject::~Subject() {
  context_.subject_type_ = type_before_;
  context_.subject_id_ = id_before_;
}

void Context::report(Severity severity, std::string value, std::string expected, std::string message) {
  report_at(pointer_, {severity, "", std::move(value), std::move(expected),
                       subject_words(subject_type_, subject_id_) + std::move(message)});
}

void Context::report_at(std::string pointer, Problem problem) {
  if (problems_.size() >= most_problems) {
    ++left_out_;
    left_out_error_ = left_out_error_ || problem.severity == Severity::error;
    return;
  }
  problem.pointer = std::move(pointer);
  problems_.push_back(std::move(problem));
}

void Context::error(const Json& value, std::string expected, std::string message) {
  report(Severity::error, shown(value), std::move(expected), std::move(message));
}

void Context::broken(const Json& value, std::string expected, std::string message) {
  broken_ = true;
  error(value, std::move(expected), std::move(message));
}

void Context::define(Kind kind, const std::string& id) {
  const auto [at, is_new] = definitions_.at(space_of(kind)).try_emplace(id, Definition{kind, pointer_});
  if (is_new) return;
  report(Severity::error, shortened(id), "an id that nothing else has",
         fmt::format("The id \"{}\" is taken already by the {} at {}: give one of them another id.", shortened(id),
                     kind_name(at->second.kind), at->second.pointer));
}

void Context::refer(const Ref& ref, const std::string& id) {
  references_.push_back({ref, id, pointer_, subject_type_, subject_id_});
}

void Context::look_up() {
  for (const Reference& reference : references_) {
    const auto& space = definitions_.at(space_of(reference.ref.kind));
    const auto found = space.find(reference.id);
    if (found == space.end() || !admits(reference.ref, found->second.kind)) report_missing(reference);
  }
  references_.clear();
}

void Context::report_missing(const Reference& reference) {
  const std::string wanted = kind_words(reference.ref);
  const std::string id = shortened(reference.id);
  const auto& space = definitions_.at(space_of(reference.ref.kind));
  const auto other = space.find(reference.id);
  std::string message;
  if (other != space.end()) {
    message = fmt::format("\"{}\" is the id of the {} at {}, where {} is meant.", id, kind_name(other->second.kind),
                          other->second.pointer, wanted);
  } else {
    message = fmt::format("There is no {} \"{}\"", wanted.substr(wanted.find(' ') + 1), id);
    const std::string near = nearest(reference.id, ids_of(reference.ref));
    message += near.empty() ? "" : fmt::format("; did you mean \"{}\"?", near);
    if (near.empty()) {
      message += is_catalogue_item(reference.ref.kind) ? " in the job's catalogue: copy the item into it."
                                                       : ": add it, or name another.";
    }
  }
  report_at(reference.pointer, {Severity::error, "", id, fmt::format("the id of {}", wanted),
                                subject_words(reference.subject_type, reference.subject_id) + message});
}

std::vector<std::string> Context::ids_of(const Ref& ref) const {
  const auto& space = definitions_.at(space_of(ref.kind));
  std::vector<std::string> ids;
  if (space.size() > most_candidates) return ids;
  for (const auto& [id, definition] : space) {
    if (admits(ref, definition.kind)) ids.push_back(id);
  }
  std::sort(ids.begin(), ids.end());  // the order of a hash table would leak into messages
  return ids;
}

void Context::add(Problems problems) {
  for (Problem& problem : problems) {
    std::string pointer = problem.pointer;
    report_at(std::move(pointer), std::move(problem));
  }
}

Problems Context::take() {
  if (left_out_ > 0) {
    problems_.push_back({left_out_error_ ? Severity::error : Severity::warning, "", "", "",
                         fmt::format("{} more problems are not listed: mend these first.", left_out_)});
    left_out_ = 0;
  }
  return std::move(problems_);
}

}  // namespace duskwire::formats
