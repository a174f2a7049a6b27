# SPDX-License-Identifier: Apache-2.0
"""A bare Debian 12 in a folder, and commands in it: processes and mounts of its own, which end with the command; the
network is this machine's, or none at all. What this machine says of proxies and package mirrors holds there too."""
import contextlib
import os
import shlex
import shutil
import signal
import subprocess
from pathlib import Path

ENTER = """set -e
mount -t proc proc "$ROOT/proc"
mount --rbind /dev "$ROOT/dev"
mount --rbind /sys "$ROOT/sys"
exec chroot ${AS_USER:+--userspec="$AS_USER"} "$ROOT" /usr/bin/env -i "$@" /bin/bash -c "$COMMAND"
"""
PASSED_ON = ("_proxy", "npm_config_", "node_extra_ca_certs", "ssl_cert_file")


class Failed(Exception):
    pass


def passed_on() -> list[str]:
    return [f"{name}={value}" for name, value in os.environ.items() if any(part in name.lower() for part in PASSED_ON)]


class Machine:
    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def make(self, anew: bool = False) -> str:
        if anew and self.folder.exists():
            shutil.rmtree(self.folder)
        made = self.folder / "etc" / "made-to-prove"
        if made.exists():
            return "was there already"
        self.folder.mkdir(parents=True, exist_ok=True)
        subprocess.run(["debootstrap", "--variant=minbase", "--include=ca-certificates", "bookworm", str(self.folder), mirror()],
                       check=True, stdout=subprocess.DEVNULL)
        for name in ("etc/apt/sources.list", "etc/apt/sources.list.d", "etc/apt/apt.conf.d", "etc/resolv.conf", "etc/hosts",
                     "etc/npmrc", "etc/ssl/certs", "etc/ssl/certs/ca-certificates.crt"):
            take_over(Path("/") / name, self.folder / name)
        if not Path("/etc/apt/sources.list").exists():
            # Debootstrap's own line would name the same packages a second time.
            (self.folder / "etc/apt/sources.list").write_text("", encoding="utf-8")
        take_over(Path.home() / ".npmrc", self.folder / "root" / ".npmrc")
        made.touch()
        return ""

    def clone(self, project: Path, place: str) -> str:
        target = self.folder / place.lstrip("/")
        if (target / ".git").exists():
            return "was there already"
        subprocess.run(["git", "clone", "--quiet", "--no-hardlinks", str(project), str(target)], check=True)
        return subprocess.run(["git", "-C", str(target), "log", "-1", "--format=%h %s"], check=True, capture_output=True,
                              text=True).stdout.strip()

    def words(self, network: bool, user: str) -> list[str]:
        home = "/root" if user == "root" else f"/home/{user}"
        return ["unshare", "--mount", "--pid", "--fork", "--kill-child", "--propagation", "private", *([] if network else ["--net"]),
                "bash", "-c", ENTER, "enter", f"HOME={home}", "TERM=dumb", "LANG=C.UTF-8",
                "PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin", *passed_on()]

    def surroundings(self, command: str, user: str) -> dict[str, str]:
        named = {} if user == "root" else {"AS_USER": f"{user}:"}
        return {**os.environ, "ROOT": str(self.folder), "COMMAND": command, **named}

    def output(self, command: str, network: bool = True, user: str = "root") -> str:
        """What the command prints; what it complains of goes on to this program's own complaints."""
        done = subprocess.run(self.words(network, user), env=self.surroundings(command, user), stdout=subprocess.PIPE, text=True,
                              check=False)
        if done.returncode != 0:
            raise Failed(f"{shlex.quote(command)} ended with {done.returncode} in {self.folder}; it printed:\n{done.stdout}")
        return done.stdout

    @contextlib.contextmanager
    def start(self, command: str, user: str = "root"):
        process = subprocess.Popen(self.words(True, user), env=self.surroundings(command, user), start_new_session=True)
        try:
            yield process
        finally:
            if process.poll() is None:
                os.killpg(process.pid, signal.SIGTERM)
                process.wait(timeout=30)


def take_over(source: Path, target: Path) -> None:
    if source.is_dir():
        # Certificates are links that lead to each other; cp keeps what is newer there: the bundle of all follows alone.
        subprocess.run(["cp", "--recursive", "--update", f"{source}/.", str(target)], check=True)
    elif source.exists():
        target.unlink(missing_ok=True)
        shutil.copyfile(source, target)


def mirror() -> str:
    """The first mirror of Debian that this machine itself takes packages from."""
    listed = [Path("/etc/apt/sources.list"), *sorted(Path("/etc/apt/sources.list.d").glob("*"))]
    for path in listed:
        for line in path.read_text(encoding="utf-8").splitlines() if path.exists() else []:
            words = line.split()
            if words and words[0] in ("deb", "URIs:"):
                return next(word for word in words if "://" in word)
    return "http://deb.debian.org/debian"
