#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""One name, one type: no two files of the program define a type of the same full name.

The linker keeps one of two such types' inline members and calls it for both, without a word: a crash that comes and
goes with the optimiser. Types inside unnamed namespaces are private to their file and may repeat."""
import re
import sys
from collections import defaultdict
from pathlib import Path

FOLDERS = ("src", "tests", "bench")
NAMESPACE = re.compile(r"\s*(?:inline\s+)?namespace\s*([\w:]*)\s*\{")
TYPE = re.compile(r"(?:struct|class|enum|enum\s+class|union)\s+(\w+(?:::\w+)*)\s*(?:final\s*)?(?::[^;{]*)?\{")
QUOTED = re.compile(r'"(?:\\.|[^"\\])*"|\'(?:\\.|[^\'\\])\'|//.*')


def types_of(text: str) -> list[str]:
    """Full names of the types defined at the level of a named namespace."""
    found: list[str] = []
    spaces: list[tuple[str, int]] = []  # name, depth of its brace
    depth = 0
    for line in text.split("\n"):
        line = QUOTED.sub('""', line)
        opened = NAMESPACE.match(line)
        if opened:
            spaces.append((opened.group(1), depth))
        defined = TYPE.match(line)
        if defined and len(spaces) == depth and all(name for name, _ in spaces):
            found.append("::".join([name for name, _ in spaces] + [defined.group(1)]))
        depth += line.count("{") - line.count("}")
        while spaces and spaces[-1][1] >= depth:
            spaces.pop()
    return found


def repeated(sources: dict[str, str]) -> dict[str, list[str]]:
    """By full name of a type: the files that define it, where they are more than one."""
    where: dict[str, list[str]] = defaultdict(list)
    for path, text in sources.items():
        for name in types_of(text):
            where[name].append(path)
    return {name: paths for name, paths in sorted(where.items()) if len(paths) > 1}


def main() -> int:
    project = Path(__file__).resolve().parent.parent
    sources = {str(path.relative_to(project)): path.read_text(encoding="utf-8")
               for folder in FOLDERS for path in sorted((project / folder).rglob("*.[ch]pp"))}
    breaches = repeated(sources)
    for name, paths in breaches.items():
        print(f"{name} is defined {len(paths)} times: {', '.join(paths)}")
    print(f"{len(sources)} files, {len(breaches)} names with two meanings")
    return 1 if breaches else 0


if __name__ == "__main__":
    sys.exit(main())
