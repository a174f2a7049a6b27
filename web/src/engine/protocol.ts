// SPDX-License-Identifier: Apache-2.0
// What page and worker say to each other: a verb of the engine with its arguments as JSON text, and the answer as JSON
// text, so that the page sees exactly what the command line prints with --json. The verbs that the page uses:
//
//   verb           arguments                            answer
//   check          document, {cures: bool}              {problems, report?}    report absent where the document is broken
//   check_and_keep document, {cures: bool}              the same; the engine keeps the document
//   check_changed  [[pointer, value]...], {cures: bool} the same for the kept document with these parts put in
//   validate       document                             problems
//   apply_changes  document, changes                    document               refused where one does not fit
//   materials      document                             as duskwire materials --json
//   advise         document                             as duskwire advise --json
//   ask            question                             as duskwire ask --json
//   start_job      {title, created, site, lamps_csv}    document               as duskwire new --lamps
//   calibrate      document, id of a view               its camera, how well the marks agree, what was measured
//   levels         document, {plan: bool}               light on each place, spill, sight lines, the night plan
//   level_sets     -                                    the sets of levels to choose from
//   choose         document, what is to be lit          articles that do it, with their places and aims
//   price          document                             as duskwire price --json
//   price_difference document before, document after    the move of the price, line by line
//   deposit_rules  -                                    the rules that limit deposits
//   times          document, {year, zone, tariff?}      sun and switching of a year, hours, energy
//   locate         document, {visit?, readings?, readings_alone?}  as duskwire locate --json
//   readings       document, the same request           what was read beside the plan, drift
//   trace          document, {runs, visit?, readings?}  as duskwire trace --json
//   export_texts   document                             [{name, text}]         README, tables, schema of an exported file
//   stock          -                                    the stock catalogue file
//   rulesets       -                                    list of ruleset files
//   route_begin    document, request                    progress               starts to plan the wiring
//   route_search   milliseconds                         progress               searches on for that long
//   route_answer   -                                    the best so far beside today's wiring, both checked in full
//
// A refusal is thrown with `code`, `message` and `problems`.
import type { Problem } from './report';

export interface Request {
  readonly number: number;
  readonly verb: string;
  readonly arguments: readonly string[];
}

export type Response =
  | { readonly number: number; readonly ok: true; readonly text: string; readonly milliseconds: number }
  | { readonly number: number; readonly ok: false; readonly message: string; readonly code?: string; readonly problems: readonly Problem[] };
