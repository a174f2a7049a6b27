#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Reads an exported job without the program that wrote it: checks every SHA-256, then sums lamps, metres of cable and
volt-amperes by run out of the tables. Python's standard library only.

Usage: docs/read_export.py FILE.zip [REPORT.json]. With a report (duskwire check JOB --json) the sums are held against
it; exit status 1 where anything differs."""
import csv, hashlib, io, json, sys, zipfile
from collections import defaultdict

wrong = []


def expect(what, met, wanted, within=0.0):
    if abs(met - wanted) > within:
        wrong.append(f"{what}: {met:g} in the tables, {wanted:g} in the report")


archive = zipfile.ZipFile(sys.argv[1])
listed = dict(reversed(line.split("  ", 1)) for line in archive.read("SHA256SUMS").decode().splitlines())
for name in archive.namelist():
    if name != "SHA256SUMS" and hashlib.sha256(archive.read(name)).hexdigest() != listed.pop(name, None):
        wrong.append(f"{name}: not as SHA256SUMS has it")
wrong += [f"{name}: in SHA256SUMS, but not in the archive" for name in listed]


def table(name):
    return list(csv.DictReader(io.StringIO(archive.read(f"tables/{name}.csv").decode(), newline="")))


def number(text):
    return float(text or 0)


job = json.loads(archive.read("job.json"))
lamps, cables, outputs = table("lamps"), table("cables"), table("outputs")
metres = sum(number(cable["length_m"]) for cable in cables)
lamps_of, va_of = defaultdict(int), defaultdict(float)
for lamp in lamps:
    lamps_of[lamp["output"]] += 1
    va_of[lamp["output"]] += number(lamp["power_va"])
print(f"{job['title']}: {len(lamps)} lamps, {metres:.1f} m of cable")
for output in outputs:
    run = output["output"]
    print(f"  {run}: {lamps_of[run]} lamps, {va_of[run]:.1f} VA")
    expect(f"VA of {run}", va_of[run], number(output["lamp_va"]), 0.001 * len(lamps))

if len(sys.argv) > 2:
    report = json.load(open(sys.argv[2], encoding="utf-8"))
    expect("lamps", len(lamps), len(report["lamps"]))
    expect("metres of cable", metres, sum(cable["length_m"] for cable in report["cables"]), 0.001 * len(cables))
    for output in report["outputs"]:
        expect(f"lamps of {output['id']}", lamps_of[output["id"]], output["lamp_count"])
    for unit in report["transformers"]:
        met = sum(va_of[one["output"]] for one in outputs if one["transformer"] == unit["id"])
        expect(f"VA of {unit['id']}", met, unit["lamp_va"], 0.001 * len(lamps))
print("\n".join(wrong) or f"All {len(archive.namelist()) - 1} checksums and all sums agree.")
sys.exit(1 if wrong else 0)
