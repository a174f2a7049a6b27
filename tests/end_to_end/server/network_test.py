#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""The local server in networks made for it: who reaches it from outside, and that it reaches out to nobody."""
import hashlib
import http.client
import os
import pathlib
import subprocess
import tempfile
import time
import unittest

from hostile_test import png
from local_server import PROGRAM, ROOT, LocalServer
from networks import Network, joined

JOB = ROOT / "examples/ostrey-garden.json"


def get(address, port, path, fields=None):
    link = http.client.HTTPConnection(address, port, timeout=10)
    try:
        link.request("GET", path, headers=fields or {})
        return link.getresponse().status
    finally:
        link.close()


def may_make_networks():
    return os.geteuid() == 0 and subprocess.run(["unshare", "-n", "ip", "link", "set", "lo", "up"],
                                                capture_output=True, check=False).returncode == 0


@unittest.skipUnless(may_make_networks(), "only root may make a network, and not in every container")
class Networks(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def network(self):
        network = Network()
        self.addCleanup(network.stop)
        return network

    def test_another_computer_reaches_it_only_while_the_door_is_open(self):
        here, there = self.network(), self.network()
        joined(here, there)
        shut = LocalServer(self.folder / "shut", within=here.within)
        self.addCleanup(shut.stop)
        self.assertEqual(here.call(lambda: get("127.0.0.1", shut.port, "/api/pairing")), 401)
        for address in ("10.77.0.1", "127.0.0.1"):
            with self.assertRaises(OSError):
                there.call(lambda: get(address, shut.port, "/"))
        with self.assertRaises(OSError):
            here.call(lambda: get("10.77.0.1", shut.port, "/"))
        listening = [line.split()[3] for line in here.run("ss", "-H", "-l", "-t", "-n").splitlines()]
        self.assertEqual(sorted(listening), sorted([f"127.0.0.1:{shut.port}", f"[::1]:{shut.port}"]))

        opened = LocalServer(self.folder / "open", "--lan", "--lan-minutes", "0.1", within=here.within)
        self.addCleanup(opened.stop)
        opened.next_line("THE LOCAL NETWORK IS OPEN")
        opened.next_line(rf"A phone opens  http://10\.77\.0\.1:{opened.port}/")
        self.assertEqual(there.call(lambda: get("10.77.0.1", opened.port, "/api/pairing")), 200)
        self.assertEqual(there.call(lambda: get("10.77.0.1", opened.port, "/api/jobs")), 401)
        listening = sorted(line.split()[3] for line in here.run("ss", "-H", "-l", "-t", "-n").splitlines())
        self.assertEqual(listening, sorted([f"127.0.0.1:{shut.port}", f"[::1]:{shut.port}", f"127.0.0.1:{opened.port}",
                                            f"[::1]:{opened.port}", f"10.77.0.1:{opened.port}"]), "never 0.0.0.0 or [::]")
        opened.next_line("THE LOCAL NETWORK IS SHUT: no paired phone asked for anything in 0.1 minutes")
        time.sleep(0.3)
        with self.assertRaises(OSError):
            there.call(lambda: get("10.77.0.1", opened.port, "/api/pairing"))
        self.assertEqual(here.call(lambda: get("127.0.0.1", opened.port, "/api/jobs",
                                               {"Authorization": f"Bearer {opened.token}"})), 200, "the desk goes on")

    def test_nothing_leaves_the_machine(self):
        """Jobs, pictures, papers and the commands in a network that leads nowhere: all work, and no packet was even
        tried."""
        alone = self.network()
        server = LocalServer(self.folder / "w", "--add", str(JOB), within=alone.within)
        self.addCleanup(server.stop)

        def work():
            document = server.ask("GET", "/api/jobs/ostrey-garden")[2]["document"]
            self.assertEqual(server.ask("PUT", "/api/jobs/ostrey-garden", {
                "base_revision": 1, "save_id": "s", "document": document})[0], 200)
            data = png(40, 30)
            self.assertEqual(server.ask("POST", "/api/images/" + hashlib.sha256(data).hexdigest(), data)[0], 201)
            begun = server.ask("POST", "/api/papers", {"document": document, "wish": {"only": ["owner"]}})[2]
            deadline = time.monotonic() + 120
            while (standing := server.ask("GET", f"/api/papers/{begun['id']}")[2])["state"] == "working":
                self.assertLess(time.monotonic(), deadline)
                time.sleep(0.2)
            return standing

        standing = alone.call(work)
        self.assertEqual(standing["state"], "done", standing["message"])
        for command in (["check", JOB, "--json"], ["times", JOB], ["route", JOB], ["price", JOB]):
            ended = subprocess.run([*alone.within, PROGRAM, *map(str, command)], capture_output=True, timeout=120)
            self.assertIn(ended.returncode, (0, 1), ended.stderr)
        self.assertEqual(alone.unroutable(), 0)
        with self.assertRaises(OSError):  # the counter counts: 192.0.2.1 is nobody's (RFC 5737), and no wire leads there
            alone.call(lambda: get("192.0.2.1", 80, "/"))
        self.assertGreater(alone.unroutable(), 0)


if __name__ == "__main__":
    unittest.main()
