#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""The local server on a real socket: what only bytes and time can show. Its rules on single requests are tested without
a socket in tests/server."""
import pathlib
import socket
import statistics
import subprocess
import tempfile
import threading
import time
import unittest

from local_server import PROGRAM, ROOT, LocalServer, job, read_answer


class Rules(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.workspace = pathlib.Path(cls.folder.name) / "gardens.duskwire"
        page = pathlib.Path(cls.folder.name) / "page"
        (page / "assets").mkdir(parents=True)
        (page / "index.html").write_text("<!doctype html><title>page</title>")
        (page / "assets/a-1.js").write_text("1")
        (page / "assets/a-1.wasm").write_bytes(b"\0asm")
        (page / "secret.key").write_text("not for the page")
        (page / "link.html").symlink_to("/etc/hostname")
        cls.server = LocalServer(cls.workspace, "--page", str(page))

    @classmethod
    def tearDownClass(cls):
        cls.server.stop()
        cls.folder.cleanup()

    def status_of(self, data):
        answer = self.server.raw(data)
        return int(answer.split(b" ", 2)[1]) if answer.startswith(b"HTTP/1.1 ") else 0

    def test_only_this_computer_reaches_it(self):
        def listening(table):
            rows = [line.split() for line in pathlib.Path("/proc/net", table).read_text().splitlines()[1:]]
            return [row[1].split(":")[0] for row in rows if row[3] == "0A" and row[1].endswith(f":{self.server.port:04X}")]

        self.assertEqual(listening("tcp"), ["0100007F"])
        if "0" * 31 + "1" not in pathlib.Path("/proc/net/if_inet6").read_text():
            self.skipTest("this computer has no ::1: at 127.0.0.1 it is as it should be")
        self.assertEqual(listening("tcp6"), ["0" * 24 + "01000000"], "::1, and nothing wider")
        address = f"[::1]:{self.server.port}"
        with socket.create_connection(("::1", self.server.port), 20) as link:
            link.sendall(self.server.head().replace(f"127.0.0.1:{self.server.port}".encode(), address.encode()) + b"\r\n")
            self.assertTrue(read_answer(link).startswith(b"HTTP/1.1 200 "), "the same workspace by its own name")

    def test_the_token_is_in_no_argument_and_no_variable(self):
        process = pathlib.Path(f"/proc/{self.server.process.pid}")
        for name in ("cmdline", "environ"):
            self.assertNotIn(self.server.token.encode(), (process / name).read_bytes())
        self.assertGreaterEqual(len(self.server.token), 22, "128 bits are 22 characters of six bits")

    def test_each_start_has_a_token_of_its_own(self):
        second = LocalServer(pathlib.Path(self.folder.name) / "second")
        self.addCleanup(second.stop)
        self.assertNotEqual(second.token, self.server.token)
        self.assertEqual(second.ask("GET", "/api/jobs", fields={"Authorization": f"Bearer {self.server.token}"})[0], 401)

    def test_a_workspace_in_use_is_refused_to_a_second_server(self):
        second = subprocess.run([PROGRAM, "serve", "--port", "0", "--workspace", self.workspace], capture_output=True,
                                text=True, timeout=20)
        self.assertEqual(second.returncode, 2)
        self.assertIn("in use by another duskwire", second.stderr)

    def test_a_port_in_use_is_named(self):
        second = subprocess.run([PROGRAM, "serve", "--port", str(self.server.port), "--workspace",
                                 pathlib.Path(self.folder.name) / "third"], capture_output=True, text=True, timeout=20)
        self.assertEqual(second.returncode, 2)
        self.assertIn(f"Port {self.server.port} is in use", second.stderr)

    def test_requests_that_two_readers_could_read_differently_are_refused(self):
        start = self.server.head("POST", "/api/jobs", "Content-Type: application/json\r\n")
        for name, rest in {
            "two lengths": b"Content-Length: 2\r\nContent-Length: 5\r\n\r\n{}",
            "length with a sign": b"Content-Length: +2\r\n\r\n{}",
            "negative length": b"Content-Length: -2\r\n\r\n{}",
            "hexadecimal length": b"Content-Length: 0x2\r\n\r\n{}",
            "length and chunks": b"Content-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
            "chunks": b"Transfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n",
            "bare line feeds": b"Content-Length: 2\n\n{}",
            "blank before the colon": b"Content-Length : 2\r\n\r\n{}",
        }.items():
            with self.subTest(name):
                self.assertIn(self.status_of(start + rest), (400, 411, 415))
        self.assertEqual(self.server.ask("GET", "/api/jobs")[2]["jobs"], [])

    def test_a_head_that_is_too_long_is_refused(self):
        self.assertEqual(self.status_of(self.server.head(more="X-Long: " + "a" * 20000 + "\r\n") + b"\r\n"), 431)
        self.assertEqual(self.status_of(self.server.head(more="X: y\r\n" * 100) + b"\r\n"), 431)
        self.assertEqual(self.status_of(self.server.head(path="/" + "a" * 3000) + b"\r\n"), 414)

    def test_noise_is_answered_plainly(self):
        answer = self.server.raw(b"\x16\x03\x01 not http\r\n\r\n")
        self.assertTrue(answer.startswith(b"HTTP/1.1 400 "), answer[:80])
        self.assertIn(b"Content-Security-Policy: default-src 'none'", answer)

    def test_a_body_over_the_limit_is_refused_before_it_is_sent(self):
        head = self.server.head("POST", "/api/jobs", "Content-Type: application/json\r\nContent-Length: 17000000\r\n\r\n")
        with self.server.open_socket() as link:
            link.sendall(head + b"{")
            link.settimeout(5)
            self.assertTrue(link.recv(100).startswith(b"HTTP/1.1 413 "))

    def test_a_client_that_asks_first_is_told_to_go_on(self):
        body = b'{"archived": true}'
        head = self.server.head("POST", "/api/jobs/none/archive", "Content-Type: application/json\r\n"
                                f"Content-Length: {len(body)}\r\nExpect: 100-continue\r\n\r\n")
        with self.server.open_socket() as link:
            link.sendall(head)
            link.settimeout(5)
            self.assertTrue(link.recv(100).startswith(b"HTTP/1.1 100 "))
            link.sendall(body)
            self.assertIn(b"HTTP/1.1 404 ", read_answer(link))

    def test_one_connection_serves_many_requests(self):
        with self.server.open_socket() as link:
            link.sendall((self.server.head() + b"\r\n") * 3)
            self.assertEqual(read_answer(link).count(b"HTTP/1.1 200 OK"), 3)

    def test_the_page_is_served_by_name_and_nothing_else_is(self):
        status, fields, body = self.server.ask("GET", "/")
        self.assertEqual((status, body), (200, b"<!doctype html><title>page</title>"))
        self.assertEqual(fields["Cache-Control"], "no-cache")
        status, fields, _ = self.server.ask("GET", "/assets/a-1.wasm")
        self.assertEqual((status, fields["Content-Type"]), (200, "application/wasm"))
        self.assertIn("immutable", fields["Cache-Control"])
        status, fields, body = self.server.ask("HEAD", "/assets/a-1.js")
        self.assertEqual((status, fields["Content-Length"], body), (200, "1", b""))
        for path in ("/secret.key", "/link.html", "/assets/", "/assets/../index.html", "/../gardens.duskwire", "/%2e%2e/x"):
            self.assertEqual(self.server.ask("GET", path)[0], 404, path)

    def test_slow_clients_take_nobody_elses_time(self):
        """64 clients that send a byte of their head now and then, and 64 that do so with a body; half of each from our
        own address, half from an address of its own each."""
        stop = threading.Event()
        slow = [socket.create_connection(("127.0.0.1", self.server.port), 20,
                                         ("127.0.0.1" if number < 64 else f"127.0.1.{number}", 0)) for number in range(128)]
        for number, link in enumerate(slow):
            head = self.server.head() if number % 2 else self.server.head(
                "POST", "/api/jobs", "Content-Type: application/json\r\nContent-Length: 1000\r\n\r\n")
            link.sendall(head)

        def dribble():
            while not stop.wait(0.3):
                for link in slow:
                    try:
                        link.sendall(b"x")
                    except OSError:
                        pass

        dribbler = threading.Thread(target=dribble)
        dribbler.start()
        waits = []
        try:
            for _ in range(100):
                begin = time.monotonic()
                self.assertEqual(self.server.ask("GET", "/api/jobs")[0], 200)
                waits.append(time.monotonic() - begin)
        finally:
            stop.set()
            dribbler.join()
            for link in slow:
                link.close()
        p95 = statistics.quantiles(waits, n=20)[18]
        print(f"128 dribbling clients: an honest one waits {p95 * 1000:.1f} ms at p95")
        self.assertLess(p95, 0.2)

    def test_idle_connections_make_room_for_a_good_one(self):
        idle = [self.server.open_socket() for _ in range(300)]
        try:
            self.assertEqual(self.server.ask("GET", "/api/jobs")[0], 200)
        finally:
            for link in idle:
                link.close()

    def test_a_head_that_never_ends_is_cut_off(self):
        with self.server.open_socket() as link:
            begin = time.monotonic()
            link.sendall(self.server.head())
            link.settimeout(0.2)
            closed = None
            while closed is None and time.monotonic() - begin < 20:
                try:
                    link.sendall(b"X")  # one byte after the other keeps no door open
                    if link.recv(1) == b"":
                        closed = time.monotonic() - begin
                except TimeoutError:
                    continue
                except OSError:
                    closed = time.monotonic() - begin
        self.assertIsNotNone(closed)
        self.assertGreater(closed, 8)
        self.assertLess(closed, 13)

    def test_two_clients_never_overwrite_each_other(self):
        self.assertEqual(self.server.ask("POST", "/api/jobs", {"save_id": "made", "document": job("both", said=[])})[0], 201)
        answered = {"a": [], "b": []}

        def write(name):
            for number in range(40):
                mark = f"{name}{number}"
                while True:
                    current = self.server.ask("GET", "/api/jobs/both")[2]
                    document = current["document"]
                    document["said"] = document["said"] + [mark]
                    status, _, answer = self.server.ask("PUT", "/api/jobs/both", {
                        "save_id": mark, "base_revision": current["revision"], "document": document})
                    if status == 200:
                        answered[name].append(mark)
                        break
                    assert status == 409, answer

        writers = [threading.Thread(target=write, args=(name,)) for name in answered]
        for writer in writers:
            writer.start()
        for writer in writers:
            writer.join()
        said = self.server.ask("GET", "/api/jobs/both")[2]["document"]["said"]
        self.assertEqual(sorted(said), sorted(answered["a"] + answered["b"]))
        self.assertEqual(len(said), 80)


class Ending(unittest.TestCase):
    def test_it_ends_well_when_told_and_keeps_what_was_saved(self):
        with tempfile.TemporaryDirectory() as folder:
            workspace = pathlib.Path(folder) / "w"
            server = LocalServer(workspace, "--add", str(ROOT / "examples/ostrey-garden.json"))
            titles = [row["title"] for row in server.ask("GET", "/api/jobs")[2]["jobs"]]
            self.assertEqual(len(titles), 1)
            changed = server.ask("GET", "/api/jobs/ostrey-garden")[2]
            changed["document"]["title"] = "Changed by hand"
            self.assertEqual(server.ask("PUT", "/api/jobs/ostrey-garden", {
                "save_id": "s", "base_revision": 1, "document": changed["document"]})[0], 200)
            self.assertEqual(server.stop(), 0)
            again = LocalServer(workspace, "--add", str(ROOT / "examples/ostrey-garden.json"))
            rows = again.ask("GET", "/api/jobs")[2]["jobs"]
            self.assertEqual([(row["title"], row["revision"]) for row in rows], [("Changed by hand", 2)])
            self.assertEqual(again.stop(), 0)


if __name__ == "__main__":
    unittest.main()
