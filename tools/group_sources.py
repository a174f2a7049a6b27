#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Packs the sources of one target into files that include several of them, so that a compiler reads the headers and
makes the templates of a group once: most of a build from clean is that. Two files of which one keeps for itself a name
that the other has, or sees in a header, never share a group; so no file has to know of its neighbours.

Usage: tools/group_sources.py FOLDER SIZE SOURCE...   writes FOLDER/<n>.cpp; prints those files, a line each"""
import re
import sys
from pathlib import Path

from includes import includes

PROJECT = Path(__file__).resolve().parent.parent
# clang-format puts what a namespace declares at the first column, and nothing else.
TYPE = re.compile(r"(?:template ?<.*> )?(?:struct|class|union|enum class|enum|using) ([A-Za-z_]\w*)\b(?! *;|::)")
BORROWED = re.compile(r"^ *using (?:\w*::)+(\w+);", re.MULTILINE)
ANNOUNCED = re.compile(r"^(?:struct|class) (\w+);", re.MULTILINE)
ALIAS = re.compile(r"^using (\w+) = ([\w:]+);", re.MULTILINE)
WHOLE_NAMESPACE = re.compile(r"^using namespace (?!.*(?:testing|literals);)", re.MULTILINE)
EVERYTHING = "*"
NO_DECLARATION = re.compile(r"namespace|(?:struct|class) \w+;|using [\w:]+;|using namespace|TEST|INSTANTIATE|template class")
VALUE = re.compile(r"[^(]*?\b([A-Za-z_]\w*)(?:\[[^\]]*\])* ?(?:=|\{)")
CALLED = re.compile(r"[^(]*?\b([A-Za-z_]\w*)\(")
LATER = re.compile(r"\b([A-Za-z_]\w*);$")


def declared(lines: list[str]) -> set[str]:
    names = set()
    for line in lines:
        line = line.removeprefix("[[nodiscard]] ")
        if line[:1].isalpha() and not NO_DECLARATION.match(line):
            for pattern in (TYPE, VALUE, CALLED, LATER):
                found = pattern.match(line) if pattern is not LATER else pattern.search(line)
                if found:
                    names.add(found.group(1))
                    break
    return names


def kept_to_itself(text: str, seen: set[str]) -> set[str]:
    """Names that a source declares in a namespace without name, or elsewhere without a header that tells of them."""
    inside, outside, unnamed = [], [], False
    for line in text.splitlines():
        if line.startswith("namespace {"):
            unnamed = True
        elif line.startswith("}  // namespace"):
            unnamed = False
        (inside if unnamed else outside).append(line)
    return declared(inside) | declared(outside) - seen


class Headers:
    """Names that a header of ours declares, those of the headers that it includes with them."""

    def __init__(self) -> None:
        self.known: dict[Path, set[str]] = {}
        self.of_folder: dict[Path, set[str]] = {}  # declared by the headers of one room

    def seen_by(self, path: Path) -> set[str]:
        if path in self.known:
            return self.known[path]
        self.known[path] = set()
        text = path.read_text(encoding="utf-8")
        names = declared(text.splitlines()) if path.suffix == ".hpp" else set()
        self.of_folder.setdefault(path.parent, set()).update(names)
        if path.suffix == ".hpp":
            names |= set(BORROWED.findall(text)) | set(ANNOUNCED.findall(text))
        for _, in_brackets, name in includes(text):
            for folder in (path.parent, PROJECT / "src", PROJECT / "tests"):
                if not in_brackets and (folder / name).exists():
                    names |= self.seen_by((folder / name).resolve())
                    break
        self.known[path] = names
        return names


def groups(sources: list[Path], size: int) -> list[list[Path]]:
    headers = Headers()
    own, seen, borrowed, aliases = {}, {}, {}, {}
    for path in sources:
        text = path.read_text(encoding="utf-8")
        borrowed[path] = set(BORROWED.findall(text))
        seen[path] = headers.seen_by(path) | borrowed[path]
        own[path] = kept_to_itself(text, seen[path])
        aliases[path] = dict(ALIAS.findall(text))
        if WHOLE_NAMESPACE.search(text):
            borrowed[path] = {EVERYTHING}

    def borrows_what_the_other_has(a: Path, b: Path) -> bool:
        return EVERYTHING in borrowed[a] or bool(borrowed[a] & (seen[b] - borrowed[b]) & headers.of_folder[a.parent.resolve()])

    def both_keep(a: Path, b: Path) -> bool:
        """A name that both have for themselves; not one that means the same library's type in both."""
        return any("::" not in aliases[a].get(name, "") or aliases[a][name] != aliases[b].get(name) for name in own[a] & own[b])

    def at_odds(a: Path, b: Path) -> bool:
        return (both_keep(a, b) or bool(own[a] & seen[b] or own[b] & seen[a])
                or borrows_what_the_other_has(a, b) or borrows_what_the_other_has(b, a))

    # As many groups as the size asks for, filled evenly, files that fit with few others first; one that fits into none
    # of them begins another.
    foes = {path: sum(at_odds(path, other) for other in sources if other != path) for path in sources}
    made: list[list[Path]] = [[] for _ in range(-(-len(sources) // size))]
    for path in sorted(sources, key=lambda path: (-foes[path], -path.stat().st_size, path)):
        fitting = [group for group in made if not any(at_odds(path, other) for other in group)]
        if fitting:
            min(fitting, key=lambda group: sum(other.stat().st_size for other in group)).append(path)
        else:
            made.append([path])
    return [sorted(group) for group in made if group]


def main() -> int:
    folder, size = Path(sys.argv[1]), int(sys.argv[2])
    folder.mkdir(parents=True, exist_ok=True)
    written = set()
    for number, group in enumerate(groups([Path(source) for source in sys.argv[3:]], size)):
        path = folder / f"{number}.cpp"
        text = "".join(f'#include "{source}"\n' for source in group)
        if not path.exists() or path.read_text(encoding="utf-8") != text:
            path.write_text(text, encoding="utf-8")
        written.add(path)
        print(path)
    for stale in set(folder.glob("*.cpp")) - written:
        stale.unlink()
    return 0


if __name__ == "__main__":
    sys.exit(main())
