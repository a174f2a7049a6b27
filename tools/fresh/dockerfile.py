# SPDX-License-Identifier: Apache-2.0
"""Plays a Dockerfile without docker: each stage in a bare machine of its own. Knows the instructions that ours uses, and
refuses any other, so that nothing of the file is passed over."""
import json
import re
import shlex
import shutil
from dataclasses import dataclass, field
from pathlib import Path

from .machine import Machine


@dataclass
class Command:
    line: str = ""
    folder: str = "/"
    user: str = "root"


@dataclass
class Stage:
    machine: Machine
    end: Command = field(default_factory=Command)


class Unknown(Exception):
    pass


def instructions(text: str) -> list[tuple[str, str]]:
    joined = re.sub(r"\\\n", " ", text)
    return [tuple(line.split(None, 1)) for line in joined.splitlines() if line.strip() and not line.startswith("#")]


def copy(words: list[str], stages: dict[str, Stage], now: Stage, project: Path) -> None:
    if words[0] == ".":
        now.machine.clone(project, words[1])
        return
    of = re.fullmatch(r"--from=(\w+)", words[0])
    if not of:
        raise Unknown("COPY " + " ".join(words))
    source, target = (stage.machine.folder / path.strip("/") for stage, path in ((stages[of.group(1)], words[1]), (now, words[2])))
    shutil.copytree(source, target, dirs_exist_ok=True)


def play(path: Path, machines: list[Machine]) -> Command:
    """The command that the last stage would start."""
    stages: dict[str, Stage] = {}
    now = None
    for word, rest in instructions(path.read_text(encoding="utf-8")):
        if word == "FROM":
            name = re.fullmatch(r"debian:12-slim(?: AS (\w+))?", rest)
            if not name:
                raise Unknown(f"FROM {rest}")
            now = stages[name.group(1) or "last"] = Stage(machines[len(stages)])
        elif word == "COPY":
            copy(rest.split(), stages, now, path.parent)
        elif word == "RUN":
            now.machine.output(f"cd {now.end.folder} && {rest}", user=now.end.user)
        elif word == "WORKDIR":
            now.end.folder = rest
            (now.machine.folder / rest.strip("/")).mkdir(exist_ok=True)
        elif word == "USER":
            now.end.user = rest
        elif word == "CMD":
            now.end.line = shlex.join(json.loads(rest))
        elif word not in ("VOLUME", "EXPOSE"):
            raise Unknown(f"{word} {rest}")
    return now.end
