# SPDX-License-Identifier: Apache-2.0
"""An export of a job is whole without the program: docs/read_export.py, of the standard library alone, checks each checksum
and finds the report's lamps, metres and volt-amperes in the tables, and finds what was changed."""
import json
import subprocess
import sys
import tempfile
import unittest
import zipfile
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]
PROGRAM = PROJECT / "build" / "release" / "duskwire"
READER = PROJECT / "docs" / "read_export.py"


def reader(*arguments: Path) -> subprocess.CompletedProcess:
    return subprocess.run([sys.executable, READER, *arguments], capture_output=True, text=True, check=False)


class Export(unittest.TestCase):
    def setUp(self):
        self.folder = Path(self.enterContext(tempfile.TemporaryDirectory()))

    def export(self, job: str, *more: str) -> tuple[Path, Path]:
        archive, report = self.folder / "garden.zip", self.folder / "report.json"
        subprocess.run([PROGRAM, "export", PROJECT / "examples" / job, "-o", archive, "--date", "2026-11-26", *more], check=True,
                       capture_output=True)
        checked = subprocess.run([PROGRAM, "check", PROJECT / "examples" / job, "--json", "--no-cures"], capture_output=True,
                                 check=False)
        report.write_bytes(checked.stdout)
        return archive, report

    def test_a_script_of_the_standard_library_reads_it_and_agrees_with_the_report(self):
        self.assertLessEqual(len(READER.read_text(encoding="utf-8").splitlines()), 60)
        for job, more in (("ostrey-garden-sound.json", ()), ("small-garden.json", ("--no-papers",))):
            archive, report = self.export(job, *more)
            read = reader(archive, report)
            self.assertEqual(read.returncode, 0, read.stdout + read.stderr)
            self.assertIn("all sums agree", read.stdout)
            names = zipfile.ZipFile(archive).namelist()
            self.assertEqual("papers/proposal.pdf" in names, not more)
            archive.unlink()

    def test_the_script_finds_what_was_changed(self):
        archive, report = self.export("ostrey-garden-sound.json", "--no-papers")
        with zipfile.ZipFile(archive) as whole:
            entries = {name: whole.read(name) for name in whole.namelist()}
        lamps = entries["tables/lamps.csv"].splitlines(keepends=True)
        changes = {
            "a checksum": {**entries, "tables/price.csv": entries["tables/price.csv"] + b"x"},
            "a part less": {name: entries[name] for name in entries if not name.startswith("pictures/")},
            "a lamp less": {**entries, "tables/lamps.csv": b"".join(lamps[:-1])},
        }
        for what, changed in changes.items():
            with zipfile.ZipFile(self.folder / "changed.zip", "w") as written:
                for name, content in changed.items():
                    written.writestr(name, content)
            read = reader(self.folder / "changed.zip", report)
            self.assertEqual(read.returncode, 1, what)

    def test_every_column_of_every_table_stands_in_the_readme(self):
        archive, _ = self.export("ostrey-garden-sound.json", "--no-papers")
        with zipfile.ZipFile(archive) as whole:
            readme = whole.read("README.txt").decode()
            tables = [name for name in whole.namelist() if name.startswith("tables/")]
            self.assertGreaterEqual(len(tables), 9)
            for name in tables:
                part = readme[readme.index(f"\n{name}\n"):].split("\n\n")[0]
                for column in whole.read(name).decode().splitlines()[0].split(","):
                    self.assertRegex(part, rf"\n  {column} +\S.{{9}}", name)
            json.loads(whole.read("schema/job-v1.schema.json"))


if __name__ == "__main__":
    unittest.main()
