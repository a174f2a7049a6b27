#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Which branches of src/store its own tests take: builds the preset `coverage`, runs test_store, reads gcov.

tools/coverage.py [--lines]   --lines names each line with a branch that was never taken

Branches that only an exception of a library takes are left out: gcov marks them, and each call would count."""
import gzip
import json
import pathlib
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[1]
BUILD = ROOT / "build/coverage"


def build_and_run():
    subprocess.run(["cmake", "--preset", "coverage", "-DDUSKWIRE_GROUPED=OFF"], cwd=ROOT, check=True,
                   stdout=subprocess.DEVNULL)
    subprocess.run(["cmake", "--build", BUILD, "-j1", "--target", "test_store"], cwd=ROOT, check=True,
                   stdout=subprocess.DEVNULL)
    for counts in BUILD.rglob("*.gcda"):
        counts.unlink()
    subprocess.run([BUILD / "tests/test_store", "--gtest_brief=1"], cwd=ROOT, check=True)


def branches_by_file():
    """{file: {line: [times each branch was taken]}}, added up over all objects that hold the line."""
    found = {}
    notes = sorted(BUILD.rglob("CMakeFiles/duskwire_store.dir/**/*.gcda"))
    with tempfile.TemporaryDirectory() as folder:
        for note in notes:
            subprocess.run(["gcov", "--json-format", "--branch-probabilities", str(note)], cwd=folder, check=True,
                           stdout=subprocess.DEVNULL)
            for made in pathlib.Path(folder).glob("*.gcov.json.gz"):
                for file in json.loads(gzip.decompress(made.read_bytes()))["files"]:
                    add(found, file)
                made.unlink()
    return found


def add(found, file):
    path = pathlib.Path(file["file"])
    store = ROOT / "src/store"
    if store not in path.parents:
        return
    lines = found.setdefault(path.name, {})
    for line in file["lines"]:
        counts = [branch["count"] for branch in line["branches"] if not branch["throw"]]
        if not counts:
            continue
        before = lines.setdefault(line["line_number"], [0] * len(counts))
        if len(before) == len(counts):
            lines[line["line_number"]] = [a + b for a, b in zip(before, counts)]
        else:
            before.extend(counts)


def main():
    build_and_run()
    taken = total = 0
    for name, lines in sorted(branches_by_file().items()):
        here = sum(len(counts) for counts in lines.values())
        if here == 0:
            continue
        hit = sum(1 for counts in lines.values() for count in counts if count)
        taken, total = taken + hit, total + here
        print(f"{name:24} {hit:5} of {here:5} branches  {100 * hit / here:5.1f} %")
        if "--lines" in sys.argv:
            missed = [str(line) for line, counts in sorted(lines.items()) if not all(counts)]
            print("    never both ways: " + (", ".join(missed) or "none"))
    print(f"{'src/store':24} {taken:5} of {total:5} branches  {100 * taken / total:5.1f} %")


if __name__ == "__main__":
    main()
