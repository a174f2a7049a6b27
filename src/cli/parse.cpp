// SPDX-License-Identifier: Apache-2.0
#include "cli/parse.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "base/nearest.hpp"
#include "cli/help.hpp"
#include "cli/options.hpp"
#include "cli/serve_options.hpp"
#include "formats/requests.hpp"
#include "study/times.hpp"

namespace duskwire::cli {
namespace {

const std::string shared_group = "Options of most commands";

// Shared options as typed; turned into Common once the line is known to be whole.
struct SharedTexts {
  Common common;
  std::string units;
  std::string colour = "auto";
};

void add_shared(CLI::App& app, SharedTexts& texts, bool with_ruleset, const std::string& output_help) {
  app.add_flag("--json", texts.common.json, "for machines: JSON in SI units")->group(shared_group);
  app.add_option("--units", texts.units, "metric or us; left out: as the job says")
      ->type_name("UNITS")
      ->check(one_of({"metric", "us"}))
      ->group(shared_group);
  if (with_ruleset) {
    text_option(app, "--ruleset", texts.common.ruleset, "RULES", "us, ca, iec or a file; left out: as the job says",
                shared_group);
  }
  text_option(app, "--catalogue", texts.common.catalogue, "FILE", "a shop's own articles, over those of the stock",
              shared_group);
  app.add_option("--colour", texts.colour, "auto, always or never")
      ->type_name("WHEN")
      ->check(one_of({"auto", "always", "never"}))
      ->group(shared_group);
  text_option(app, "-o,--output", texts.common.output, "FILE", output_help, shared_group);
  app.add_flag("--force", texts.common.force, "--output may replace a file")->group(shared_group);
  app.get_help_ptr()->group(shared_group);
}

void add_job(CLI::App& app, std::string& job) {
  app.add_option("JOB", job, "a job file, or - for standard input")->required()->type_name("");
}

struct CheckFlags {
  bool brief = false;
  bool full = false;
  bool no_cures = false;
};

void add_check(CLI::App& app, CheckRequest& request, CheckFlags& flags) {
  add_job(app, request.job);
  CLI::Option* brief = app.add_flag("--brief", flags.brief, "leave out the table of lamps")->group(own_group);
  app.add_flag("--full", flags.full, "also every cable and every corner")->group(own_group)->excludes(brief);
  app.add_flag("--no-cures", flags.no_cures, "do not search for cures")->group(own_group);
}

void add_price(CLI::App& app, PriceRequest& request) {
  add_job(app, request.job);
  text_option(app, "--against", request.against, "OTHER", "another job file: tell why the price moved from it");
}

void add_route(CLI::App& app, RouteRequest& request) {
  constexpr double most_seconds = 86'400;
  study::RouteRequest& asked = request.asked;
  add_job(app, request.job);
  number_option(app, "--seconds", request.limit_s, "S", most_seconds,
                "search for so long; 2 where left out, unless --steps is given");
  number_option(app, "--exact", request.exact_s, "S", most_seconds,
                "prove, for so long, how far a plan of up to 12 lamps is from the best (if built with it)");
  number_option(app, "--steps", asked.most_steps, "N", formats::most_whole,
                "search so many steps, however long: the same answer each time");
  number_option(app, "--seed", asked.seed, "N", formats::most_whole, "another number searches another way");
  ids_option(app, "--keep-cable", asked.pins.kept_cables, "ID", "this cable stays as it is; may come several times");
  ids_option(app, "--no-trench", asked.pins.forbidden_trenches, "CABLE", "nothing is dug along the way of this cable");
  ids_option(app, "--own-output", asked.pins.own_outputs, "LAMP", "this lamp gets an output of its own");
  ids_option(app, "--keep-transformer", asked.pins.kept_transformers, "ID", "its article and place stay");
  app.add_flag("--no-hub", asked.no_hub, "no joint of more than three wires per conductor")->group(own_group);
  app.add_flag("--splice-leads", asked.splice_every_lead, "every lead is spliced: no cable ends in a lamp")
      ->group(own_group);
  number_option(app, "--reserve", asked.reserve_pct, "PCT", formats::most_reserve_pct, "room for lamps added later");
  number_option(app, "--cable-types", asked.most_cable_types, "N", formats::most_cable_types,
                "so many different cables at most");
  text_option(app, "--labour", request.labour, "PRICE",
              "an hour's cost, in the job's currency; left out: as its offer says, else 40");
}

void add_papers(CLI::App& app, PapersRequest& request) {
  add_job(app, request.job);
  text_option(app, "--only", request.only, "NAMES",
              "some of them, commas between: proposal, crew, commissioning, owner");
  app.add_option("--size", request.size, "a4 or letter; left out: as the units go")
      ->type_name("SIZE")
      ->check(one_of({"a4", "letter"}))
      ->group(own_group);
  text_option(app, "--shop", request.shop, "NAME", "the contractor, as it stands on the papers");
  text_option(app, "--by", request.made_by, "NAME", "who made them");
  text_option(app, "--date", request.date, "DATE", "of issue, such as 2026-11-26; left out: today");
  text_option(app, "--revision", request.revision, "LETTER", "which issue of the papers");
  text_option(app, "--zip", request.zip, "FILE", "all of it as one archive there");
}

void add_export(CLI::App& app, ExportRequest& request) {
  CLI::Option* job = app.add_option("JOB", request.job, "a job file, or - for standard input")->type_name("");
  CLI::Option* id =
      app.add_option("--id", request.id, "with --workspace: which job")->type_name("ID")->group(own_group);
  CLI::Option* workspace = app.add_option("--workspace", request.workspace, "instead of JOB: a job that is kept there")
                               ->type_name("FILE")
                               ->group(own_group)
                               ->excludes(job)
                               ->needs(id);
  id->needs(workspace);
  app.add_flag("--no-papers", request.without_papers, "leave out the papers")->group(own_group);
  text_option(app, "--shop", request.shop, "NAME", "the contractor, as it stands on the papers");
  text_option(app, "--by", request.made_by, "NAME", "who made them");
  text_option(app, "--date", request.date, "DATE", "of issue, such as 2026-11-26; left out: today");
}

void add_import(CLI::App& app, ImportRequest& request) {
  app.add_option("FILE", request.archive, "what export wrote")->required()->type_name("");
  text_option(app, "--workspace", request.workspace, "FILE", "put the job in there; made where it is missing");
}

void add_night(CLI::App& app, NightRequest& request) {
  constexpr double most_px = 30'000;
  add_job(app, request.job);
  study::NightWish& wish = request.wish;
  text_option(app, "--view", wish.view, "ID", "which photograph; may be left out where the job has one");
  text_option(app, "--photo", request.photo, "FILE", "the photograph; left out: beside the job, as the view names it");
  app.add_option("--width", request.width_px, "of the picture; left out: as the photograph")
      ->type_name("PX")
      ->check(number_between(16, most_px))
      ->group(own_group);
  app.add_option("--camera-share", wish.camera_share, "0: as an adapted eye sees it, 1: as a camera exposes it")
      ->type_name("SHARE")
      ->check(number_between(0, 1))
      ->group(own_group);
  app.add_option("--exposure", wish.exposure_stops, "brighter, or darker below 0")
      ->type_name("STOPS")
      ->check(number_between(-10, 10))
      ->group(own_group);
  app.add_option("--ambient", wish.ambient_lx, "moon and sky on level ground")
      ->type_name("LUX")
      ->check(number_between(0, 1000))
      ->group(own_group);
  app.add_option("--white", wish.white_k, "light of this colour looks white")
      ->type_name("KELVIN")
      ->check(number_between(1500, 10'000))
      ->group(own_group);
}

void add_new(CLI::App& app, NewRequest& request) {
  text_option(app, "--title", request.title, "TEXT", "name of the job");
  text_option(app, "--lamps", request.lamps, "CSV", "a table of lamps, or - for standard input");
}

void add_ask(CLI::App& app, AskRequest& request) {
  text_option(app, "--lamps", request.lamps, "N", "how many");
  text_option(app, "--watts", request.watts, "W", "of one lamp");
  text_option(app, "--power-factor", request.power_factor, "PF", "watts over volt-amperes; 1 where left out");
  text_option(app, "--length", request.length, "L", "one way, from the transformer to the last lamp: 60m, 200ft");
  text_option(app, "--cable", request.cable, "SIZE", "12awg, 2.5mm2");
  text_option(app, "--tap", request.tap, "V", "volts of the tap without load");
  app.add_option("--spread", request.spread,
                 "chain: evenly along it; end or hub: all at the end; tee: fed in the middle")
      ->type_name("HOW")
      ->check(one_of({"chain", "end", "hub", "tee"}))
      ->group(own_group);
  text_option(app, "--source-ohm", request.source_ohm, "R", "of the transformer's winding; 0.03 where left out");
  text_option(app, "--window", request.window, "MIN:MAX", "volts that the lamps are made for; 10:15 where left out");
  text_option(app, "--mains-tolerance", request.mains_tolerance, "PCT",
              "mains above and below nominal; 5 where left out");
}

// A number of lux, at most what a document may hold.
void lux_option(CLI::App& app, const std::string& name, std::optional<double>& value, const std::string& help) {
  constexpr double most_lx = 10'000;
  number_option(app, name, value, "LX", most_lx, help);
}

void add_levels(CLI::App& app, LevelsRequest& request) {
  CLI::Option* job = app.add_option("JOB", request.job, "a job file, or - for standard input")->type_name("");
  CLI::Option* photometry =
      app.add_option("--photometry", request.photometry, "without a job: look at this LM-63 or EULUMDAT file")
          ->type_name("FILE")
          ->group(own_group)
          ->excludes(job);
  app.add_option("--write-lm63", request.lm63_file, "with --photometry: write its light there as LM-63")
      ->type_name("FILE")
      ->group(own_group)
      ->needs(photometry);
  text_option(app, "--targets", request.asked.targets, "SET",
              "garden, en-13201, en-12464-2, trip-hazards or dark-sky; left out: as the job says");
  lux_option(app, "--line-limit", request.asked.property_line_limit_lx, "most light at the property line");
  lux_option(app, "--window-limit", request.asked.window_limit_lx, "most light on a neighbour's window");
  app.add_flag("--bounce", request.asked.bounce, "also count light that bounced once on walls and ground")
      ->group(own_group);
  text_option(app, "--plan", request.plan_file, "FILE", "draw the night plan there: .png or .svg");
  app.add_flag("--pools", request.pools, "the plan as pools of light instead of false colour")->group(own_group);
  app.add_flag("--full", request.full, "also every lamp, every sight line and what each source asks")->group(own_group);
}

void add_choose(CLI::App& app, ChooseRequest& request) {
  app.add_option("JOB", request.job, "a job file, or - for standard input; left out: sizes are typed")->type_name("");
  text_option(app, "--tree", request.tree, "ID", "a tree of the plan");
  text_option(app, "--area", request.area, "ID", "a walk or steps of the plan");
  text_option(app, "--face", request.face, "ID/EDGE", "a face of a building or wall: house/0");
  text_option(app, "--crown", request.crown, "W:BASE:TOP", "without a job: a crown so wide, from base to top");
  text_option(app, "--walk", request.walk, "L:W", "without a job: a walk so long and wide");
  text_option(app, "--wall", request.wall, "L:H", "without a job: a wall so long and high");
  text_option(app, "--item", request.item, "ID", "judge this article only");
  text_option(app, "--targets", request.targets, "SET", "set of levels; left out: as the job says");
  text_option(app, "--setback", request.setback, "L", "lamp to trunk or wall");
  text_option(app, "--spacing", request.spacing, "L", "no gap along a walk is longer");
  text_option(app, "--pool", request.pool, "L", "across a pool of light; left out: as each article's light falls");
  ids_option(app, "--riser", request.risers, "L", "risers so far along the walk; may come several times");
}

void add_times(CLI::App& app, TimesRequest& request) {
  add_job(app, request.job);
  app.add_option("--year", request.year, "left out: this year")
      ->type_name("YEAR")
      ->check(CLI::Range(study::first_times_year, study::last_times_year))
      ->group(own_group);
  text_option(app, "--kwh-price", request.kwh_price, "PRICE", "what a kWh costs, in the site's currency: 0.18");
  text_option(app, "--calendar", request.calendar_file, "FILE",
              "write visits, care and warranties of five years there, as iCalendar");
  app.add_flag("--full", request.full, "each day of the year")->group(own_group);
}

void add_locate(CLI::App& app, LocateRequest& request) {
  constexpr double most_visits = 5000;
  add_job(app, request.job);
  text_option(app, "--readings", request.readings_file, "FILE",
              "readings as CSV, instead of the visit's: place,quantity,value,unit ...");
  app.add_option("--visit", request.visit, "number of the visit, 1 for the first; left out: the last with readings")
      ->type_name("N")
      ->check(CLI::Range(1.0, most_visits))
      ->group(own_group);
}

void add_trace(CLI::App& app, TraceRequest& request) {
  add_job(app, request.job);
  text_option(app, "--walk", request.walk_file, "FILE", "what was walked and clamped, as JSON (docs/results.md)");
}

void add_measure(CLI::App& app, MeasureRequest& request) {
  add_job(app, request.job);
  text_option(app, "--view", request.view, "ID", "id or name of the view; left out: the first");
  text_option(app, "--photo", request.photo, "FILE", "its picture: size, and focal length as the camera noted it");
}

void add_look(CLI::App& app, LookRequest& request) {
  text_option(app, "--known", request.known, "NAME:SIZE:PX", "what is known in size, and its size on the photograph");
  ids_option(app, "--thing", request.things, "NAME:PX", "what is wanted; may come several times");
  text_option(app, "--note", request.note, "TEXT", "what the client wrote");
  number_option(app, "--depth-error", request.depth_error_pct, "PCT", 100,
                "how much nearer or farther things may stand; 15 where left out, 0 in one plane");
}

// One parser for the whole line. Lives only while parse() runs.
struct Parser {
  CLI::App app{"", "duskwire"};
  SharedTexts shared;
  CheckRequest check;
  CheckFlags check_flags;
  AdviseRequest advise;
  MaterialsRequest materials;
  PriceRequest price;
  RouteRequest route;
  NightRequest night;
  PapersRequest papers;
  ExportRequest exported;
  ImportRequest imported;
  ValidateRequest validate;
  NewRequest fresh;
  AskRequest ask;
  CatalogueRequest catalogue;
  LevelsRequest levels;
  ChooseRequest choose;
  TimesRequest times;
  MeasureRequest measure;
  LookRequest look;
  LocateRequest locate;
  TraceRequest trace;
  ServeRequest serve;
  DevicesRequest devices;
  CareRequest backup;
  CareRequest restore;
  CareRequest salvage;

  Parser() {
    app.set_help_flag("-h,--help", "this page");
    app.require_subcommand(0, 1);
    add_check(command("check", true), check, check_flags);
    add_job(command("advise", true), advise.job);
    add_job(command("materials", false), materials.job);
    add_price(command("price", false), price);
    add_route(command("route", true, "write the planned job there"), route);
    add_night(command("night", false, "the picture to write: .png or .jpg"), night);
    add_papers(command("papers", true, "the folder to write them into"), papers);
    add_export(command("export", true, "the archive to write"), exported);
    add_import(command("import", false, "the folder to write the job and its pictures into"), imported);
    add_job(command("validate", false), validate.job);
    add_new(command("new", true), fresh);
    add_ask(command("ask", false), ask);
    command("catalogue", false).add_option("WORD", catalogue.word, "part of an id, kind or title")->type_name("");
    add_levels(command("levels", false), levels);
    add_choose(command("choose", false), choose);
    add_times(command("times", false), times);
    add_measure(command("measure", false), measure);
    add_look(command("look", false), look);
    add_locate(command("locate", false), locate);
    add_trace(command("trace", false, "write the job with the rough network there"), trace);
    add_serve(*app.add_subcommand("serve"), serve, own_group);
    add_devices(*app.add_subcommand("devices"), devices, own_group);
    using Act = CareRequest::Act;
    add_care(*app.add_subcommand("backup"), backup, Act::back_up, "WORKSPACE", "the workspace's file", own_group);
    add_care(*app.add_subcommand("restore"), restore, Act::restore, "BACKUP", "the backup's file", own_group);
    add_care(*app.add_subcommand("salvage"), salvage, Act::salvage, "WORKSPACE", "the damaged file", own_group);
  }

  CLI::App& command(const std::string& name, bool with_ruleset,
                    const std::string& output_help = "write there instead of standard output") {
    CLI::App* sub = app.add_subcommand(name);
    add_shared(*sub, shared, with_ruleset, output_help);
    return *sub;
  }
};

Request request_of(Parser& parser, const std::string& name) {
  if (name == "check") {
    const CheckFlags& flags = parser.check_flags;
    parser.check.detail = flags.brief ? Detail::brief : (flags.full ? Detail::full : Detail::usual);
    parser.check.cures = !flags.no_cures;
    return parser.check;
  }
  if (name == "advise") return parser.advise;
  if (name == "materials") return parser.materials;
  if (name == "price") return parser.price;
  if (name == "route") return parser.route;
  if (name == "night") return parser.night;
  if (name == "papers") return parser.papers;
  if (name == "export") return parser.exported;
  if (name == "import") return parser.imported;
  if (name == "validate") return parser.validate;
  if (name == "new") return parser.fresh;
  if (name == "ask") return parser.ask;
  if (name == "levels") return parser.levels;
  if (name == "choose") return parser.choose;
  if (name == "times") return parser.times;
  if (name == "measure") return parser.measure;
  if (name == "look") return parser.look;
  if (name == "locate") return parser.locate;
  if (name == "trace") return parser.trace;
  if (name == "serve") return parser.serve;
  if (name == "devices") return parser.devices;
  if (name == "backup") return parser.backup;
  if (name == "restore") return parser.restore;
  if (name == "salvage") return parser.salvage;
  return parser.catalogue;
}

Common common_of(const SharedTexts& texts) {
  Common common = texts.common;
  if (!texts.units.empty()) common.units = texts.units == "us" ? job::DisplayUnits::us : job::DisplayUnits::metric;
  if (texts.colour == "always") common.colour = ColourChoice::always;
  if (texts.colour == "never") common.colour = ColourChoice::never;
  return common;
}

// CLI11's options, in their groups, for our own help page: those of the command first.
std::vector<OptionGroup> groups_of(const CLI::App& app) {
  std::vector<OptionGroup> groups = {{own_group, {}}, {shared_group, {}}};
  for (const CLI::Option* option : app.get_options()) {
    if (option->get_positional()) continue;
    std::string names = option->get_name(false, true);
    if (const std::size_t comma = names.find(','); comma != std::string::npos) names.insert(comma + 1, " ");
    if (!option->get_type_name().empty() && option->get_type_size() != 0) names += " " + option->get_type_name();
    groups[option->get_group() == own_group ? 0 : 1].options.push_back({names, option->get_description()});
  }
  groups.erase(std::remove_if(groups.begin(), groups.end(), [](const auto& group) { return group.options.empty(); }),
               groups.end());
  return groups;
}

Outcome help_of(const Parser& parser, const TextStyle& style) {
  const auto chosen = parser.app.get_subcommands();
  if (chosen.empty()) return {exit_sound, overview_text(style), ""};
  for (const CommandHelp& help : all_help()) {
    if (help.name == chosen.front()->get_name()) {
      return {exit_sound, command_help_text(help, groups_of(*chosen.front()), style), ""};
    }
  }
  return {exit_sound, overview_text(style), ""};
}

Outcome not_understood(const std::string& command, const std::string& what) {
  const std::string name = command.empty() ? "duskwire" : "duskwire " + command;
  return {exit_bad_input, "", fmt::format("{}: {}\nTry {} --help.\n", name, what, name)};
}

std::vector<std::string> option_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::Option* option : app.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  return names;
}

Outcome refuse(const Parser& parser, const CLI::ParseError& error) {
  const auto chosen = parser.app.get_subcommands();
  const CLI::App& app = chosen.empty() ? parser.app : *chosen.front();
  std::string what = error.what();
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr) {
    const std::vector<std::string> extras = parser.app.remaining(true);
    const std::string extra = extras.empty() ? "" : extras.front();
    const std::string option = extra.substr(0, extra.find('='));
    what = fmt::format("\"{}\" was not expected.", extra);
    if (option.rfind("--", 0) == 0) {
      const std::string meant = nearest(option, option_names(app));
      what =
          fmt::format("there is no option {}.{}", option, meant.empty() ? "" : fmt::format(" Did you mean {}?", meant));
    }
  }
  return not_understood(chosen.empty() ? "" : app.get_name(), what);
}

}  // namespace

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const CommandHelp& help : all_help()) names.push_back(help.name);
  return names;
}

std::variant<Invocation, Outcome> parse(const std::vector<std::string>& arguments, const TextStyle& style) {
  if (arguments.empty()) return Outcome{exit_bad_input, "", overview_text(style)};
  const std::string& first = arguments.front();
  if (first == "--version") return Outcome{exit_sound, fmt::format("duskwire {}\n", DUSKWIRE_VERSION), ""};
  const std::vector<std::string> names = command_names();
  if (first.rfind('-', 0) != 0 && std::find(names.begin(), names.end(), first) == names.end()) {
    const std::string meant = nearest(first, names);
    return not_understood("", fmt::format("there is no command \"{}\".{}", first,
                                          meant.empty() ? "" : fmt::format(" Did you mean {}?", meant)));
  }
  Parser parser;
  try {
    // CLI11 takes its arguments last first.
    parser.app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const CLI::CallForHelp&) {
    return help_of(parser, style);
  } catch (const CLI::ParseError& error) {
    return refuse(parser, error);
  }
  const auto chosen = parser.app.get_subcommands();
  if (chosen.empty()) return Outcome{exit_bad_input, "", overview_text(style)};
  return Invocation{common_of(parser.shared), request_of(parser, chosen.front()->get_name())};
}

}  // namespace duskwire::cli
