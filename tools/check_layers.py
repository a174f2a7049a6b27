#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Guards the direction of dependency: a room includes only rooms of lower floors, an external library stays in the rooms
that own it, and nothing up to floor 4 prints, reads files, looks at the clock, rolls dice or exits.

Usage: tools/check_layers.py [PROJECT FOLDER]. Exit status 1 where a rule is broken; each breach is one line."""
import re
import sys
from pathlib import Path

from includes import code_only, includes, sources

FLOORS = {
    "base": 0,
    "geometry": 1, "pictures": 1,
    "job": 2, "electrical": 2, "light": 2, "almanac": 2,
    "wiring": 3, "diagnosis": 3, "estimate": 3,
    "study": 4,
    "formats": 5, "paper": 5, "store": 5, "zones": 5, "office": 5,
    "server": 6, "wasm": 6,
    "cli": 7,
}
HIGHEST_SILENT_FLOOR = 4
EVERYWHERE = frozenset(FLOORS)

# External headers by the start of their name, with the rooms that may include them. What is not here is refused: a new
# library is a decision (docs/decisions/0003-libraries.md), then a line here.
EXTERNAL = {
    "fmt/": EVERYWHERE,
    "Eigen/": {"electrical", "light", "wiring", "diagnosis"},
    "embree3/": {"geometry"},
    "nlohmann/": {"formats", "server", "cli", "wasm"},
    "zlib.h": {"formats"},
    "date/": {"zones"},
    "xlsxwriter.h": {"office"},
    "zip.h": {"office"},
    "cairo": {"paper"},
    "pango/": {"paper"},
    "qpdf/": {"paper"},
    "SQLiteCpp/": {"store"},
    "sqlite3.h": {"store"},
    "openssl/": {"store", "server"},
    "boost/": {"server"},
    "turbojpeg.h": {"pictures"},
    "png.h": {"pictures"},
    "webp/": {"pictures"},
    "CLI/": {"cli"},
    "qrencode.h": {"cli"},
    "emscripten": {"wasm"},
}
# Of the operating system: for the rooms that meet it.
SYSTEM = re.compile(r"^(?:unistd|fcntl|signal|poll|termios|wchar|spawn|ifaddrs|arpa/inet|net/if|netinet/in|linux/[a-z]+|sys/[a-z]+)\.h$")
SYSTEM_ROOMS = {"store", "server", "cli"}
STANDARD = re.compile(r"^[a-z_]+$")

# What a silent room may not say: pattern, and what it is called in the message.
LOUD_HEADERS = {"iostream", "fstream", "cstdio", "filesystem", "random", "syncstream", "print"}
LOUD_CODE = [
    (re.compile(r"\bstd\s*::\s*(?:w?cout|w?cerr|w?clog|w?cin)\b"), "standard streams"),
    (re.compile(r"\b(?:std\s*::\s*)?(?:f|v|vf)?printf\s*\("), "printing"),
    (re.compile(r"\b(?:std\s*::\s*)?(?:puts|fputs|putchar|fopen|freopen|tmpfile)\s*\("), "input and output"),
    (re.compile(r"\bfmt\s*::\s*print\s*\("), "printing"),
    (re.compile(r"\b(?:std\s*::\s*)?(?:exit|quick_exit|_Exit|abort|terminate)\s*\("), "ending the program"),
    (re.compile(r"\b(?:std\s*::\s*)?(?:getenv|setenv|system)\s*\("), "the environment"),
    (re.compile(r"\b(?:system|steady|high_resolution|utc|file)_clock\b"), "a clock"),
    (re.compile(r"\b(?:std\s*::\s*)(?:time|clock|localtime|gmtime)\s*\("), "a clock"),
    (re.compile(r"\brandom_device\b|\b(?:std\s*::\s*)?s?rand\s*\("), "randomness"),
]


def include_breach(room: str, in_brackets: bool, name: str) -> str | None:
    """What is wrong with an include in `room`, or None."""
    if in_brackets:
        return bracket_breach(room, name)
    target = name.split("/")[0]
    if "/" not in name or target not in FLOORS:
        return f'"{name}" is not of the form "room/file.hpp" with a known room'
    if target != room and FLOORS[target] >= FLOORS[room]:
        return f'"{name}": {room} (floor {FLOORS[room]}) may not include {target} (floor {FLOORS[target]})'
    return None


def bracket_breach(room: str, name: str) -> str | None:
    for start, rooms in EXTERNAL.items():
        if name.startswith(start):
            return None if room in rooms else f"<{name}> belongs to {', '.join(sorted(rooms))}, not to {room}"
    if SYSTEM.match(name):
        return None if room in SYSTEM_ROOMS else f"<{name}> is of the operating system; {room} may not use it"
    if not STANDARD.match(name):
        return f"<{name}> is of no library that this project has decided on"
    if FLOORS[room] <= HIGHEST_SILENT_FLOOR and name in LOUD_HEADERS:
        return f"<{name}>: {room} (floor {FLOORS[room]}) is silent"
    return None


def file_breaches(room: str, text: str) -> list[tuple[int, str]]:
    """(line, what is wrong) for one file of a room."""
    found = []
    for line, in_brackets, name in includes(text):
        breach = include_breach(room, in_brackets, name)
        if breach:
            found.append((line, breach))
    if FLOORS[room] <= HIGHEST_SILENT_FLOOR:
        code = code_only(text)
        for pattern, what in LOUD_CODE:
            for match in pattern.finditer(code):
                found.append((code.count("\n", 0, match.start()) + 1,
                              f"{what} ({match.group(0).strip('( ')}): {room} (floor {FLOORS[room]}) is silent"))
    return sorted(found)


def cmake_breaches(text: str) -> list[tuple[int, str]]:
    """The build must link downwards only, too."""
    found = []
    for match in re.finditer(r"^\s*duskwire_(?:room|program)\((.*?)\)", text, re.MULTILINE):
        names = [word for word in match.group(1).split() if word in FLOORS]
        for lower in names[1:]:
            if FLOORS[lower] >= FLOORS[names[0]]:
                found.append((text.count("\n", 0, match.start(1)) + 1, f"{names[0]} may not link {lower}"))
    return found


def check(project: Path) -> list[str]:
    breaches = []
    for path in sources(project / "src"):
        place = path.relative_to(project)
        room = place.parts[1]
        if len(place.parts) < 3 or room not in FLOORS:
            breaches.append(f"{place}: not in a known room; the table of floors is in tools/check_layers.py")
            continue
        found = file_breaches(room, path.read_text(encoding="utf-8"))
        breaches += [f"{place}:{line}: {what}" for line, what in found]
    build = project / "CMakeLists.txt"
    if build.exists():
        breaches += [f"CMakeLists.txt:{line}: {what}" for line, what in cmake_breaches(build.read_text(encoding="utf-8"))]
    return breaches


def main() -> int:
    project = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).resolve().parent.parent
    breaches = check(project)
    for breach in breaches:
        print(breach)
    print(f"{len(sources(project / 'src'))} files, {len(breaches)} breaches of the layers")
    return 1 if breaches else 0


if __name__ == "__main__":
    sys.exit(main())
