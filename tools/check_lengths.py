#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""A source file is at most 500 lines long and says first what it is for: a licence tag on its first line, then a comment.

Number tables and generated files are excepted: they say so with `long-file: <reason>` in their first five lines."""
import sys
from pathlib import Path

WALL_LINES = 500
SUFFIXES = {".cpp", ".hpp", ".ts", ".svelte", ".py", ".js", ".mjs"}
FOLDERS = ("src", "tests", "bench", "tools", "web/src", "cmake")
TAG = "SPDX-License-Identifier: Apache-2.0"


def breach(path: Path) -> str | None:
    lines = path.read_text(encoding="utf-8").split("\n")
    head = "\n".join(lines[:5])
    if TAG not in "\n".join(lines[:2]):
        return f"the first line is not '// {TAG}'"
    if len(lines) - 1 > WALL_LINES and "long-file:" not in head:
        return f"{len(lines) - 1} lines, the wall is {WALL_LINES}: what would be the second idea in it?"
    return None


def main() -> int:
    project = Path(__file__).resolve().parent.parent
    files = [path for folder in FOLDERS for path in sorted((project / folder).rglob("*"))
             if path.suffix in SUFFIXES and "node_modules" not in path.parts and "__pycache__" not in path.parts]
    breaches = 0
    for path in files:
        what = breach(path)
        if what:
            breaches += 1
            print(f"{path.relative_to(project)}: {what}")
    print(f"{len(files)} files, {breaches} breaches")
    return 1 if breaches else 0


if __name__ == "__main__":
    sys.exit(main())
