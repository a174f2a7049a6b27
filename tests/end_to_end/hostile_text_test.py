# SPDX-License-Identifier: Apache-2.0
"""Text stays text in every file that is made of a job that means harm (hostile_job.py): papers, CSV, workbook, DXF, SVG,
calendar, archive."""
import csv
import io
import json
import re
import subprocess
import tempfile
import unittest
import xml.etree.ElementTree as ElementTree
import zipfile
from pathlib import Path

from hostile_job import free_texts, hostile_job

PROJECT = Path(__file__).resolve().parents[2]
PROGRAM = PROJECT / "build" / "release" / "duskwire"
NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?")
DATE = ["--date", "2026-11-26"]


class HostileText(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = Path(cls.enterClassContext(tempfile.TemporaryDirectory()))
        cls.job, cls.filled = hostile_job()
        (cls.folder / "job.json").write_text(json.dumps(cls.job), encoding="utf-8")
        for name, *words in (("papers", "papers", "job.json", "--output", "papers", "--shop", "=cmd()<script>", *DATE),
                             ("levels", "levels", "job.json", "--plan", "night.svg", "--full"),
                             ("times", "times", "job.json", "--calendar", "care.ics", "--year", "2026"),
                             ("export", "export", "job.json", "--output", "job.zip", "--no-papers", *DATE)):
            ended = subprocess.run([PROGRAM, *words], cwd=cls.folder, capture_output=True, text=True, check=False)
            assert ended.returncode in (0, 1), f"{name}: {ended.stderr}"

    def made(self, ending: str) -> list[Path]:
        found = sorted(self.folder.rglob(f"*.{ending}"))
        self.assertTrue(found, ending)
        return found

    def test_the_job_fills_every_free_text_of_the_schema(self):
        self.assertEqual(self.filled, free_texts())
        self.assertGreater(len(self.filled), 40)

    def test_no_cell_of_a_csv_starts_a_formula(self):
        texts = {path.name: path.read_bytes() for path in self.made("csv")}
        with zipfile.ZipFile(self.folder / "job.zip") as archive:
            texts |= {name: archive.read(name) for name in archive.namelist() if name.endswith(".csv")}
        self.assertGreaterEqual(len(texts), 15)
        for name, text in texts.items():
            rows = list(csv.reader(io.StringIO(text.decode(), newline="")))
            for row in rows:
                self.assertEqual(len(row), len(rows[0]), name)
                for cell in row:
                    self.assertTrue(cell[:1] not in tuple("=+-@\t\r\n") or NUMBER.fullmatch(cell), f"{name}: {cell!r}")

    def test_the_workbook_holds_no_formula(self):
        for path in self.made("xlsx"):
            with zipfile.ZipFile(path) as book:
                names = book.namelist()
                self.assertFalse([name for name in names if "vba" in name or "externalLink" in name], names)
                sheets = [name for name in names if name.startswith("xl/worksheets/")]
                self.assertGreater(len(sheets), 5)
                for name in names:
                    tags = {element.tag.split("}")[-1] for element in ElementTree.fromstring(book.read(name)).iter()}
                    self.assertFalse(tags & {"f", "hyperlink", "ddeLink", "oleObject"}, name)

    def test_the_drawing_keeps_its_pairs_and_sections(self):
        for path in self.made("dxf"):
            lines = path.read_text(encoding="utf-8").split("\n")
            pairs = [(int(code), value) for code, value in zip(lines[0:-1:2], lines[1::2])]
            opened = [value for code, value in pairs if code == 0 and value.strip() in ("SECTION", "ENDSEC", "EOF")]
            self.assertEqual([value.strip() for value in opened], ["SECTION", "ENDSEC"] * (len(opened) // 2) + ["EOF"])
            self.assertIn("ENTITIES", [value.strip() for code, value in pairs if code == 2])

    def test_a_picture_of_lines_runs_nothing(self):
        for path in self.made("svg"):
            for element in ElementTree.parse(path).iter():
                self.assertNotIn(element.tag.split("}")[-1], ("script", "foreignObject", "iframe", "a"), path.name)
                for name, value in element.attrib.items():
                    self.assertFalse(name.split("}")[-1].lower().startswith("on"), path.name)
                    self.assertNotIn("javascript:", value, path.name)

    def test_the_calendar_has_the_events_that_the_program_wrote(self):
        for path in self.made("ics"):
            raw = path.read_bytes()
            self.assertFalse([line for line in raw.split(b"\r\n") if len(line) > 75 or b"\n" in line or b"\r" in line], path.name)
            lines = raw.decode().replace("\r\n ", "").split("\r\n")
            depth = []
            for line in filter(None, lines):
                name = re.match(r"[A-Z0-9-]+(?=[:;])", line)
                self.assertIsNotNone(name, line)
                if name[0] == "BEGIN":
                    depth.append(line[6:])
                elif name[0] == "END":
                    self.assertEqual(depth.pop(), line[4:])
                if depth.count("VEVENT") > 1:
                    self.fail(f"{path.name}: an event inside an event")
            self.assertEqual(depth, [])
            events = sum(line == "BEGIN:VEVENT" for line in lines)
            self.assertEqual(events, sum(line.startswith("UID:") for line in lines))

    def test_papers_hold_the_text_and_no_action(self):
        for path in self.made("pdf"):
            plain = subprocess.run(["qpdf", "--qdf", "--object-streams=disable", path, "-"], capture_output=True, check=True).stdout
            for action in (b"/JavaScript", b"/JS ", b"/OpenAction", b"/AA ", b"/Launch", b"/URI", b"/SubmitForm", b"/EmbeddedFile"):
                self.assertNotIn(action, plain, path.name)
            text = subprocess.run(["pdftotext", path, "-"], capture_output=True, text=True, check=True).stdout
            self.assertIn("<script>", text.replace("\n", ""), path.name)

    def test_the_archive_comes_back_byte_for_byte(self):
        back = subprocess.run([PROGRAM, "import", "job.zip", "--output", "back"], cwd=self.folder, capture_output=True, text=True, check=False)
        self.assertEqual(back.returncode, 0, back.stderr)
        self.assertEqual((self.folder / "back" / "job.json").read_bytes(), (self.folder / "job.json").read_bytes())


if __name__ == "__main__":
    unittest.main()
