#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Writes docs/rules.md from data/rulesets/*.json; with --check only compares."""

import json
import pathlib
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
TARGET = ROOT / "docs" / "rules.md"
ORDER = ["us", "us-cautious", "ca", "iec"]

HEAD = """# Rules

What `duskwire` judges a job by, one table for each ruleset of `data/rulesets`. A job names its ruleset under
`site.ruleset`. These are limits to check against, not the code: local code, its edition and the instructions of listed
equipment win, and the local authority and a licensed electrician decide.

How sure we are of a rule stands in the column *status*: `seen` (read in a public source, whose address follows), `from
memory` (not checked here), `common practice, no source`. A clause of the code that was seen quoted in such a source was
not read in the code itself.

Where sources disagree, a ruleset puts one in force and lists the others as *alternative to* it: those are shown, never
judged. Choose the ruleset that puts yours in force (`us-cautious`), or copy one and change it.

This page is made by `tools/make_rules_page.py`.

## What a check needs

| Check | Judges | Needs from the job |
| --- | --- | --- |
"""

CHECKS = [
    ("tap-voltage", "no-load volts of the chosen tap", "tap of the output"),
    ("output-current", "worst current of an output over the corners", "a solved network"),
    ("output-protection", "size of the protective device of an output", "`limit_a` of the output, else of the item"),
    ("output-load", "worst current against a share of the device; without a share the shop's `output_load_pct`",
     "a solved network"),
    ("output-va", "volts at the terminals times worst current", "a solved network"),
    ("transformer-load", "the larger of the worst load and the rated VA of the lamps, against a share of the rating; "
     "without a share the shop's `transformer_load_pct`", "a solved network"),
    ("ampacity", "worst current of a cable; sizes that the table lacks go by the item's own ampacity",
     "a solved network"),
    ("small-wire-protection", "protective device of an output against its thinnest cable; one finding per output; leads "
     "that come with a fixture are not judged", "which output feeds the cable"),
    ("conductor-size", "least area, a smaller one for short pieces", "length, cable item"),
    ("cable-burial", "cable in the ground that is not made for it", "depth, or ground from the plan"),
    ("slack", "loose cable at the ends that the table names", "slack of cable, luminaire or practice"),
    ("cover-depth", "cover by what lies above: the areas of the plan that the path crosses and the cable's own `ground`; "
     "`other` is for ground that neither names. Under hard surfaces a sleeve's depth counts. A cable whose `ground` is "
     "wall, steps, deck or building needs none", "depth, path and areas or `ground`"),
    ("splice-under-surface", "buried joints under the surfaces of the table", "position, areas"),
    ("water-distance", "distance of luminaires, cables and joints from pools or ponds of the plan. Near a pool a "
     "luminaire may be that is listed for water, and a cable that lies in a sleeve, both on a tap within the contact "
     "limit of a transformer listed for pools; in a pond a listed luminaire and its cable", "positions, paths, areas"),
    ("transformer-water", "distance of transformers outdoors", "position, areas"),
    ("transformer-height", "lower edge over grade, outdoors", "mounting height"),
    ("transformer-listing", "transformer outdoors that is not listed for it", "item"),
    ("receptacle-gfci", "residual-current protection of the receptacle, outdoors", "receptacle"),
    ("receptacle-cover", "cover that closes over the plug, outdoors", "receptacle"),
    ("extension-cord", "feed through an extension cord", "-"),
    ("branch-circuit", "rating of the supply circuit", "`circuit_a` of the receptacle"),
    ("branch-load", "estimated mains current of all transformers on one receptacle", "`circuit_a`, a solved network"),
    ("connector-fill", "number and sizes of the wires of one conductor against the connector's table, with linked "
     "pieces where so many are fitted", "connector, cable and lead sizes"),
    ("connector-count", "fewer pieces than one per conductor, unless the box keeps both apart", "`connector_count`"),
    ("connector-sealed", "unsealed connector at a buried joint", "connector"),
    ("connector-held", "connector at a buried joint that does not hold its wires mechanically", "connector"),
    ("lamp-window", "lowest and highest volts of each lamp over the corners against its own window",
     "a solved network"),
    ("voltage-drop", "volts lost from the output's terminals to the farthest lamp, nominal, as a share of the tap; one "
     "finding per output", "a solved network"),
    ("mixed-lamps", "halogen and LED lamps on one output", "which output feeds the lamp"),
]


def cell(text):
    return text.replace("|", "\\|").replace("\n", " ")


def numbers(rule):
    parts = [f"{name} {value:g}" for name, value in rule.get("values", {}).items()]
    for name, table in rule.get("tables", {}).items():
        parts.append(f"{name}: " + ", ".join(f"{key} {value:g}" for key, value in table.items()))
    return "; ".join(parts) or "-"


def rule_row(rule):
    provenance = rule["provenance"]
    title = rule["title"]
    if rule.get("alternative_to"):
        title += f" (*alternative to* `{rule['alternative_to']}`, not judged)"
    cells = [f"`{rule['id']}`", title, rule["check"], rule["severity"], numbers(rule), provenance["clause"] or "-",
             provenance["edition"] or "-", provenance["status"], provenance["note"] or "-"]
    return "| " + " | ".join(cell(text) for text in cells) + " |\n"


def ruleset_part(ruleset):
    head = f"\n## `{ruleset['id']}`\n\n{ruleset['title']}.\n\n{ruleset['notice']}\n\n"
    table = "| Rule | Asks | Check | Breach is | Limits | Clause | Edition | Status | Note |\n" + "| --- " * 9 + "|\n"
    return head + table + "".join(rule_row(rule) for rule in ruleset["rules"])


def page():
    rulesets = {path.stem: json.loads(path.read_text(encoding="utf-8"))
                for path in sorted((ROOT / "data" / "rulesets").glob("*.json"))}
    order = [name for name in ORDER if name in rulesets] + [name for name in rulesets if name not in ORDER]
    used = {rule["check"] for ruleset in rulesets.values() for rule in ruleset["rules"]}
    unexplained = used - {name for name, _, _ in CHECKS}
    if unexplained:
        sys.exit("tools/make_rules_page.py does not explain: " + ", ".join(sorted(unexplained)))
    checks = "".join(f"| {name} | {judges} | {needs} |\n" for name, judges, needs in CHECKS)
    return HEAD + checks + "".join(ruleset_part(rulesets[name]) for name in order)


def main():
    text = page()
    if "--check" in sys.argv[1:]:
        if not TARGET.exists() or TARGET.read_text(encoding="utf-8") != text:
            sys.exit("docs/rules.md is stale: run tools/make_rules_page.py")
        return
    TARGET.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
