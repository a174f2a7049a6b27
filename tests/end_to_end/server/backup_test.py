#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Backups by the command while a server has the workspace open and clients write, and a page that worked on after the
backup that was put back."""
import os
import pathlib
import re
import subprocess
import tempfile
import threading
import time
import unittest

from local_server import PROGRAM, LocalServer, job

BACKUPS = int(os.environ.get("BACKUPS", "3"))
# Of the workspace whose saves are timed while it is copied: 200 for the figure of docs/validation.md.
BACKUP_MB = int(os.environ.get("BACKUP_MB", "4"))


def run(*arguments):
    return subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, text=True, timeout=120)


class Backups(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def serve(self, workspace):
        server = LocalServer(workspace)
        self.addCleanup(server.stop)
        return server

    def test_a_backup_under_writes_is_whole_and_misses_nothing_that_was_answered(self):
        server = self.serve(self.folder / "w")
        names = ("one", "two")
        for name in names:
            self.assertEqual(server.ask("POST", "/api/jobs", {"save_id": "s", "document": job(name)})[0], 201)
        answered, refused, enough = dict.fromkeys(names, 1), [], threading.Event()

        def write(name):
            while not enough.is_set() and not refused:
                status, _, answer = server.ask("PUT", f"/api/jobs/{name}", {
                    "save_id": f"s-{answered[name]}", "base_revision": answered[name],
                    "document": job(name, filler="x" * 3000)})
                if status != 200:
                    return refused.append(answer)
                answered[name] += 1

        writers = [threading.Thread(target=write, args=(name,)) for name in names]
        for writer in writers:
            writer.start()
        try:
            deadline = time.monotonic() + 20
            while min(answered.values()) < 3 and time.monotonic() < deadline:
                time.sleep(0.01)
            for number in range(BACKUPS):
                backup, again = self.folder / f"b{number}", self.folder / f"r{number}"
                least = sum(answered.values())
                made = run("backup", self.folder / "w", "--output", backup)
                most = sum(answered.values()) + len(names)  # stored, and not answered yet
                self.assertEqual((made.returncode, made.stderr), (0, ""))
                self.assertEqual(backup.stat().st_mode & 0o777, 0o600)
                # Opened, each document and picture against its hash, each link of the chain.
                restored = run("restore", backup, "--output", again)
                self.assertEqual((restored.returncode, restored.stderr), (0, ""))
                fingerprint = re.compile(r"Fingerprint ([0-9a-f]{64})")
                self.assertEqual(fingerprint.search(made.stdout)[1], fingerprint.search(restored.stdout)[1])
                revisions = int(re.search(r"(\d+) revisions", made.stdout)[1])
                self.assertGreaterEqual(revisions, least)
                self.assertLessEqual(revisions, most)
        finally:
            enough.set()
            for writer in writers:
                writer.join()
        self.assertEqual(refused, [])
        self.assertGreater(min(answered.values()), 3, "they wrote all the while")
        self.assertEqual(server.stop(), 0)
        self.assertEqual([path.name for path in self.folder.glob("w*")], ["w"], "no socket, no log is left")
        self.assertEqual(run("backup", self.folder / "w", "--output", self.folder / "after").returncode, 0)

    def test_saves_wait_for_a_backup_no_longer_than_it_is_copied(self):
        server = self.serve(self.folder / "w")
        ask = server.ask
        ask("POST", "/api/jobs", {"save_id": "1", "document": job("large")})
        for revision in range(1, BACKUP_MB + 1):
            self.assertEqual(ask("PUT", "/api/jobs/large", {
                "save_id": f"s-{revision}", "base_revision": revision,
                "document": job("large", filler="x" * 1_000_000)})[0], 200)
        ask("POST", "/api/jobs", {"save_id": "1", "document": job("garden")})

        def longest_wait(goes_on):
            longest_s = 0
            while goes_on():
                begin = time.monotonic()
                self.revision += 1
                self.assertEqual(ask("PUT", "/api/jobs/garden", {
                    "save_id": str(self.revision), "base_revision": self.revision - 1, "document": job("garden")})[0], 200)
                longest_s = max(longest_s, time.monotonic() - begin)
            return longest_s

        self.revision = 1
        alone_s = longest_wait(lambda: self.revision < 50)
        backup = subprocess.Popen([PROGRAM, "backup", self.folder / "w", "--output", self.folder / "b"],
                                  stdout=subprocess.DEVNULL)
        begin = time.monotonic()
        beside_s = longest_wait(lambda: backup.poll() is None)
        whole_s = time.monotonic() - begin
        self.assertEqual(backup.returncode, 0)
        print(f"{(self.folder / 'b').stat().st_size / 1e6:.0f} MB, copied and checked in {1000 * whole_s:.0f} ms: the "
              f"longest wait of a save {1000 * beside_s:.0f} ms, without a backup {1000 * alone_s:.0f} ms")
        self.assertLess(beside_s, 2 + whole_s)

    def test_a_killed_server_is_no_hindrance(self):
        self.serve(self.folder / "w").kill()
        self.assertTrue((self.folder / "w-backup-door").is_socket())
        self.assertEqual(run("backup", self.folder / "w", "--output", self.folder / "b").returncode, 0)
        self.serve(self.folder / "w")
        self.assertEqual(run("backup", self.folder / "w", "--output", self.folder / "c").returncode, 0)

    def test_the_door_is_no_way_in_for_another_person(self):
        self.serve(self.folder / "w")
        if os.geteuid() != 0:
            self.skipTest("only root can be another person")
        self.folder.chmod(0o777)
        ask = ("import socket, sys; link = socket.socket(socket.AF_UNIX); link.connect(sys.argv[1]); "
               "link.sendall(sys.argv[2].encode()); link.shutdown(1); print(link.recv(100).decode())")
        line = ["/usr/bin/python3", "-c", ask, self.folder / "w-backup-door", self.folder / "stolen"]
        other = subprocess.run(line, user=65534, capture_output=True, text=True, timeout=20)
        self.assertIn("PermissionError", other.stderr)
        # Where the file system knows no permissions, the server itself asks who it is.
        (self.folder / "w-backup-door").chmod(0o777)
        other = subprocess.run(line, user=65534, capture_output=True, text=True, timeout=20)
        self.assertNotIn("done", other.stdout)
        self.assertFalse((self.folder / "stolen").exists())
        self.assertIn("done", subprocess.run(line, capture_output=True, text=True, timeout=20).stdout)

    def test_a_page_from_before_a_restore_overwrites_nothing(self):
        server = self.serve(self.folder / "w")
        server.ask("POST", "/api/jobs", {"save_id": "1", "document": job("garden", "Of the backup")})
        self.assertEqual(run("backup", self.folder / "w", "--output", self.folder / "b").returncode, 0)
        lost = server.ask("PUT", "/api/jobs/garden", {
            "save_id": "2", "base_revision": 1, "document": job("garden", "Lost with the disk")})[2]
        server.stop()
        self.assertEqual(run("restore", self.folder / "b", "--output", self.folder / "again").returncode, 0)
        again = self.serve(self.folder / "again")
        ask = again.ask
        ask("PUT", "/api/jobs/garden", {
            "save_id": "3", "base_revision": 1, "document": job("garden", "After the restore")})
        status, _, answer = ask("PUT", "/api/jobs/garden", {
            "save_id": "4", "base_revision": lost["revision"], "base_checksum": lost["checksum"],
            "document": job("garden", "The old page")})
        self.assertEqual(status, 409, answer)
        self.assertIn("a backup was put back", answer["error"]["message"])
        self.assertEqual(ask("GET", "/api/jobs/garden")[2]["document"]["title"], "After the restore")


if __name__ == "__main__":
    unittest.main()
