# SPDX-License-Identifier: Apache-2.0
"""A job that means harm: every free text of the published schema, and every id, holds what would run, break out, turn round
or overflow where it is not treated as text. A field that is added to the schema joins by itself.

Usage: hostile_job.py FILE.zip writes it with its photograph. What runs all the same sets window.hostile in a page."""
import json
import sys
import zipfile
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]
SCHEMA = json.loads((PROJECT / "docs/schema/job-v1.schema.json").read_text(encoding="utf-8"))
FREE = r"^[^\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]*$"
IDS = (r"^[^\u0000-\u0020\u007f]+$", r"^$|^[^\u0000-\u0020\u007f]+$")
# Of the program's own, or of the file: other names are not there.
NAMES_OF_OURS = {"ruleset", "targets"}

STARTS = ["=cmd|' /C calc'!A0", "+cmd()", "-cmd()", "@cmd()", "\t=cmd()", "\r=cmd()"]
PARTS = ["\"'><img src=x onerror=window.hostile=1>", "<script>window.hostile=2</script>", "\u202egnp.exe", "\U0001f3e1\U0001f469\U0001f3fd\u200d\U0001f527",
         "\r\n  0\r\nSECTION\r\nBEGIN:VEVENT\r\n", "{{constructor.constructor('window.hostile=3')()}}", "]]></text>", "javascript:window.hostile=4", "W" * 120]


def units(text: str) -> int:
    return len(text)


class Hostile:
    """Fills documents; `filled` names each free text by its shape and key."""

    def __init__(self):
        self.filled: set[str] = set()
        self._count = 0

    def text(self, most: int) -> str:
        start = STARTS[self._count % len(STARTS)]
        self._count += 1
        made = start
        for part in PARTS:
            if units(made) + units(part) <= most:
                made += part
        return made[:most]

    @staticmethod
    def id(known: str) -> str:
        """Another id for the same thing everywhere: what it is called breaks out of attributes and starts a formula."""
        return f"={known}\"'><b>&"[:64] if known else known

    def value(self, shape: dict, value, place: str):
        name, shape = resolved(shape)
        place = name or place
        if shape.get("type") == "string" and shape.get("pattern") == FREE:
            self.filled.add(place)
            if isinstance(value, str) and len(value) == 64 and set(value) <= set("0123456789abcdef"):
                return value  # a picture that is there
            return self.text(shape["maxLength"])
        if shape.get("type") == "string" and shape.get("pattern") in IDS and isinstance(value, str):
            return value if place.split(".")[-1] in NAMES_OF_OURS or place == "job.id" else self.id(value)
        if isinstance(value, list):
            items = shape.get("items") if isinstance(shape.get("items"), dict) else {}
            return [self.value(items, one, place) for one in value]
        if isinstance(value, dict):
            return self.object(shape, value, place)
        return value

    def object(self, shape: dict, value: dict, place: str) -> dict:
        made = {key: self.value(shape["properties"][key], part, f"{place}.{key}") if key in shape.get("properties", {}) else part
                for key, part in value.items()}
        for key, part in shape.get("properties", {}).items():
            name = f"{place}.{key}"
            if key == "intensity_file":
                if name not in self.filled:
                    made[key] = self.intensity_file()
                    self.filled.add(name)
            elif key == "pictures":
                made[key] = [*made.get(key, []), self.text(part["items"]["maxLength"])]
                self.filled.add(name)
            elif key not in made and part.get("pattern") == FREE:
                made[key] = self.value(part, None, name)
        return made

    def intensity_file(self) -> str:
        """One that can be read, with harm in the lines that are for people."""
        lines = (PROJECT / "examples/bullet-24.ies").read_text(encoding="utf-8").splitlines()
        return "\n".join(line.split("]")[0] + "]" + self.text(60).strip().replace("\n", " ") if line.startswith("[") else line for line in lines) + "\n"


def resolved(shape: dict) -> tuple[str, dict]:
    """The name and the body of what a shape refers to; no name where it stands for itself."""
    name = shape.get("$ref", "").rsplit("/", 1)[-1]
    return name, SCHEMA["$defs"][name] if name else shape


def with_all_parts(some: dict, every: dict) -> dict:
    """A document with the parts that another has and it lacks; of a list its first thing gets parts of its own."""
    made = dict(some)
    for key, part in every.items():
        if not made.get(key):
            made[key] = part
        elif isinstance(part, dict) and isinstance(made[key], dict):
            made[key] = with_all_parts(made[key], part)
        elif isinstance(part, list) and isinstance(part[0], dict):
            # What it refers to by id is not in the other document.
            parts = {name: {one: value for one, value in inner.items() if not one.startswith("fixed_point")}
                     for thing in part for name, inner in thing.items() if isinstance(inner, dict)}
            made[key] = [{**parts, **made[key][0]}, *made[key][1:]]
    return made


def hostile_job() -> tuple[dict, set[str]]:
    """The demo with every part that a document may have; and the free texts that were filled, as shape.key."""
    demo = json.loads((PROJECT / "examples/ostrey-garden-sound.json").read_text(encoding="utf-8"))
    full = json.loads((PROJECT / "tests/schema/full-job.json").read_text(encoding="utf-8"))
    hostile = Hostile()
    return hostile.object(SCHEMA, with_all_parts(demo, full), "job"), hostile.filled


def free_texts() -> set[str]:
    """Every free text of the schema, as shape.key."""
    shapes = {"job": SCHEMA, **SCHEMA["$defs"]}
    return {f"{name}.{key}" for name, shape in shapes.items() for key, part in shape.get("properties", {}).items()
            if FREE in (part.get("pattern"), isinstance(part.get("items"), dict) and part["items"].get("pattern"))}


if __name__ == "__main__":
    with zipfile.ZipFile(sys.argv[1], "w") as archive:
        archive.writestr("job.json", json.dumps(hostile_job()[0]))
        archive.write(PROJECT / "examples/ostrey-front.jpg", "pictures/front.jpg")
