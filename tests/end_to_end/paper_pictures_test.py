# SPDX-License-Identifier: Apache-2.0
"""The papers of the demo as pictures, page by page, held against kept ones: a sheet of small pages for each paper.

Where one is apart the test writes what was made and the difference to build/pictures/papers/, for the eye. After a wanted
change, and a look at those: DUSKWIRE_KEEP=1 python3 tests/end_to_end/paper_pictures_test.py keeps what comes out now.

What is compared is the mean grey of squares of some millimetres, so that another version of a font, which moves a letter
by a hair, is no difference, and a line that is gone, a label elsewhere or a picture that is dark is one."""
import os
import subprocess
import tempfile
import unittest
from pathlib import Path

from grey_pictures import Grey, cells_apart, read_pgm, read_png, write_difference, write_png

PROJECT = Path(__file__).resolve().parents[2]
PROGRAM = PROJECT / "build" / "release" / "duskwire"
KEPT = Path(__file__).resolve().parent / "paper_pictures"
SEEN = PROJECT / "build" / "pictures" / "papers"
PAPERS = ("proposal", "crew", "commissioning", "owner")
DOTS_PER_INCH = 18
PAGES_BESIDE = 6
CELL = 4  # elements: 5.6 mm on paper
TOLERANCE = 26  # of 255, in the mean over a square
MOST_APART = 3  # squares of a sheet


def sheet_of(pages: list[Grey]) -> Grey:
    """All pages in rows, each at a place that is a whole number of squares."""
    def whole(length: int) -> int:
        return (length // CELL + 2) * CELL
    width, height = whole(max(page.width for page in pages)), whole(max(page.height for page in pages))
    sheet = Grey.blank(width * min(PAGES_BESIDE, len(pages)), height * ((len(pages) - 1) // PAGES_BESIDE + 1))
    for i, page in enumerate(pages):
        sheet.paste(page, i % PAGES_BESIDE * width, i // PAGES_BESIDE * height)
    return sheet


def drawn(folder: Path, paper: str) -> Grey:
    subprocess.run(["pdftoppm", "-gray", "-r", str(DOTS_PER_INCH), folder / f"{paper}.pdf", folder / paper], check=True)
    return sheet_of([read_pgm(page) for page in sorted(folder.glob(f"{paper}-*.pgm"))])


class PaperPictures(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        made = subprocess.run(
            [PROGRAM, "papers", "examples/ostrey-garden-sound.json", "--date", "2026-11-26", "--shop", "Example Lights",
             "--only", ",".join(PAPERS), "--output", cls.folder.name],
            cwd=PROJECT, capture_output=True, text=True, check=False)
        if made.returncode != 0:
            raise AssertionError(made.stderr)

    @classmethod
    def tearDownClass(cls):
        cls.folder.cleanup()

    def test_pages_look_as_they_were_kept(self):
        for paper in PAPERS:
            with self.subTest(paper):
                made, kept_at = drawn(Path(self.folder.name), paper), KEPT / f"{paper}.png"
                if os.environ.get("DUSKWIRE_KEEP"):
                    KEPT.mkdir(exist_ok=True)
                    write_png(kept_at, made)
                kept = read_png(kept_at)
                same_size = (kept.width, kept.height) == (made.width, made.height)
                apart = cells_apart(kept, made, CELL, TOLERANCE) if same_size else []
                if same_size and len(apart) <= MOST_APART:
                    continue
                SEEN.mkdir(parents=True, exist_ok=True)
                write_png(SEEN / f"{paper}-made.png", made)
                write_difference(SEEN / f"{paper}-difference.png", kept, made, apart, CELL)
                what = f"{len(apart)} squares look otherwise" if same_size else "has other pages"
                self.fail(f"{paper}: {what}. Look at {SEEN.relative_to(PROJECT)}/{paper}-difference.png; the head of this "
                          "file says how a wanted change is kept.")

    def test_what_is_lost_is_seen_and_a_moved_hair_is_not(self):
        kept = read_png(KEPT / "owner.png")
        same = [bytearray(row) for row in kept.rows]
        self.assertEqual(cells_apart(kept, Grey(kept.width, kept.height, same), CELL, TOLERANCE), [])
        hair = [bytearray(max(0, value - 12) for value in row) for row in kept.rows]
        self.assertEqual(cells_apart(kept, Grey(kept.width, kept.height, hair), CELL, TOLERANCE), [])
        # Two millimetres of the first page that has ink, wiped out: a line of text.
        inked = next(y for y, row in enumerate(kept.rows) if sum(255 - value for value in row[:100]) > 1500)
        lost = [bytearray(b"\xff" * kept.width) if inked <= y < inked + 2 else row for y, row in enumerate(same)]
        self.assertGreater(len(cells_apart(kept, Grey(kept.width, kept.height, lost), CELL, TOLERANCE)), MOST_APART)


if __name__ == "__main__":
    unittest.main()
