# SPDX-License-Identifier: Apache-2.0
"""Starts `duskwire serve` on a workspace of its own and talks to it: as a program with the token, or as raw bytes."""
import http.client
import json
import os
import pathlib
import re
import signal
import socket
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[3]
PROGRAM = pathlib.Path(os.environ.get("DUSKWIRE_PROGRAM", ROOT / "build/release/duskwire"))


class LocalServer:
    def __init__(self, workspace, *more, within=()):
        """`within`: a command that runs the program somewhere else, a network of its own for one."""
        self.process = subprocess.Popen(
            [*within, PROGRAM, "serve", *([] if "--port" in more else ["--port", "0"]), "--workspace", str(workspace),
             *more],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=ROOT)
        line = self.process.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:(\d+)/#token=([A-Za-z0-9_-]+)", line)
        if not found:
            raise RuntimeError(line + self.process.stderr.read())
        self.port, self.token = int(found[1]), found[2]

    def ask(self, method, path, body=None, fields=None, timeout=20):
        """(status, headers, JSON or bytes) of one request with the token."""
        link = http.client.HTTPConnection("127.0.0.1", self.port, timeout=timeout)
        sent = {"Authorization": f"Bearer {self.token}", **(fields or {})}
        if isinstance(body, (dict, list)):
            body = json.dumps(body)
            sent.setdefault("Content-Type", "application/json")
        try:
            link.request(method, path, body, sent)
            answer = link.getresponse()
            content = answer.read()
        finally:
            link.close()
        if content and answer.getheader("Content-Type", "") == "application/json":
            content = json.loads(content)
        return answer.status, answer.headers, content

    def next_line(self, pattern):
        """The first match in what it says from here on."""
        while line := self.process.stdout.readline():
            if found := re.search(pattern, line):
                return found
        raise RuntimeError(f"it ended without saying {pattern}")

    def open_socket(self, timeout=20):
        return socket.create_connection(("127.0.0.1", self.port), timeout)

    def raw(self, data, timeout=20):
        """Everything that comes back for these bytes, of which there are no more, until the server closes."""
        with self.open_socket(timeout) as link:
            link.sendall(data)
            link.shutdown(socket.SHUT_WR)
            return read_answer(link)

    def head(self, method="GET", path="/api/jobs", more=""):
        return (f"{method} {path} HTTP/1.1\r\nHost: 127.0.0.1:{self.port}\r\n"
                f"Authorization: Bearer {self.token}\r\n{more}").encode()

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        self.finish()

    def stop(self):
        """Asks it to end; its exit status."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
        return self.finish()

    def finish(self):
        try:
            self.process.wait(20)
        finally:
            self.process.stdout.close()
            self.process.stderr.close()
        return self.process.returncode


def read_answer(link, pause=1.0):
    link.settimeout(pause)
    received = b""
    try:
        while True:
            part = link.recv(65536)
            if not part:
                break
            received += part
    except (TimeoutError, ConnectionResetError):
        pass
    return received


def job(job_id, title="A garden", **more):
    return {"format": "duskwire-job", "version": 1, "id": job_id, "title": title, **more}
