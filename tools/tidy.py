#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Runs clang-tidy (the short list in .clang-tidy) on src/, two bundles at a time. Most of its time goes into the headers
of libraries, so a bundle holds one of the build's groups (or files) of each room: rooms have namespaces of their own, so
that what clashes within a room does not between two. A bundle that cannot be compiled is looked at part by part. What
passed is not looked at again until a source or header of ours in it, the compile commands or the list of checks changes.

Usage: tools/tidy.py [BUILD FOLDER with compile_commands.json]"""
import concurrent.futures
import hashlib
import json
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

from group_sources import Headers, kept_to_itself
from includes import includes

PROJECT = Path(__file__).resolve().parent.parent
PASSED = PROJECT / "build" / "tidy"
BUNDLES = PROJECT / "build" / "tidy-bundles"
# Its library's headers are C++17 for clang (see CMakeLists.txt).
MORE = {PROJECT / "src/paper/pdf_finish.cpp": ["-std=c++17", "-Wno-c++20-extensions"]}
TIDY = shutil.which("clang-tidy-14") or "clang-tidy"


def closure(path: Path, seen: set[Path]) -> set[Path]:
    """The file and every file of ours that it reaches; a group names its sources by their whole paths."""
    if path in seen or not path.exists():
        return seen
    seen.add(path)
    for _, in_brackets, name in includes(path.read_text(encoding="utf-8")):
        if not in_brackets:
            closure(PROJECT / "src" / name, seen)
    return seen


def key_of(parts: list[Path], flags: list[str]) -> str:
    hashed = hashlib.sha256((PROJECT / ".clang-tidy").read_bytes() + "\0".join(flags).encode())
    ours: set[Path] = set()
    for part in parts:
        closure(part, ours)
    for part in sorted(ours):
        hashed.update(str(part.relative_to(PROJECT)).encode() + b"\0" + part.read_bytes() + b"\0")
    return hashed.hexdigest()


def of_src(path: Path) -> bool:
    """Whether it is a source below src/, or a group of them."""
    src = PROJECT / "src"
    if path.is_relative_to(src):
        return True
    return "groups" in path.parts and all(Path(name).is_relative_to(src) for _, _, name in includes(path.read_text("utf-8")))


def sources_in(path: Path) -> set[Path]:
    """The sources that are compiled with it: those of a group, or itself."""
    return {Path(name) for _, _, name in includes(path.read_text("utf-8"))} if "groups" in path.parts else {path}


def without_twins(paths: list[Path]) -> list[Path]:
    """A source that two targets compile is left to the group that has it."""
    grouped = set().union(*(sources_in(path) for path in paths if "groups" in path.parts))
    return [path for path in paths if path not in grouped]


class Names:
    """Which parts of two rooms cannot stand in one bundle: one keeps for itself a name that a header of its room has,
    and the other includes that header."""

    def __init__(self, paths: list[Path]) -> None:
        self.headers = Headers()
        self.seen: dict[Path, set[str]] = {}
        self.own: dict[Path, set[str]] = {}
        for path in paths:
            self.seen[path], self.own[path] = set(), set()
            for source in sources_in(path):
                seen = self.headers.seen_by(source)
                self.seen[path] |= seen
                self.own[path] |= kept_to_itself(source.read_text(encoding="utf-8"), seen)

    def at_odds(self, a: Path, b: Path) -> bool:
        return self._hides(a, b) or self._hides(b, a)

    def _hides(self, a: Path, b: Path) -> bool:
        room = next(iter(sources_in(a))).parent.resolve()
        return bool(self.own[a] & self.seen[b] & self.headers.of_folder.get(room, set()))


def bundled(paths: list[Path]) -> list[list[Path]]:
    """One part of each room at most, the largest parts first, each to the smallest bundle in which it may stand."""
    rooms: dict[str, list[Path]] = {}
    for path in paths:
        rooms.setdefault(path.parent.name, []).append(path)
    sizes = {path: sum(source.stat().st_size for source in sources_in(path)) for path in paths}
    names = Names(paths)
    bundles: list[list[Path]] = []
    for parts in sorted(rooms.values(), key=len, reverse=True):
        free = list(bundles)
        for path in sorted(parts, key=lambda path: (-sizes[path], path)):
            fitting = [bundle for bundle in free if not any(names.at_odds(path, part) for part in bundle)]
            if not fitting:
                bundles.append([path])
                continue
            smallest = min(fitting, key=lambda bundle: sum(sizes[part] for part in bundle))
            free = [bundle for bundle in free if bundle is not smallest]
            smallest.append(path)
    return [sorted(bundle) for bundle in bundles]


def flags_of(commands: list[str]) -> list[str]:
    """What decides how the headers are read, of all these compile commands."""
    flags: dict[str, None] = {}
    for command in commands:
        words = shlex.split(command)
        for word, following in zip(words, words[1:]):
            if word == "-isystem":
                flags["-isystem" + following] = None
            elif word.startswith(("-I", "-D", "-std=")):
                flags[word] = None
    return list(flags)


def clang_tidy(path: Path, flags: list[str]) -> tuple[bool, str]:
    done = subprocess.run([TIDY, "--quiet", str(path), "--", *flags, *MORE.get(path, [])], capture_output=True, text=True, check=False)
    return done.returncode == 0, re.sub(r"\d+ warnings? generated\.\n", "", done.stdout + done.stderr)


def look_at(name: str, parts: list[Path], flags: list[str]) -> tuple[str, bool, str]:
    if len(parts) > 1:
        BUNDLES.mkdir(parents=True, exist_ok=True)
        bundle = BUNDLES / f"{name}.cpp"
        bundle.write_text("".join(f'#include "{part}"\n' for part in parts), encoding="utf-8")
        sound, text = clang_tidy(bundle, flags)
        if sound or "clang-diagnostic-error" not in text:
            return name, sound, text
    answers = [clang_tidy(part, flags) for part in parts]
    return name, all(sound for sound, _ in answers), "\n".join(text.strip() for _, text in answers).strip()


def main() -> int:
    build = Path(sys.argv[1]) if len(sys.argv) > 1 else PROJECT / "build" / "release"
    commands = {Path(entry["file"]): entry["command"] for entry in json.loads((build / "compile_commands.json").read_text())}
    paths = without_twins(sorted(path for path in commands if of_src(path)))
    bundles = [[path] for path in paths if path in MORE] + bundled([path for path in paths if path not in MORE])
    PASSED.mkdir(parents=True, exist_ok=True)
    flags = [flags_of([commands[part] for part in parts]) for parts in bundles]
    keys = [key_of(parts, more) for parts, more in zip(bundles, flags)]
    todo = [number for number, key in enumerate(keys) if not (PASSED / key).exists()]
    failed = 0
    with concurrent.futures.ThreadPoolExecutor(max_workers=2) as pool:
        for number, (name, sound, text) in zip(todo, pool.map(lambda number: look_at(f"{number}", bundles[number], flags[number]), todo)):
            if sound:
                (PASSED / keys[number]).touch()
            else:
                failed += 1
                print(f"bundle {name}:\n{text.strip()}")
    for stale in {entry.name for entry in PASSED.iterdir()} - set(keys):
        (PASSED / stale).unlink()
    print(f"{len(paths)} files or groups in {len(bundles)} bundles: {len(bundles) - len(todo)} unchanged since they passed, "
          f"{len(todo)} looked at, {failed} with findings")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
