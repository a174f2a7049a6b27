#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Runs clang-tidy (the short list in .clang-tidy) on src/, two files at a time, as the build compiles them: alone, or a
group of sources as one file. What passed is not looked at again until a source or header of ours in it, its compile
command or the list of checks changes.

Usage: tools/tidy.py [BUILD FOLDER with compile_commands.json]"""
import concurrent.futures
import hashlib
import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

from includes import includes

PROJECT = Path(__file__).resolve().parent.parent
PASSED = PROJECT / "build" / "tidy"
# Its library's headers are C++17 for clang (see CMakeLists.txt).
MORE = {PROJECT / "src/paper/pdf_finish.cpp": ["--extra-arg=-std=c++17", "--extra-arg=-Wno-c++20-extensions"]}
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


def key_of(path: Path, command: str) -> str:
    hashed = hashlib.sha256((PROJECT / ".clang-tidy").read_bytes() + command.encode())
    for part in sorted(closure(path, set())):
        hashed.update(str(part.relative_to(PROJECT)).encode() + b"\0" + part.read_bytes() + b"\0")
    return hashed.hexdigest()


def of_src(path: Path) -> bool:
    """Whether it is a source below src/, or a group of them."""
    src = PROJECT / "src"
    if path.is_relative_to(src):
        return True
    return "groups" in path.parts and all(Path(name).is_relative_to(src) for _, _, name in includes(path.read_text("utf-8")))


def run_one(path: Path, build: Path) -> tuple[Path, bool, str]:
    done = subprocess.run([TIDY, "-p", str(build), "--quiet", *MORE.get(path, []), str(path)], capture_output=True, text=True, check=False)
    return path, done.returncode == 0, re.sub(r"\d+ warnings? generated\.\n", "", done.stdout + done.stderr)


def main() -> int:
    build = Path(sys.argv[1]) if len(sys.argv) > 1 else PROJECT / "build" / "release"
    commands = {Path(entry["file"]): entry["command"] for entry in json.loads((build / "compile_commands.json").read_text())}
    ours = {path: key_of(path, command) for path, command in commands.items() if of_src(path)}
    PASSED.mkdir(parents=True, exist_ok=True)
    todo = [path for path, key in sorted(ours.items()) if not (PASSED / key).exists()]
    failed = 0
    with concurrent.futures.ThreadPoolExecutor(max_workers=2) as pool:
        for path, sound, text in pool.map(lambda path: run_one(path, build), todo):
            if sound:
                (PASSED / ours[path]).touch()
            else:
                failed += 1
                print(f"{path.relative_to(PROJECT)}:\n{text.strip()}")
    for stale in {entry.name for entry in PASSED.iterdir()} - set(ours.values()):
        (PASSED / stale).unlink()
    print(f"{len(ours)} files or groups: {len(ours) - len(todo)} unchanged since they passed, {len(todo)} looked at, {failed} with findings")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
