#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Which branches of the store and of the readers their own tests take.

tools/coverage.py [--lines] [NAME...]   NAME: store, job, photometry, csv, pictures, archive, http (all where none is given)
                                        --lines names each condition that was never true, or never false

Compiles the sources that are measured once more, by clang with counters for each condition of the source, and links
them before the release build's own libraries and tests. Conditions as they are written are counted, not the branches of
the machine: those that a compiler makes for exceptions, which gcov marks 'throw' and 'fallthrough', do not come in."""
import concurrent.futures
import json
import os
import pathlib
import re
import shlex
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[1]
RELEASE = ROOT / "build/release"
BUILD = ROOT / "build/coverage"

# What is measured: its files, the test program, the program's tests.
MEASURED = {
    "store": ("src/store/*.[ch]pp", "test_store", "*"),
    "job": ("src/formats/job_reader.cpp src/formats/read_*.[ch]pp src/formats/json_parse.cpp src/formats/text_forms.cpp "
            "src/formats/document_head.cpp src/formats/context.cpp src/formats/*_agreement.cpp", "test_formats",
            # Does not bear the code of two compilers in one program.
            "-Requests.ATextThatIsNotAnObjectIsRefused"),
    "photometry": ("src/light/lm63_reader.cpp src/light/eulumdat_reader.cpp src/light/intensity_reader.cpp "
                   "src/light/intensity_text.cpp src/light/lm63_head.cpp", "test_light",
                   "*Reader*:*Photometry*:*Lm63*:*Eulumdat*:*Malformed*"),
    "csv": ("src/formats/csv_table.cpp src/formats/lamps_csv.cpp", "test_formats", "*Csv*"),
    "pictures": ("src/pictures/*.cpp", "test_pictures", "*"),
    "archive": ("src/office/unpack.cpp src/server/export_file.cpp", "test_server", "ExportFile*:PictureHashes*"),
    "http": ("src/server/head_end.cpp src/server/head_of.hpp src/server/gate.cpp", "test_server", "HeadEnd*:Gate*"),
}
# The counters cannot go into the release build's own test of the archive: it has a program of its own.
FURTHER_TESTS = {"archive": [("test_office", "Unpack*")]}


def run(*command, **more):
    return subprocess.run([str(part) for part in command], cwd=more.pop("cwd", ROOT), check=True, text=True, **more)


def commands_of(target):
    listed = run("ninja", "-C", RELEASE, "-t", "commands", target, stdout=subprocess.PIPE).stdout.splitlines()
    return [line for line in listed if not line.startswith("ninja:")]


def flags_of(commands, room):
    """What the room's sources are compiled with, but for optimising and warnings."""
    line = next(line for line in commands if f"duskwire_{room}.dir/" in line and " -c " in line)
    words = shlex.split(line)
    kept = []
    for word, after in zip(words, words[1:] + [""]):
        if re.match(r"-(D|I|std=)", word):
            kept.append(word)
        elif word == "-isystem":
            kept += [word, after]
    return kept


def link_words(commands):
    return shlex.split(commands[-1].replace(": && ", "").replace(" && :", ""))


def compiled(source, flags):
    target = BUILD / (str(source.relative_to(ROOT)).replace("/", "_") + ".o")
    run("clang++", *flags, "-O0", "-w", "-fprofile-instr-generate", "-fcoverage-mapping", "-c", source, "-o", target)
    return target


def program_with_counters(name, program, sources):
    run("tools/build", "release", program, stdout=subprocess.DEVNULL)
    commands = commands_of(f"tests/{program}")
    parts = [source for source in sources if source.suffix == ".cpp" and
             any(f"duskwire_{source.parent.name}.dir/" in line for line in commands)]
    with concurrent.futures.ThreadPoolExecutor(int(os.environ.get("JOBS", "1"))) as pool:
        objects = list(pool.map(lambda source: compiled(source, flags_of(commands, source.parent.name)), parts))
    words = link_words(commands)
    target = BUILD / f"{name}_{program}"
    first = words.index("-o")
    words = ["clang++", *map(str, objects), *words[1:first], "-o", str(target), *words[first + 2:]]
    # Of what stands twice the first is taken: the one with counters.
    run(*words, "-fprofile-instr-generate", "-Wl,--allow-multiple-definition", cwd=RELEASE)
    return target


def is_decided_while_running(line):
    """`if constexpr` and `while (true)` are decided by the compiler; what is counted at a switch itself is the value that none of its cases
    names, and -Wswitch sees to it that there is none."""
    return not re.match(r"\s*(if constexpr|switch|while \(true\))", line)


def branches_of(name):
    """{file: {(line, column): [times true, times false]}}, added up over the programs that ran."""
    pattern, program, tests = MEASURED[name]
    sources = sorted(path for one in pattern.split() for path in ROOT.glob(one))
    found = {}
    for program, tests in [(program, tests), *FURTHER_TESTS.get(name, [])]:
        made = program_with_counters(name, program, sources)
        profile = BUILD / f"{made.name}.profraw"
        run(made, "--gtest_brief=1", f"--gtest_filter={tests}", env={**os.environ, "LLVM_PROFILE_FILE": str(profile)},
            stdout=sys.stderr)
        run("llvm-profdata-14", "merge", profile, "-o", profile.with_suffix(".profdata"))
        told = run("llvm-cov-14", "export", made, f"-instr-profile={profile.with_suffix('.profdata')}", *sources,
                   stdout=subprocess.PIPE).stdout
        for file in json.loads(told)["data"][0]["files"]:
            conditions = found.setdefault(pathlib.Path(file["filename"]).name, {})
            lines = pathlib.Path(file["filename"]).read_text().splitlines()
            for line, column, _, _, true, false, *_ in file["branches"]:
                if not is_decided_while_running(lines[line - 1]):
                    continue
                counts = conditions.setdefault((line, column), [0, 0])
                counts[0] += true
                counts[1] += false
    return found


def report(name, with_lines):
    taken = total = 0
    for file, conditions in sorted(branches_of(name).items()):
        here = 2 * len(conditions)
        if here == 0:
            continue
        hit = sum((counts[0] > 0) + (counts[1] > 0) for counts in conditions.values())
        taken, total = taken + hit, total + here
        print(f"  {file:24} {hit:5} of {here:5} branches  {100 * hit / here:5.1f} %")
        for (line, column), counts in sorted(conditions.items()) if with_lines else ():
            if not all(counts):
                never = " or ".join(word for word, count in zip(("true", "false"), counts) if count == 0)
                print(f"      line {line}, column {column}: never {never}")
    print(f"{name:26} {taken:5} of {total:5} branches  {100 * taken / total:5.1f} %", flush=True)


def main():
    names = [word for word in sys.argv[1:] if word != "--lines"]
    for name in names:
        if name not in MEASURED:
            sys.exit(f"tools/coverage.py: '{name}' is none of {', '.join(MEASURED)}")
    run("tools/ensure_packages", "build", "test", "coverage")
    BUILD.mkdir(parents=True, exist_ok=True)
    for name in names or MEASURED:
        report(name, "--lines" in sys.argv)


if __name__ == "__main__":
    main()
