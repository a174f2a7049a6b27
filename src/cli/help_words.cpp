// SPDX-License-Identifier: Apache-2.0
#include "cli/help.hpp"

namespace duskwire::cli {

const std::vector<CommandHelp>& all_help() {
  static const std::vector<CommandHelp> all = {
      {"check",
       "JOB",
       "what each lamp will really see, and what is wrong",
       "Solves the wiring of a job at nominal and at worst, judges it by the rules of its region, and shows volts lamp "
       "by "
       "lamp, load output by output, and each finding with its place, its source and a cure that was tried. JOB is a "
       "job "
       "file, or - for standard input.",
       {{"duskwire check examples/small-garden.json", ""},
        {"duskwire check examples/ostrey-garden.json --brief", "exit 1: three mistakes are planted"},
        {"duskwire check examples/ostrey-garden-sound.json --units metric --full", ""},
        {"duskwire check examples/small-garden.json --json --ruleset iec", ""}}},
      {"advise",
       "JOB",
       "which tap, which transformer, which protection, and why",
       "Chooses by the corners: mains low and high, cable cold and hot, all lamps and one alone. Each piece of advice "
       "comes "
       "with its reason and what was rejected.",
       {{"duskwire advise examples/ostrey-garden.json", ""},
        {"duskwire advise examples/small-garden.json --units us", ""},
        {"duskwire advise examples/small-garden.json --json", ""}}},
      {"materials",
       "JOB",
       "what to buy and what to cut",
       "Cable by type with slack and waste, rounded to what is sold; connectors by joint; stakes, staples, tags; a "
       "list of "
       "cuts for the crew. Prices come from the job's catalogue and are estimates.",
       {{"duskwire materials examples/ostrey-garden-sound.json", ""},
        {"duskwire materials examples/small-garden.json --units us", ""},
        {"duskwire materials examples/small-garden.json --json", ""}}},
      {"price",
       "JOB",
       "what it costs, what it takes in hours, and what is left",
       "Prices the list of materials with its mark-up and the hours by kind of work: lights, splices, trench by its "
       "ground, commissioning, night visit, road. Adds tax, holds the margin against a floor, the deposit against a "
       "rule, and prices each option as the job with its lights. Rates stand in the job's offer; what it does not say "
       "is taken by common practice and listed. An estimate, not legal advice.",
       {{"duskwire price examples/ostrey-garden-sound.json", ""},
        {"duskwire price examples/small-garden.json", "without an offer: common practice, and said so"},
        {"duskwire price examples/small-garden.json --against examples/ostrey-garden-sound.json", ""},
        {"duskwire price examples/ostrey-garden-sound.json --json", ""}}},
      {"route",
       "JOB",
       "the cheapest sound wiring of its lamps that is found",
       "Plans which lamps hang on which run, where is dug, cable by cable, taps and joints, so that every lamp stays "
       "in "
       "its window at worst and the whole costs least to put in. What stands fast is pinned by its id. The planned job "
       "is an ordinary job, written by --output; the page says what it gains on today's and why each run is as it is. "
       "Ctrl-C ends the search and keeps the best so far. A build with an exact solver proves with --exact how far a "
       "plan "
       "of up to 12 lamps is from the best.",
       {{"duskwire route examples/ostrey-garden.json --steps 500", ""},
        {"duskwire route examples/ostrey-garden.json --seconds 1 --output planned.json --force", ""},
        {"duskwire route examples/ostrey-garden.json --keep-transformer T1 --no-hub --steps 200 --json", ""},
        {"duskwire route examples/small-garden.json", "exit 1: nothing of it has a place on a plan"}}},
      {"levels",
       "[JOB]",
       "how much light falls where, and who sees the lamps",
       "Takes the light of every lamp at its dimming and on its volts: on walks, steps, terraces, faces and crowns, at "
       "the property line and on neighbours' windows, with shadows. Holds it against what a source asks, shows what "
       "the "
       "other sources say, and draws the night plan. Straight light, and with --bounce what bounces once; levels are "
       "estimates.",
       {{"duskwire levels examples/ostrey-garden-sound.json", ""},
        {"duskwire levels examples/ostrey-garden-sound.json --targets en-13201 --full", ""},
        {"duskwire levels examples/ostrey-garden-sound.json --bounce --plan night.png --force", ""},
        {"duskwire levels --photometry examples/bullet-24.ies", ""}}},
      {"locate",
       "JOB",
       "where a fault sits, from readings: where to dig first, what to read next",
       "Tries every fault, and pairs of faults, on the network of the plan, fits each to the readings of a visit (or "
       "of "
       "a CSV file) and says how likely each place is, in what order to dig by chance over effort, with tape offsets, "
       "depth and pictures, and which reading would tell most. Likelihoods, not certainty.",
       {{"duskwire locate examples/ostrey-garden-sound.json", ""},
        {"duskwire locate examples/ostrey-garden-sound.json --json", ""}}},
      {"trace",
       "JOB",
       "the wiring of a garden that came without a plan, as far as a walk tells",
       "From lamps on the plan, ways that a locator followed, amperes by clamp, volts at lamps and what went dark when "
       "a "
       "run was lifted: which lamp hangs on which run, where and through which cable, each with its chance, and what "
       "would tell most. The rough network is an ordinary job, written by --output.",
       {{"duskwire trace examples/inherited/garden.json --walk examples/inherited/walk.json", ""},
        {"duskwire trace examples/inherited/garden.json --walk examples/inherited/walk.json --output traced.json "
         "--force",
         ""},
        {"duskwire trace examples/inherited/garden.json --walk examples/inherited/walk.json --json", ""}}},
      {"choose",
       "[JOB]",
       "which lamps suit a tree, a walk, steps or a wall",
       "Works out beam, lumens, setback, spacing and aim from the size of what is to be lit, and shows the lamps of "
       "the "
       "catalogue that fit, each with its reason and with the light that it gives there.",
       {{"duskwire choose --crown 5m:2m:7.5m --setback 1.5m", ""},
        {"duskwire choose --walk 14m:1.2m --pool 2.6m --riser 9m", ""},
        {"duskwire choose examples/ostrey-garden.json --tree tree-oak", ""},
        {"duskwire choose examples/ostrey-garden.json --face house/0 --json", ""}}},
      {"look",
       "--known NAME:SIZE:PX",
       "the first answer to a client's photograph",
       "From one known size on the photograph: how large the rest is and how sure that is. From the client's words: "
       "what "
       "to light first, and who must not be dazzled. With what is still to be asked and a price band. All estimates.",
       {{"duskwire look --known door:2.03m:410px --thing tree:1480px --note \"front steps are scary, I love the tree\"",
         ""},
        {"duskwire look --known door:6.66ft:410px --thing tree:1480px --depth-error 0 --units us --json", ""}}},
      {"times",
       "JOB",
       "when the lights go on and off, and what they burn",
       "Sunrise, sunset and the programme of the job through a year, on days when clocks change too: a card for the "
       "timer, hours, energy from the mains, LED against halogen. Where the sun does not set or rise it says so. The "
       "calendar has visits, care, and warranties that end.",
       {{"duskwire times examples/ostrey-garden-sound.json --year 2026", ""},
        {"duskwire times examples/ostrey-garden-sound.json --year 2026 --kwh-price 0.18 --full", ""},
        {"duskwire times examples/ostrey-garden-sound.json --year 2026 --calendar care.ics --force", ""},
        {"duskwire times examples/ostrey-garden-sound.json --year 2026 --json", ""}}},
      {"measure",
       "JOB",
       "lengths on a photograph of the job, with their errors",
       "Finds the camera of a view from its wall of known size, from known points or the focal length, shows what the "
       "fit "
       "leaves over, and measures the marked lengths. Says in words where the picture does not tell enough.",
       {{"duskwire measure examples/ostrey-garden.json --view front", ""},
        {"duskwire measure examples/ostrey-garden.json --view front --json", ""}}},
      {"night",
       "JOB --view ID --output FILE",
       "a photograph of the garden by night, calculated",
       "Lights the surfaces marked on a calibrated photograph with the job's lamps: where they stand and aim, dimmed, "
       "on the volts that the wiring leaves them, with shadows. The picture has the photograph's size and a strip "
       "below that says that it is a calculated impression and what was assumed. Ctrl-C stops and writes nothing.",
       {{"duskwire night examples/ostrey-garden.json --view front --output night.png --width 800 --force", ""},
        {"duskwire night examples/ostrey-garden.json --output eye.png --width 400 --camera-share 0 --force", ""},
        {"duskwire night examples/ostrey-garden.json --output night.jpg --width 400 --exposure 1 --json --force", ""}}},
      {"papers",
       "JOB --output FOLDER",
       "proposal, crew set, commissioning sheet and owner's pack as PDF",
       "Writes what the client signs, what the crew carries, what a meter should read and what the owner keeps, with "
       "the lists of materials as CSV and as a workbook "
       "and "
       "the plan as DXF: each file whole, and all of them or none. The same job, date and options give the same bytes. "
       "Calculated values are marked as estimates, terms as a template.",
       {{"duskwire papers examples/ostrey-garden-sound.json --output papers --shop \"Example Garden Lights\" --force",
         ""},
        {"duskwire papers examples/ostrey-garden-sound.json --only proposal --size a4 --units metric --zip papers.zip "
         "--force",
         ""}}},
      {"export",
       "JOB --output FILE.zip",
       "a job with everything that belongs to it, as one file that needs no program",
       "Writes one zip archive: the job as it is, its pictures as they are stored, the papers as PDF, every schedule "
       "as "
       "CSV, the schema of the job, a README that says what each file and each column is, and SHA-256 checksums. Of a "
       "job file pictures are looked for beside it by their content; with --workspace and --id all comes out of a "
       "workspace that no server has open.",
       {{"duskwire export examples/ostrey-garden-sound.json --output garden.zip --date 2026-11-26 --force", ""},
        {"duskwire export examples/small-garden.json --output small.zip --no-papers --json --force", ""}}},
      {"import",
       "FILE.zip",
       "takes an exported job in again: into a folder or a workspace",
       "Holds every checksum against what is there, then writes the job and its pictures into a folder, or puts them "
       "into a workspace as a new job: the document comes back byte for byte. A file in which a name leads outside, "
       "comes twice, is a link or a device, or that unpacks to more than any job is refused whole.",
       {{"duskwire import garden.zip --output garden --force", ""},
        {"duskwire import garden.zip --workspace kept.duskwire", ""}}},
      {"validate",
       "JOB",
       "whether a job file is well formed",
       "Reads the file and names every problem with its place (a JSON pointer), the value met, and what was expected. "
       "Nothing is computed.",
       {{"duskwire validate examples/ostrey-garden.json", ""},
        {"duskwire validate examples/small-garden.json --json", ""}}},
      {"new",
       "[--lamps CSV]",
       "a job file to start from, blank or from a list of lamps",
       "Writes a small sound job from the stock catalogue, to be changed by hand. With --lamps, a table of lamps (CSV "
       "with a "
       "head line: name, item, x_m, y_m, zone; or watts instead of item) becomes a job with transformer, taps and a "
       "simple "
       "wiring, a chain or a hub for each zone, so that check can run on it at once.",
       {{"duskwire new --title \"Front garden\"", ""},
        {"duskwire new --lamps examples/lamps.csv --output list.json --force", ""},
        {"duskwire check list.json", "the job just made"}}},
      {"ask",
       "[--lamps N] [--watts W] [--length L] [--cable SIZE] [--tap V]",
       "a quick question, without a file",
       "So many lamps of so many watts over this length of this cable from this tap: what does the last one see, and "
       "how "
       "far is it from the edge? Leave out one of --lamps, --length, --cable or --tap and that is what you are asking "
       "for: "
       "how many, how far, which cable, which tap.",
       {{"duskwire ask --lamps 8 --watts 4 --length 60m --cable 12awg --tap 13", ""},
        {"duskwire ask --watts 4 --length 200ft --cable 12awg --tap 13 --spread end", "how many lamps?"},
        {"duskwire ask --lamps 8 --watts 4 --power-factor 0.7 --cable 2.5mm2 --tap 12", "how far?"},
        {"duskwire ask --lamps 20 --watts 5 --length 40m --cable 4mm2 --spread tee", "which tap?"}}},
      {"catalogue",
       "[WORD]",
       "what the stock holds",
       "Lists the catalogue, or the items with WORD in their id, kind or title.",
       {{"duskwire catalogue", ""},
        {"duskwire catalogue transformer", ""},
        {"duskwire catalogue path --units us --json", ""}}},
      {"serve",
       "[--workspace FILE]",
       "the page and its workspace, on this computer alone",
       "Keeps jobs, all their revisions and pictures in one workspace file, and serves the page that edits them, on "
       "127.0.0.1 and ::1 until Ctrl-C. Open the address that it prints: the token in it is made anew at each start, "
       "and "
       "whoever "
       "has it can read and change the workspace. Keep backups: duskwire backup. --lan opens a "
       "door "
       "to the local network as well, for phones that are paired with the code on this screen: it closes by itself "
       "after half an hour without one, and is shut again at the next start. Plain http: whoever listens in on that "
       "network can read along. A browser that asks by a name of its own, through a tunnel or from a phone, is let in "
       "with --name NAME.",
       {{"duskwire serve --workspace gardens.duskwire --port 0", ""},
        {"duskwire serve --workspace gardens.duskwire --port 0 --add examples/ostrey-garden.json", ""},
        {"duskwire serve --workspace gardens.duskwire --port 0 --lan --address 127.0.0.2", ""}}},
      {"devices",
       "WORKSPACE",
       "the phones that may use a workspace over the local network, and how to forget one",
       "Lists the phones that were paired by duskwire serve --lan. A phone that is forgotten comes in no more from "
       "that "
       "moment on, even while a server runs; to use it again it is paired anew.",
       {{"duskwire devices gardens.duskwire", ""},
        {"duskwire devices gardens.duskwire --forget phone-1a2b3c4d", "exit 1: no such phone is paired"}}},
      {"backup",
       "WORKSPACE --output FILE",
       "a copy of a workspace, checked",
       "Copies a workspace, also while a server has it open: all jobs, revisions and pictures, as one file that can be "
       "kept "
       "anywhere. The fingerprint is that of everything ever stored: equal ones hold the same.",
       {{"duskwire backup gardens.duskwire --output gardens-backup.duskwire", ""},
        {"duskwire backup gardens.duskwire --output gardens-friday.duskwire", ""}}},
      {"restore",
       "BACKUP --output FILE",
       "a workspace again from a backup",
       "Copies a backup to a new file and checks every document and picture of it against its hash. The backup stays.",
       {{"duskwire restore gardens-backup.duskwire --output gardens-restored.duskwire", ""},
        {"duskwire restore gardens-friday.duskwire --output gardens-again.duskwire", ""}}},
      {"salvage",
       "WORKSPACE --output FILE",
       "what can still be read of a damaged workspace",
       "Reads a damaged file row by row, puts what matches its hash into a new workspace and lists what was saved and "
       "what was not. The damaged file stays as it is. Exit 1 where something was lost or could not be checked.",
       {{"duskwire salvage gardens.duskwire --output gardens-salvaged.duskwire", ""},
        {"duskwire salvage gardens-backup.duskwire --output gardens-second.duskwire", "a backup too"}}},
  };
  return all;
}

}  // namespace duskwire::cli
