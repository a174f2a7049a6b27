#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""The local server against what is sent to harm it: requests that two readers read differently, pictures that are bombs
or two files in one, paths that lead out, JSON that never ends; and what no answer may ever hold."""
import hashlib
import os
import pathlib
import re
import signal
import sqlite3
import struct
import subprocess
import tempfile
import threading
import time
import unittest
import zlib

from local_server import PROGRAM, ROOT, LocalServer, job

STANDING = {
    "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin", "Cross-Origin-Resource-Policy": "same-origin",
}
POLICY = ("default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; style-src 'self'; "
          "font-src 'self'; img-src 'self' blob: data:; connect-src 'self'; manifest-src 'self'; form-action 'none'; "
          "base-uri 'none'; frame-ancestors 'none'")


def png(width, height, rows=None, colour=0):
    """Grey (or, colour 2, coloured) and flat, of any size, without holding it: `rows` may be fewer than promised."""
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    packer = zlib.compressobj(9)
    line = b"\0" + b"\x55" * (width * (3 if colour else 1))
    packed = b"".join(packer.compress(line) for _ in range(height if rows is None else rows)) + packer.flush()
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, colour, 0, 0, 0)) +
            chunk(b"IDAT", packed) + chunk(b"IEND", b""))


def children_of(process):
    """The processes that it has started."""
    found = []
    for entry in pathlib.Path("/proc").glob("[0-9]*/stat"):
        try:
            if int(entry.read_text().rsplit(")", 1)[1].split()[1]) == process:
                found.append(int(entry.parent.name))
        except (OSError, IndexError):
            continue
    return found


def memory_mb(process, key="VmRSS"):
    try:
        status = pathlib.Path(f"/proc/{process}/status").read_text()
    except OSError:
        return 0.0
    found = re.search(rf"{key}:\s+(\d+) kB", status)
    return int(found[1]) / 1024 if found else 0.0


class PeakMemory(threading.Thread):
    """Of the server and all that it starts, looked at every few milliseconds."""

    def __init__(self, process):
        super().__init__()
        self.process, self.most_mb, self.over = process, 0.0, threading.Event()

    def run(self):
        while not self.over.wait(0.004):
            self.most_mb = max(self.most_mb, memory_mb(self.process) +
                               sum(memory_mb(child) for child in children_of(self.process)))

    def __enter__(self):
        self.start()
        return self

    def __exit__(self, *_):
        self.over.set()
        self.join()


class Hostile(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = tempfile.TemporaryDirectory()
        cls.workspace = pathlib.Path(cls.folder.name) / "gardens.duskwire"
        page = pathlib.Path(cls.folder.name) / "page"
        page.mkdir()
        (page / "index.html").write_text("<!doctype html><title>page</title>")
        cls.server = LocalServer(cls.workspace, "--page", str(page), "--add",
                                 str(ROOT / "examples/ostrey-garden.json"))

    @classmethod
    def tearDownClass(cls):
        cls.server.stop()
        cls.folder.cleanup()

    def raw_answer(self, data):
        answer = self.server.raw(data)
        head, _, body = answer.partition(b"\r\n\r\n")
        lines = head.decode().split("\r\n")
        return int(lines[0].split()[1]) if lines[0] else 0, lines[1:], body

    def post_picture(self, data, fields=None, timeout=60):
        path = "/api/images/" + hashlib.sha256(data).hexdigest()
        return self.server.ask("POST", path, data, fields, timeout)

    # ---- requests

    def test_smuggled_requests_are_refused_and_end_the_connection(self):
        inner = b"GET /api/jobs HTTP/1.1\r\nHost: x\r\n\r\n"
        begin = self.server.head("POST", "/api/jobs", "Content-Type: application/json\r\n")
        get = self.server.head()
        for name, data in {
            "two lengths": begin + b"Content-Length: 0\r\nContent-Length: 44\r\n\r\n" + inner,
            "the same length twice": begin + b"Content-Length: 2\r\nContent-Length: 2\r\n\r\n{}",
            "two lengths in one field": begin + b"Content-Length: 2, 2\r\n\r\n{}",
            "length with a sign": begin + b"Content-Length: +5\r\n\r\n{}   ",
            "no length at all in it": begin + b"Content-Length: \r\n\r\n",
            "a blank in the length": begin + b"Content-Length: 1 2\r\n\r\n{}",
            "length beyond 64 bits": begin + b"Content-Length: 18446744073709551618\r\n\r\n{}",
            "negative chunk": begin + b"Transfer-Encoding: chunked\r\n\r\n-2\r\n{}\r\n0\r\n\r\n",
            "chunks under another name": begin + b"Transfer-Encoding: xchunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n",
            "chunks twice": begin + b"Transfer-Encoding: chunked, identity\r\n\r\n0\r\n\r\n",
            "chunks with a length": begin + b"Content-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n" + inner,
            "bare line feeds": get.replace(b"\r\n", b"\n") + b"\n",
            "one bare line feed": get + b"X: y\nContent-Length: 30\r\n\r\n" + inner,
            "a bare carriage return": get + b"X: y\rContent-Length: 30\r\n\r\n" + inner,
            "a folded field": get + b"X: y\r\n Content-Length: 30\r\n\r\n" + inner,
            "a field folded by a tab": get + b"X: y\r\n\tz\r\n\r\n",
            "a folded first field": get.replace(b"\r\nHost", b"\r\n Host") + b"\r\n",
            "a zero byte": get + b"X: y\0z\r\n\r\n",
            "blank before the colon": get + b"X : y\r\n\r\n",
            "no colon": get + b"X y\r\n\r\n",
            "an empty name": get + b": y\r\n\r\n",
        }.items():
            with self.subTest(name):
                answer = self.server.raw(data)
                self.assertIn(int(answer.split(b" ", 2)[1]), (400, 411, 413, 415), answer[:60])
                self.assertEqual(answer.count(b"HTTP/1.1 "), 1, "the second request was read")
                self.assertIn(b"\r\nConnection: close\r\n", answer)

    def test_hosts_that_are_not_ours_are_refused(self):
        port = self.server.port
        for host in ("evil.test", f"evil.test:{port}", "127.0.0.1", "localhost", f"127.0.0.1:{port + 1}", "127.0.0.1:",
                     f"localhost.:{port}", f"127.0.0.1.:{port}", f"0.0.0.0:{port}", f"[::1]:{port + 1}", "[::1]", f"::1:{port}", f"[::]:{port}", f"127.1:{port}",
                     f"2130706433:{port}", f"LOCALHOST.EVIL.TEST:{port}", f"127.0.0.1:{port}, evil.test",
                     f"localhost:{port}@evil.test", ""):
            with self.subTest(host):
                self.assertEqual(self.raw_answer(f"GET / HTTP/1.1\r\nHost: {host}\r\n\r\n".encode())[0], 421)
        self.assertEqual(self.raw_answer(b"GET / HTTP/1.1\r\n\r\n")[0], 421)
        twice = f"GET / HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nHost: 127.0.0.1:{port}\r\n\r\n".encode()
        self.assertIn(self.raw_answer(twice)[0], (400, 421))
        for host in (f"127.0.0.1:{port}", f"LocalHost:{port}"):
            self.assertEqual(self.raw_answer(f"GET / HTTP/1.1\r\nHost: {host}\r\n\r\n".encode())[0], 200)

    def test_a_further_name_is_let_in_where_it_was_allowed(self):
        named = LocalServer(pathlib.Path(self.folder.name) / "named", "--name", "desk.test", "--name", "desk.test:8443")
        self.addCleanup(named.stop)
        for host, status in ((f"desk.test:{named.port}", 200), ("desk.test:8443", 200), ("desk.test", 421),
                             (f"evil.test:{named.port}", 421)):
            self.assertEqual(named.ask("GET", "/api/jobs", fields={"Host": host})[0], status, host)
        refused = subprocess.run([PROGRAM, "serve", "--name", "http://desk.test/"], capture_output=True, text=True,
                                 timeout=20)
        self.assertEqual(refused.returncode, 2)
        self.assertIn("no name of a computer", refused.stderr)

    def test_no_page_of_another_origin_gets_permission_or_an_answer(self):
        """A second program on another port of this computer, as a browser would ask for its page."""
        other = "http://127.0.0.1:9"
        status, fields, _ = self.server.ask("OPTIONS", "/api/jobs", fields={
            "Origin": other, "Access-Control-Request-Method": "PUT", "Access-Control-Request-Headers": "authorization"})
        self.assertEqual(status, 403)
        self.assertEqual([name for name in fields if name.lower().startswith("access-control")], [])
        for fields in ({"Origin": other}, {"Origin": "null"}, {"Sec-Fetch-Site": "same-site"},
                       {"Sec-Fetch-Site": "cross-site"}):
            for method, path, body in (("GET", "/api/jobs", None), ("POST", "/api/jobs", {"save_id": "s"}),
                                       ("GET", "/api/session", None)):
                self.assertEqual(self.server.ask(method, path, body, fields)[0], 403, (method, path, fields))
        form = {"Content-Type": "application/x-www-form-urlencoded"}
        self.assertEqual(self.server.ask("POST", "/api/jobs", "a=b", form)[0], 415)
        self.assertEqual(self.server.ask("POST", "/api/jobs", "{}", {"Content-Type": "text/plain"})[0], 415)
        upgrade = self.server.head(more=f"Origin: {other}\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n"
                                        "Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\n\r\n")
        self.assertEqual(self.raw_answer(upgrade)[0], 403, "there are no sockets to upgrade to")

    # ---- what answers hold, and what they never hold

    def every_kind_of_answer(self):
        head = self.server.head
        port = self.server.port
        doc = "Content-Type: application/json\r\nContent-Length: "
        yield 200, f"GET / HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\n\r\n".encode()
        yield 200, head() + b"\r\n"
        yield 200, head("HEAD") + b"\r\n"
        tag = self.server.ask("GET", "/api/jobs/ostrey-garden")[1]["ETag"]
        yield 304, head(path="/api/jobs/ostrey-garden", more=f"If-None-Match: {tag}\r\n\r\n")
        yield 400, head("POST", "/api/jobs", doc + "1\r\n\r\n{")
        yield 400, b"\x16\x03\x01 not http\r\n\r\n"
        yield 401, f"GET /api/jobs HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\n\r\n".encode()
        yield 403, head(more="Sec-Fetch-Site: cross-site\r\n\r\n")
        yield 404, head(path="/nothing") + b"\r\n"
        yield 404, head(path="/api/nothing") + b"\r\n"
        yield 404, head(path="/api/jobs/none") + b"\r\n"
        yield 405, head("DELETE") + b"\r\n"
        yield 411, head("POST", "/api/jobs", "Content-Type: application/json\r\n\r\n")
        yield 413, head("POST", "/api/jobs", doc + "99999999\r\n\r\n")
        yield 414, head(path="/" + "a" * 3000) + b"\r\n"
        yield 415, head("POST", "/api/jobs", "Content-Type: text/plain\r\nContent-Length: 2\r\n\r\n{}")
        yield 421, b"GET / HTTP/1.1\r\nHost: evil.test\r\n\r\n"
        yield 431, head(more="X: y\r\n" * 100) + b"\r\n"

    def test_every_answer_carries_the_standing_fields_and_no_permission(self):
        for wanted, data in self.every_kind_of_answer():
            with self.subTest(wanted):
                status, lines, _ = self.raw_answer(data)
                self.assertEqual(status, wanted)
                fields = dict(line.split(": ", 1) for line in lines)
                self.assertEqual({name: fields.get(name) for name in STANDING}, STANDING)
                self.assertEqual(fields["Content-Security-Policy"], POLICY)
                self.assertNotIn("access-control", str(lines).lower())
                self.assertNotIn("server", (name.lower() for name in fields), "who we are is nobody's business")

    def test_errors_of_the_disk_tell_no_path_query_or_stack(self):
        """A workspace whose disk refuses, and one that is full: 503 and 507, and a picture that breaks off."""
        telling = re.compile(r"/tmp|/home|/work|/proc|\.duskwire|sqlite|select |insert |update |exception|std::|0x[0-9a-f]{6}|"
                             r"\.cpp|terminate|backtrace|errno", re.IGNORECASE)
        bodies = []
        for _, data in self.every_kind_of_answer():
            status, _, body = self.raw_answer(data)
            if status >= 400:
                bodies.append(body.decode())
        with tempfile.TemporaryDirectory() as folder:
            mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", folder], capture_output=True)
            self.assertEqual(mounted.returncode, 0, mounted.stderr)
            try:
                small = LocalServer(pathlib.Path(folder) / "w")
                status, _, answer = small.ask("POST", "/api/jobs", {
                    "save_id": "s", "document": job("big", padding=hashlib.sha512(b"x").hexdigest() * 16000)})
                self.assertEqual(status, 507, answer)
                bodies.append(str(answer))
                self.assertEqual(small.ask("GET", "/api/jobs")[0], 200, "reading goes on")
                small.stop()
            finally:
                subprocess.run(["umount", folder], check=True)
        for body in bodies:
            self.assertIsNone(telling.search(body), body)
        self.assertGreater(len(bodies), 12)

    def test_reading_changes_nothing(self):
        """Every GET and HEAD of the interface, twice, then the same bytes on the disk."""
        self.server.ask("GET", "/api/jobs")
        # What the program knows of routes, so that a new one cannot be forgotten here.
        routes = re.findall(r'\{"GET", "([^"]+)"', (ROOT / "src/server/routes.cpp").read_text())
        self.assertGreater(len(routes), 10)
        picture = self.post_picture(png(8, 8))[2]["hash"]

        def stored():
            return {path.name: hashlib.sha256(path.read_bytes()).hexdigest()
                    for path in self.workspace.parent.iterdir()
                    if path.name.startswith(self.workspace.name) and path.is_file()}

        before = stored()
        self.assertIn(self.workspace.name, before)
        answered = 0
        for _ in range(2):
            for route in routes:
                path = route.replace("jobs/*/revisions/*", "jobs/ostrey-garden/revisions/1").replace(
                    "jobs/*", "jobs/ostrey-garden").replace("images/*", f"images/{picture}").replace("*", "1")
                for method in ("GET", "HEAD"):
                    answered += self.server.ask(method, "/api/" + path)[0] == 200
                    self.assertIn(self.server.ask(method, f"/api/{path}?archived=true&revision=9&_method=DELETE")[0],
                                  (200, 400, 404))
        self.assertGreater(answered, 20, "the crawl must have met what is there")
        self.assertEqual(stored(), before)

    def test_the_token_is_on_the_screen_of_this_start_alone(self):
        """Not in any process's arguments or variables, not in the workspace, the folder or a later line of output."""
        noisy = LocalServer(pathlib.Path(self.folder.name) / "noisy")
        token = noisy.token.encode()
        noisy.ask("POST", "/api/session", {"token": noisy.token}, {"Sec-Fetch-Site": "same-origin"})
        noisy.ask("POST", "/api/session", {"token": "wrong"})
        noisy.ask("GET", f"/api/jobs?token={noisy.token}")
        noisy.ask("GET", "/nothing", fields={"Referer": f"http://127.0.0.1/{noisy.token}"})
        for entry in pathlib.Path("/proc").glob("[0-9]*"):
            if int(entry.name) == os.getpid():
                continue
            for name in ("cmdline", "environ"):
                try:
                    self.assertNotIn(token, (entry / name).read_bytes(), f"{entry}/{name}")
                except OSError:
                    continue
        for path in pathlib.Path(self.folder.name).rglob("*"):
            if path.is_file():
                self.assertNotIn(token, path.read_bytes(), path)
        noisy.process.send_signal(signal.SIGTERM)
        later, errors = noisy.process.communicate(timeout=20)
        self.assertNotIn(noisy.token, later + errors)

    # ---- pictures

    def test_files_that_are_two_things_at_once_come_out_as_a_picture_alone(self):
        plain = png(24, 16)
        script = b"<script>document.title='taken'</script>"
        text = b"*/=1;" + script
        comment = struct.pack(">I", len(text)) + b"tEXt" + text + struct.pack(">I", zlib.crc32(b"tEXt" + text))
        pdf = b"%PDF-1.7\n1 0 obj<</OpenAction<</S/JavaScript/JS(app.alert(1))>>>>endobj\ntrailer<</Root 1 0 R>>\n%%EOF"
        archive = b"PK\x03\x04" + b"\0" * 26 + b"PK\x05\x06" + b"\0" * 18
        for name, data in {
            "PNG with HTML behind it": plain + script, "PNG with HTML within": plain[:33] + comment + plain[33:],
            "PNG with a PDF behind it": plain + pdf, "PNG with an archive behind it": plain + archive,
        }.items():
            with self.subTest(name):
                status, _, made = self.post_picture(data, {"Content-Type": "text/html"})
                self.assertIn(status, (200, 201), made)
                status, fields, kept = self.server.ask("GET", f"/api/images/{made['hash']}")
                for trace in (b"script", b"PDF", b"PK\x03\x04", b"taken"):
                    self.assertNotIn(trace, kept)
                self.assertEqual(fields["Content-Type"], "image/png")
                self.assertEqual(fields["Content-Disposition"], "attachment")
                self.assertEqual(fields["Content-Security-Policy"], "default-src 'none'; sandbox")
                self.assertEqual(fields["X-Content-Type-Options"], "nosniff")
                self.assertEqual(self.post_picture(kept)[2]["hash"], made["hash"], "what we made comes back as it is")
        for name, data in {
            "SVG with a script": b"<svg xmlns='http://www.w3.org/2000/svg'>" + script + b"</svg>",
            "SVG behind a byte order mark": b"\xef\xbb\xbf<?xml version='1.0'?><svg/>", "HTML called a picture": b"<html>" + script,
            "GIF that is a program": b"GIF89a=1;alert(1);//" + b"\0" * 20, "PDF": pdf, "archive": archive,
            "packed": zlib.compress(b"\0" * 50_000_000), "BMP": b"BM" + b"\0" * 60, "HTML that begins as JPEG": b"\xff\xd8\xff<html>",
            "HTML before a picture": script + plain,
        }.items():
            with self.subTest(name):
                self.assertEqual(self.post_picture(data, {"Content-Type": "image/png"})[0], 400)

    def test_ten_bombs_at_once_cost_little_memory(self):
        bombs = [png(14_000, 14_000 + n % 2, rows=14_000 if n < 1 else 10) for n in range(2)]
        bombs.append(png(7000, 7000, rows=5, colour=2))  # 49 million elements, and broken off
        with PeakMemory(self.server.process.pid) as memory:
            statuses = []
            senders = [threading.Thread(target=lambda data=bombs[n % 3]: statuses.append(self.post_picture(data)[0]))
                       for n in range(10)]
            for sender in senders:
                sender.start()
            for sender in senders:
                sender.join()
        self.assertEqual(sorted(statuses), [400] * 3 + [413] * 7)
        print(f"ten bombs at once: {memory.most_mb:.0f} MB at most")
        self.assertLess(memory.most_mb, 400)
        for size in ((0, 65_535), (65_535, 0), (65_535, 1), (2**31 - 1, 2**31 - 1)):
            self.assertIn(self.post_picture(png(*size, rows=0))[0], (400, 413), size)
        # Ten thousand to one, as gzip: the body is no picture and is never unpacked.
        self.assertEqual(self.server.ask("POST", "/api/images/" + "0" * 64, b"x", {"Content-Encoding": "gzip"})[0], 415)

    def test_the_largest_picture_that_is_taken(self):
        """50 million elements in colour, and others are answered meanwhile."""
        waits, picture, answers = [], png(8000, 6250, colour=2), []
        with PeakMemory(self.server.process.pid) as memory:
            sender = threading.Thread(target=lambda: answers.append(self.post_picture(picture)))
            sender.start()
            while sender.is_alive():
                begin = time.monotonic()
                self.assertEqual(self.server.ask("GET", "/api/jobs")[0], 200)
                waits.append(time.monotonic() - begin)
            sender.join()
        self.assertEqual(answers[0][0], 201, answers[0][2])
        print(f"50 million elements: {memory.most_mb:.0f} MB at most, others waited {max(waits) * 1000:.0f} ms at most")
        self.assertLess(memory.most_mb, 700)
        self.assertLess(sorted(waits)[len(waits) * 95 // 100], 0.5)

    def test_a_decoder_that_dies_takes_nobody_along(self):
        picture = png(7000, 7000, colour=2)
        answers = []
        sender = threading.Thread(target=lambda: answers.append(self.post_picture(picture)))
        sender.start()
        workers, deadline = [], time.monotonic() + 20
        while not workers and time.monotonic() < deadline:
            workers = [child for child in children_of(self.server.process.pid) if memory_mb(child) > 60]
        self.assertEqual(len(workers), 1, "pictures are decoded in a process of their own, one at a time")
        cannot_open = pathlib.Path(f"/proc/{workers[0]}/status").read_text()
        os.kill(workers[0], signal.SIGSEGV)
        sender.join()
        self.assertRegex(cannot_open, r"Seccomp:\s+2", "it may make no other calls of the system")
        self.assertRegex(cannot_open, r"NoNewPrivs:\s+1")
        self.assertEqual(answers[0][0], 400)
        self.assertEqual(answers[0][2]["error"]["code"], "invalid")
        self.assertEqual(self.post_picture(png(30, 20))[0], 201, "the next picture finds another")

    # ---- paths and documents

    def test_paths_lead_nowhere_else(self):
        for path in ("/%2e%2e%2fgardens.duskwire", "/..%2f..%2fetc/passwd", "/..\\..\\etc\\passwd", "/%2e%2e/%2e%2e/etc/passwd",
                     "//etc/passwd", "/./index.html", "/index.html%00.png", "/index.html/", "/api/../index.html",
                     "/api/images/..%2f..%2fgardens.duskwire", "/api/jobs/..", "/api/jobs/%2e%2e", "/api/jobs/a%2fb",
                     "/api/jobs/" + "%c3%a4" * 300, "/api/jobs/" + "a" * 65, "/api/papers/1/files/..%2f..%2fetc%2fpasswd",
                     "/CON", "/nul.html", "/INDEX.HTML", "/index.html::$DATA", "/index.html.", "/index.html%20"):
            with self.subTest(path):
                self.assertEqual(self.server.ask("GET", path)[0], 404)
        self.assertEqual(self.raw_answer(self.server.head(path="/index.html\0.png") + b"\r\n")[0], 400)
        for name in ("../x", "a/b", "..\\x", "a\0b", "ä", "x" * 65, ""):
            status, _, answer = self.server.ask("POST", "/api/jobs", {"save_id": "s", "document": job(name)})
            self.assertEqual(status, 400, answer)

    def test_documents_without_end_are_refused_in_a_moment(self):
        deep = 10**6
        for name, text in {
            "a million lists": '{"save_id":"s","document":' + "[" * deep + "]" * deep + "}",
            "a million objects": '{"save_id":"s","document":' + '{"a":' * deep + "1" + "}" * deep + "}",
            "never closed": "[" * deep, "65 levels": '{"save_id":"s","document":{"format":"duskwire-job","version":1,"id":"d","x":'
            + "[" * 65 + "]" * 65 + "}}",
            "three million numbers": '{"save_id":"s","document":{"x":[' + "1," * 3_000_000 + "1]}}",
            "a hundred thousand keys": '{"save_id":"s","document":{' + ",".join(f'"k{n}":1' for n in range(100_000)) + "}}",
            "a number without end": '{"save_id":"s","document":{"x":' + "9" * 1_000_000 + "}}",
            "broken letters": '{"save_id":"s","document":"\xff"}',
        }.items():
            with self.subTest(name):
                begin = time.monotonic()
                status, _, answer = self.server.ask("POST", "/api/jobs", text.encode("latin-1"),
                                                    {"Content-Type": "application/json"}, 60)
                self.assertEqual(status, 400, answer)
                self.assertLess(time.monotonic() - begin, 5)
        self.assertEqual(len(self.server.ask("GET", "/api/jobs")[2]["jobs"]), 1, "none of them was stored")


    def test_a_workspace_that_holds_programs_is_refused(self):
        for name, change in {
            "trigger": "CREATE TRIGGER theirs AFTER INSERT ON revisions BEGIN UPDATE jobs SET archived = 1; END",
            "view": "CREATE VIEW theirs AS SELECT * FROM jobs",
            "view in place of a table": "ALTER TABLE pictures RENAME TO kept; CREATE VIEW pictures AS SELECT * FROM kept",
            "column that computes": "ALTER TABLE jobs ADD COLUMN theirs TEXT AS (hex(zeroblob(100000000))) VIRTUAL",
        }.items():
            with self.subTest(name):
                file = pathlib.Path(self.folder.name) / f"foreign-{name}"
                LocalServer(file).stop()
                database = sqlite3.connect(file)
                database.executescript(change)
                database.close()
                before = file.read_bytes()
                ended = subprocess.run([PROGRAM, "serve", "--port", "0", "--workspace", file], capture_output=True,
                                       text=True, timeout=20)
                self.assertEqual(ended.returncode, 2)
                self.assertNotIn("Traceback", ended.stderr)
                self.assertEqual(file.read_bytes(), before, "it is left as it is")


class Sources(unittest.TestCase):
    def test_no_single_file_decoder_reads_pictures(self):
        """Rule: Debian's maintained libraries alone, and in the room for pictures alone."""
        included = []
        for path in (ROOT / "src").rglob("*.[ch]pp"):
            included += [(path, line) for line in path.read_text().splitlines() if line.startswith("#include")]
        self.assertGreater(len(included), 1000)
        self.assertEqual([found for found in included if re.search(r"stb[_/]|lodepng|nanosvg|tinyexr", found[1])], [])
        rooms = {path.relative_to(ROOT / "src").parts[0] for path, line in included
                 if re.search(r"turbojpeg\.h|jpeglib\.h|png\.h>|webp/", line)}
        self.assertEqual(rooms, {"pictures"})


if __name__ == "__main__":
    unittest.main()
