# SPDX-License-Identifier: Apache-2.0
"""Reads C++ sources the way the checks need it: their includes, and their text without comments and strings."""
import re
from pathlib import Path

INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]', re.MULTILINE)
# A comment, a raw string, a string or a character: whichever starts first.
NOT_CODE = re.compile(
    r'//[^\n]*|/\*.*?\*/|R"([^(\s]{0,16})\(.*?\)\1"|"(?:\\.|[^"\\\n])*"|(?<![0-9a-fA-F])\'(?:\\.|[^\'\\\n])+\'', re.DOTALL)


def sources(folder: Path) -> list[Path]:
    """All C++ files below a folder, in a stable order."""
    return sorted(path for path in folder.rglob("*") if path.suffix in (".hpp", ".cpp"))


def includes(text: str) -> list[tuple[int, bool, str]]:
    """(line, is it in angle brackets, name) of each include."""
    return [(text.count("\n", 0, found.start(2)) + 1, found.group(1) == "<", found.group(2))
            for found in INCLUDE.finditer(text)]


def code_only(text: str) -> str:
    """The text with comments, strings and characters blanked, line numbers kept."""
    return NOT_CODE.sub(lambda found: re.sub(r"[^\n]", " ", found.group(0)), text)
