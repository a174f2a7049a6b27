// SPDX-License-Identifier: Apache-2.0
#include "cli/app.hpp"

#include <algorithm>
#include <cstdio>
#include <exception>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "cli/commands.hpp"
#include "cli/output_file.hpp"
#include "cli/parse.hpp"
#include "cli/terminal.hpp"
#include "server/picture_worker.hpp"

namespace duskwire::cli {
namespace {

Outcome outcome_of(const Invocation& line, const TextStyle& style) {
  struct Runner {
    const Common& common;
    const TextStyle& style;
    Outcome operator()(const CheckRequest& request) const { return check_command(request, common, style); }
    Outcome operator()(const AdviseRequest& request) const { return advise_command(request, common, style); }
    Outcome operator()(const MaterialsRequest& request) const { return materials_command(request, common, style); }
    Outcome operator()(const PriceRequest& request) const { return price_command(request, common, style); }
    Outcome operator()(const RouteRequest& request) const { return route_command(request, common, style); }
    Outcome operator()(const NightRequest& request) const { return night_command(request, common, style); }
    Outcome operator()(const PapersRequest& request) const { return papers_command(request, common, style); }
    Outcome operator()(const ExportRequest& request) const { return export_command(request, common, style); }
    Outcome operator()(const ImportRequest& request) const { return import_command(request, common, style); }
    Outcome operator()(const ValidateRequest& request) const { return validate_command(request, common, style); }
    Outcome operator()(const NewRequest& request) const { return new_command(request, common, style); }
    Outcome operator()(const AskRequest& request) const { return ask_command(request, common, style); }
    Outcome operator()(const CatalogueRequest& request) const { return catalogue_command(request, common, style); }
    Outcome operator()(const LevelsRequest& request) const { return levels_command(request, common, style); }
    Outcome operator()(const MeasureRequest& request) const { return measure_command(request, common, style); }
    Outcome operator()(const LookRequest& request) const { return look_command(request, common, style); }
    Outcome operator()(const ChooseRequest& request) const { return choose_command(request, common, style); }
    Outcome operator()(const TimesRequest& request) const { return times_command(request, common, style); }
    Outcome operator()(const LocateRequest& request) const { return locate_command(request, common, style); }
    Outcome operator()(const TraceRequest& request) const { return trace_command(request, common, style); }
    Outcome operator()(const ServeRequest& request) const { return serve_command(request, style); }
    Outcome operator()(const DevicesRequest& request) const { return devices_command(request, style); }
    Outcome operator()(const CareRequest& request) const { return care_command(request); }
  };
  return std::visit(Runner{line.common, style}, line.request);
}

// --colour counts for help pages and complaints too, so it is looked for before the line is understood.
ColourChoice colour_of(const std::vector<std::string>& arguments) {
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const bool apart = arguments[i] == "--colour" && i + 1 < arguments.size();
    const std::string value = apart ? arguments[i + 1] : arguments[i];
    if (value == (apart ? "always" : "--colour=always")) return ColourChoice::always;
    if (value == (apart ? "never" : "--colour=never")) return ColourChoice::never;
  }
  return ColourChoice::automatic;
}

// --output takes the text, but of a plan and of a trace the job and of a night the picture: their text stays on the
// screen.
bool keeps_text(const Invocation& line) {
  return std::holds_alternative<RouteRequest>(line.request) || std::holds_alternative<NightRequest>(line.request) ||
         std::holds_alternative<PapersRequest>(line.request) || std::holds_alternative<ExportRequest>(line.request) ||
         std::holds_alternative<ImportRequest>(line.request) || std::holds_alternative<TraceRequest>(line.request);
}

Outcome write_output(const Invocation& line, Outcome outcome) {
  const std::string& content = keeps_text(line) ? outcome.document : outcome.text;
  if (keeps_text(line) && content.empty()) return outcome;
  const Result<bool> written = write_file(line.common.output, content, line.common.force);
  if (!written) return {exit_bad_input, "", written.error().message + "\n"};
  if (!keeps_text(line)) outcome.text.clear();
  return outcome;
}

// --plan of levels takes the drawing, --write-lm63 the intensity file, --calendar of times the calendar.
std::string second_file(const Invocation& line) {
  if (const auto* times = std::get_if<TimesRequest>(&line.request)) return times->calendar_file;
  const auto* levels = std::get_if<LevelsRequest>(&line.request);
  if (levels == nullptr) return "";
  return levels->photometry.empty() ? levels->plan_file : levels->lm63_file;
}

// The text goes its own way.
Outcome write_drawing(const Invocation& line, Outcome outcome) {
  const std::string file = second_file(line);
  if (file.empty() || outcome.document.empty()) return outcome;
  const Result<bool> written = write_file(file, outcome.document, line.common.force);
  if (!written) return {exit_bad_input, "", written.error().message + "\n"};
  return outcome;
}

// All files of papers, of an export or an import, or none of them.
Outcome write_all(const Invocation& line, Outcome outcome) {
  if (outcome.files.empty()) return outcome;
  const Result<bool> written = write_files(outcome.files, line.common.force);
  if (!written) return {exit_bad_input, "", written.error().message + "\n"};
  return outcome;
}

Outcome run_line(const std::vector<std::string>& arguments) {
  TextStyle style = style_for(look_around(), colour_of(arguments));
  const auto parsed = parse(arguments, style);
  if (const auto* ended = std::get_if<Outcome>(&parsed)) return *ended;
  const auto& line = std::get<Invocation>(parsed);
  const bool to_file = !line.common.output.empty();
  // A file is read later, anywhere: no colours of this terminal in it.
  if (to_file && !keeps_text(line) && line.common.colour != ColourChoice::always) style.colour = false;
  Outcome outcome = write_all(line, write_drawing(line, outcome_of(line, style)));
  if (outcome.code == exit_bad_input || !to_file) return outcome;
  return write_output(line, std::move(outcome));
}

bool print(std::FILE* stream, std::string_view text) {
  return std::fwrite(text.data(), 1, text.size(), stream) == text.size() && std::fflush(stream) == 0;
}

}  // namespace

int run(int argc, const char* const* argv) {
  if (const auto ended = server::run_as_picture_worker(argc, argv)) return *ended;
  Outcome outcome;
  try {
    outcome = run_line(std::vector<std::string>(argv + std::min(argc, 1), argv + argc));
  } catch (const std::exception& fault) {
    outcome = {exit_bad_input, "",
               std::string("duskwire met a fault of its own (") + fault.what() +
                   "). Nothing was written. Please report it with the command and the file.\n"};
  }
  print(stderr, outcome.complaint);
  if (!print(stdout, outcome.text)) return exit_bad_input;
  return outcome.code;
}

}  // namespace duskwire::cli
