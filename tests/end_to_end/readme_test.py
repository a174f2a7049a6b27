# SPDX-License-Identifier: Apache-2.0
"""What the documentation shows is what comes out: each fenced block marked `console` in README.md and docs/ is run.

In a block, a line "$ duskwire ..." is a command (typed in the folder of the project) and the lines up to the next one are
its output. A line that is only "..." stands for any number of lines; a command without output lines must only end well,
which is with 0 or, where errors were found in a job, with 1.

After a wanted change: DUSKWIRE_KEEP=1 python3 tests/end_to_end/readme_test.py writes anew what the pages show whole, where no
"..." stands in it."""
import os
import re
import shlex
import shutil
import subprocess
import tempfile
import unittest
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]
PROGRAM = PROJECT / "build" / "release" / "duskwire"
BLOCK = re.compile(r"^```console\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def commands(page: str) -> list[tuple[str, list[str]]]:
    """(command line, lines of output that the page shows) in reading order."""
    found: list[tuple[str, list[str]]] = []
    for block in BLOCK.findall(page):
        for line in block.splitlines():
            if line.startswith("$ "):
                found.append((line[2:], []))
            elif found:
                found[-1][1].append(line.rstrip())
    return found


def run(words: list[str], folder: Path) -> subprocess.CompletedProcess:
    surroundings = {"PATH": os.environ["PATH"], "HOME": str(folder), "LANG": "C.UTF-8"}
    return subprocess.run([str(PROGRAM), *words[1:]], cwd=folder, env=surroundings, capture_output=True, text=True,
                          timeout=60, check=False)


def renewed(page: str, output_of) -> str:
    """The page with what `output_of(command line)` gives in place of output that it shows whole."""

    def renew(block: re.Match) -> str:
        lines: list[str] = []
        for line, shown in commands(block.group(0)):
            lines.append("$ " + line)
            real = output_of(line)
            whole = any(shown) and "..." not in shown
            lines += [row.rstrip() for row in real.rstrip().splitlines()] if whole and real else shown
        return "```console\n" + "".join(line + "\n" for line in lines) + "```"

    return BLOCK.sub(renew, page)


def matches(shown: list[str], real: list[str]) -> bool:
    pattern = "".join(r"(?:[^\n]*\n)*?" if line == "..." else re.escape(line) + "\n" for line in shown)
    return re.fullmatch(pattern, "".join(line + "\n" for line in real)) is not None


class Pages(unittest.TestCase):
    def run_page(self, path: Path, folder: Path) -> int:
        count = 0
        for line, shown in commands(path.read_text(encoding="utf-8")):
            words = shlex.split(line)
            if words[0] not in ("duskwire", "./run"):
                continue
            count += 1
            with self.subTest(page=path.name, command=line):
                self.run_command(words, shown, folder)
        return count

    def run_command(self, words: list[str], shown: list[str], folder: Path) -> None:
        done = run(words, folder)
        self.assertIn(done.returncode, (0, 1), done.stderr)
        real = [row.rstrip() for row in done.stdout.splitlines()]
        if any(shown):
            while shown and not shown[-1]:
                shown.pop()
            while real and not real[-1]:
                real.pop()
            self.assertTrue(matches(shown, real), "the page shows other lines than:\n" + done.stdout)

    def keep(self, pages: list[Path], folder: Path) -> None:
        def output_of(line: str) -> str:
            words = shlex.split(line)
            return run(words, folder).stdout if words[0] == "duskwire" else ""

        for page in pages:
            page.write_text(renewed(page.read_text(encoding="utf-8"), output_of), encoding="utf-8")

    def test_pages_show_what_comes_out(self):
        pages = [PROJECT / "README.md", *sorted((PROJECT / "docs").rglob("*.md"))]
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            for part in ("examples", "data"):
                shutil.copytree(PROJECT / part, folder / part)
            if os.environ.get("DUSKWIRE_KEEP"):
                self.keep(pages, folder)
                self.skipTest("kept anew")
            count = sum(self.run_page(page, folder) for page in pages)
        self.assertGreater(count, 0, "no page shows a command")


class Renewing(unittest.TestCase):
    def test_output_that_is_shown_whole_is_renewed_and_nothing_else(self):
        page = ("x\n```console\n$ duskwire a\nold\n\n$ duskwire b\nold\n...\n$ duskwire c\n```\n"
                "```sh\n$ duskwire a\nold\n```\n")
        self.assertEqual(renewed(page, lambda line: line + " new\n\nend\n\n"),
                         "x\n```console\n$ duskwire a\nduskwire a new\n\nend\n$ duskwire b\nold\n...\n$ duskwire c\n```\n"
                         "```sh\n$ duskwire a\nold\n```\n")


class Matching(unittest.TestCase):
    def test_dots_stand_for_any_lines(self):
        self.assertTrue(matches(["a", "...", "d"], ["a", "b", "c", "d"]))
        self.assertTrue(matches(["a", "...", "d"], ["a", "d"]))

    def test_a_changed_number_is_seen(self):
        self.assertFalse(matches(["far end 10.50 V"], ["far end 10.51 V"]))
        self.assertFalse(matches(["a", "..."], ["b", "c"]))
        self.assertFalse(matches(["a"], ["a", "b"]))

    def test_commands_are_found_with_their_output(self):
        self.assertEqual(commands("x\n```console\n$ duskwire ask\nout\n\n$ duskwire new\n```\n"),
                         [("duskwire ask", ["out", ""]), ("duskwire new", [])])


if __name__ == "__main__":
    unittest.main()
