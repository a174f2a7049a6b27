#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Builds and runs the benchmarks and prints their figures and ratios as Markdown, for docs/validation.md.

All methods are measured in one run, repeated and interleaved at random, by processor time (wall time for ngspice, a
process of its own); of the repetitions the fastest counts, which is the one least disturbed by other work.

  tools/bench_report.py [--repetitions N] [--quick]
"""
import argparse
import collections
import json
import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
PROGRAM = ROOT / "build" / "bench" / "bench" / "duskwire_bench"
QUICK = "/(30|300|3000)/|report|^ngspice_process/30/"
METHODS = [
    ("solver", "solver"),
    ("plain_sweep", "plain sweep"),
    ("plain_sweep_tree_by_tree", "plain sweep, tree by tree"),
    ("eigen_newton", "Newton, Eigen LDLT"),
    ("klu_newton", "Newton, KLU"),
    ("ngspice_process", "ngspice, whole process"),
    ("prepare", "(prepare, once per network)"),
]


def run(arguments: argparse.Namespace) -> list:
    subprocess.run([ROOT / "tools" / "build", "bench", "duskwire_bench"], check=True, stdout=subprocess.DEVNULL)
    command = [
        PROGRAM,
        "--benchmark_format=json",
        f"--benchmark_repetitions={arguments.repetitions}",
        "--benchmark_enable_random_interleaving=true",
    ]
    if arguments.quick:
        command.append(f"--benchmark_filter={QUICK}")
    out = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    return json.loads(out)["benchmarks"]


class Figures:
    """Fastest repetition of each row, microseconds, and the counters of the rows."""

    def __init__(self, rows: list):
        self.fastest_us = {}
        self.counters = collections.defaultdict(dict)
        self.failures = []
        for row in rows:
            name = row["run_name"].split("/")
            key = (name[0], int(name[1]) if len(name) > 1 and name[1].isdigit() else 0)
            if row.get("error_occurred"):
                self.failures.append(f"{row['run_name']}: {row['error_message']}")
                continue
            if row["run_type"] != "iteration":
                continue
            assert row["time_unit"] == "us", row
            us = row["real_time" if key[0] == "ngspice_process" else "cpu_time"]
            self.fastest_us[key] = min(us, self.fastest_us.get(key, us))
            for counter in ("iterations_needed", "bytes_per_lamp"):
                if counter in row:
                    self.counters[key][counter] = row[counter]

    def sizes(self) -> list:
        return sorted({size for method, size in self.fastest_us if method == "solver"})

    def us(self, method: str, size: int):
        return self.fastest_us.get((method, size))


def cell(us) -> str:
    return "-" if us is None else f"{us:,.1f}" if us < 1000 else f"{us:,.0f}"


def table(head: list, rows: list) -> str:
    lines = ["| " + " | ".join(head) + " |", "| --- " + "| ---: " * (len(head) - 1) + "|"]
    return "\n".join(lines + ["| " + " | ".join(row) + " |" for row in rows])


def time_table(figures: Figures) -> str:
    sizes = figures.sizes()
    rows = []
    for method, title in METHODS:
        times = [cell(figures.us(method, size)) for size in sizes]
        if any(time != "-" for time in times):
            rows.append([title] + times)
    return table(["microseconds at N lamps"] + [f"{size:,}" for size in sizes], rows)


def ratio_table(figures: Figures) -> str:
    sizes = figures.sizes()
    rows = []
    for method, title in METHODS[1:-1]:
        ratios = []
        for size in sizes:
            theirs = figures.us(method, size)
            ratios.append("-" if theirs is None else f"{figures.us('solver', size) / theirs:.3f}")
        rows.append(["solver / " + title] + ratios)
    rows.append(["solver, ns per lamp"] + [f"{1000 * figures.us('solver', size) / size:.1f}" for size in sizes])
    iterations = [figures.counters[("solver", size)].get("iterations_needed") for size in sizes]
    rows.append(["solver, iterations"] + ["-" if count is None else f"{count:.0f}" for count in iterations])
    return table(["ratio"] + [f"{size:,}" for size in sizes], rows)


def verdict(figures: Figures) -> str:
    """Each bar with the figure that decides it."""
    lines = []

    def bar(text: str, value: float, limit: float, form: str = ".3f"):
        lines.append(f"- {text}: {value:{form}}, bar {limit:{form}}: {'met' if value <= limit else 'MISSED'}")

    large = [size for size in figures.sizes() if size >= 300]
    for method, title, limit in [("plain_sweep", "plain sweep", 1.0), ("klu_newton", "KLU Newton", 1 / 3)]:
        size = max(large, key=lambda n: figures.us("solver", n) / figures.us(method, n))
        ratio = figures.us("solver", size) / figures.us(method, size)
        bar(f"solver / {title}, worst of N >= 300 (at {size:,})", ratio, limit)
    for size in (1000000,):
        bytes_per_lamp = figures.counters[("memory", size)].get("bytes_per_lamp")
        if bytes_per_lamp:
            bar(f"bytes per lamp at {size:,} lamps", bytes_per_lamp, 400, ".0f")
    report_us = figures.us("report", 60)
    if report_us:
        bar("whole report of a 60-lamp job, microseconds", report_us, 1000, ".0f")
        cures_us = figures.us("report_with_cures", 60)
        lines.append(f"- the same with a search for cures of its findings, microseconds: {cures_us:,.0f} (no bar)")
    if len(large) > 1:
        per_lamp = [figures.us("solver", size) / size for size in large]
        lines.append(
            f"- time per lamp, largest over smallest of N >= 300: {max(per_lamp) / min(per_lamp):.2f} (1 is linear; the "
            "step is where the arrays leave the processor's caches)"
        )
    return "\n".join(lines)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--repetitions", type=int, default=5)
    parser.add_argument("--quick", action="store_true", help="only up to 3,000 lamps")
    figures = Figures(run(parser.parse_args()))
    print(time_table(figures), ratio_table(figures), verdict(figures), sep="\n\n")
    for failure in figures.failures:
        print(f"failed: {failure}", file=sys.stderr)
    return 1 if figures.failures else 0


if __name__ == "__main__":
    sys.exit(main())
