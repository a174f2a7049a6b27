#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""kill -9 of the server at 300 random moments under a writing client: nothing that was answered is lost, at most one
save beyond it is there, no revision is missing, and the file passes SQLite's own integrity check each time."""
import http.client
import os
import pathlib
import random
import shutil
import sqlite3
import sys
import tempfile
import threading
import time
import unittest

from local_server import LocalServer, job

KILLS = int(os.environ.get("KILLS", "300"))
# Then a new file: each kill is judged by reading all of it, which grows with what the kills before left.
KILLS_OF_ONE_FILE = 100


class Writer(threading.Thread):
    """Saves one revision after the other until the server is gone; remembers the last that was answered."""

    def __init__(self, server, revision, padding):
        super().__init__()
        self.server, self.answered, self.padding = server, revision, padding
        self.refused = None

    def run(self):
        try:
            while True:
                status, _, answer = self.server.ask("PUT", "/api/jobs/garden", {
                    "save_id": f"after-{self.answered}", "base_revision": self.answered,
                    "document": job("garden", n=self.answered + 1, padding=self.padding)})
                if status != 200:
                    self.refused = answer
                    return
                self.answered = answer["revision"]
        except (OSError, http.client.HTTPException):
            return


class Kills(unittest.TestCase):
    def test_nothing_answered_is_lost(self):
        dice = random.Random(20260301)
        for start in range(0, KILLS, KILLS_OF_ONE_FILE):
            numbers = range(start, min(KILLS, start + KILLS_OF_ONE_FILE))
            self.kill_many(dice, numbers)
            print(f"{numbers.stop} of {KILLS} kills", file=sys.stderr, flush=True)

    def kill_many(self, dice, numbers):
        with tempfile.TemporaryDirectory() as folder:
            workspace = pathlib.Path(folder) / "w"
            server = LocalServer(workspace)
            self.assertEqual(server.ask("POST", "/api/jobs", {"save_id": "made", "document": job("garden", n=1)})[0], 201)
            server.stop()
            revision = 1
            for number in numbers:
                server = LocalServer(workspace)
                writer = Writer(server, revision, "x" * dice.choice([10, 5000, 60000]))
                writer.start()
                time.sleep(dice.uniform(0.002, 0.06))
                server.kill()
                writer.join()
                self.assertIsNone(writer.refused, f"kill {number}")
                revision = self.judge(workspace, writer.answered, number)
            self.assertGreater(revision, len(numbers) // 4, "the writer must have written")

    def judge(self, workspace, answered, number):
        """On a copy, as a program that crashed left it."""
        copy = workspace.with_name("copy")
        for ending in ("", "-wal"):
            source = workspace.with_name(workspace.name + ending)
            target = copy.with_name(copy.name + ending)
            target.unlink(missing_ok=True)
            if source.exists():
                shutil.copyfile(source, target)
        database = sqlite3.connect(copy)
        try:
            self.assertEqual(database.execute("PRAGMA integrity_check").fetchall(), [("ok",)], f"kill {number}")
            self.assertEqual(database.execute("PRAGMA foreign_key_check").fetchall(), [], f"kill {number}")
            count, last = database.execute("SELECT count(*), max(revision) FROM revisions").fetchone()
            document = database.execute("SELECT document FROM revisions ORDER BY revision DESC").fetchone()[0]
        finally:
            database.close()
        self.assertEqual(count, last, f"kill {number}: no gap")
        self.assertGreaterEqual(last, answered, f"kill {number}: an answered save is lost")
        self.assertLessEqual(last, answered + 1, f"kill {number}")
        self.assertIn(f'"n":{last}', document)
        return last


if __name__ == "__main__":
    unittest.main()
