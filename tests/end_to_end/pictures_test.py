# SPDX-License-Identifier: Apache-2.0
"""The pictures of README and docs: each that a page shows is there, each that is there is shown, and all of them
together stay small enough for a clone over a slow line."""
import re
import unittest
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]
SHOWN = re.compile(r"!\[([^\]]*)\]\(([^)]+)\)")
LARGEST_SUM_BYTES = 3_000_000


class Pictures(unittest.TestCase):
    def setUp(self):
        self.there = set((PROJECT / "docs" / "pictures").iterdir())
        self.shown = {}
        for page in [PROJECT / "README.md", *(PROJECT / "docs").rglob("*.md")]:
            for words, target in SHOWN.findall(page.read_text(encoding="utf-8")):
                self.shown[(page.parent / target).resolve()] = words

    def test_each_picture_that_is_shown_is_there_and_says_what_it_shows(self):
        self.assertGreater(len(self.shown), 10)
        for path, words in self.shown.items():
            with self.subTest(picture=path.name):
                self.assertTrue(path.exists())
                self.assertGreater(len(words), 20, "words for those who do not see it")

    def test_each_picture_that_is_there_is_shown(self):
        self.assertEqual(sorted(path.name for path in self.there - set(self.shown)), [])

    def test_all_of_them_together_are_small(self):
        self.assertLess(sum(path.stat().st_size for path in self.there), LARGEST_SUM_BYTES)


if __name__ == "__main__":
    unittest.main()
