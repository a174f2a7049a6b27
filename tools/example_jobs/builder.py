# SPDX-License-Identifier: Apache-2.0
"""Builds a job document step by step: places things, routes cables over the plan and copies the catalogue items used.

Lengths in metres, points in the site frame (x east, y north). The shape is docs/schema/job-v1.schema.json.
"""
import json


class JobBuilder:
    def __init__(self, stock, **head):
        self.stock = stock
        self.places = {}  # id -> (x, y) of whatever a cable may end at
        self.job = {
            "format": "duskwire-job",
            "version": 1,
            **head,
            "catalogue": {},
            "plan": {},
            "luminaires": [],
            "transformers": [],
            "cables": [],
            "joints": [],
        }

    # The plan -------------------------------------------------------------------------------------------------

    def area(self, id, name, kind, outline, height_m=0, **more):
        entry = {"id": id, "name": name, "kind": kind, "outline": [list(point) for point in outline]}
        if height_m:
            entry["height_m"] = height_m
        entry.update(more)
        self.job["plan"].setdefault("areas", []).append(entry)

    def put(self, part, **entry):
        self.job["plan"].setdefault(part, []).append({key: _plain(value) for key, value in entry.items()})

    # Equipment ------------------------------------------------------------------------------------------------

    def transformer(self, id, name, item, position, outputs, **more):
        self.job["transformers"].append({"id": id, "name": name, "item": item, "position": list(position), **more,
                                         "outputs": outputs})
        for output in outputs:
            self.places[output["id"]] = position

    def lamp(self, id, name, item, position, zone, joint="", **more):
        height_m = self._item("luminaires", item).get("mounting_height_m", 0)
        point = list(position) if len(position) == 3 else [*position, height_m]
        entry = {"id": id, "name": name, "item": item, "position": point, "zone": zone}
        if joint:
            entry["joint"] = joint
        self.job["luminaires"].append({**entry, **more})
        self.places[id] = tuple(position[:2])

    def joint(self, id, name, kind, position, connector, **more):
        called = {"name": name} if name else {}
        self.job["joints"].append({"id": id, **called, "kind": kind, "position": list(position),
                                   "connector": connector, **more})
        self.places[id] = position

    def cable(self, id, item, start, end, via=(), **more):
        path = [self.places[start], *via, self.places[end]]
        self.job["cables"].append({"id": id, "item": item, "from": start, "to": end,
                                   "path": [_plain(point) for point in path], **more})

    def bare_cable(self, id, item, start, end, length_m, **more):
        self.job["cables"].append({"id": id, "item": item, "from": start, "to": end, "length_m": length_m, **more})

    # The document ---------------------------------------------------------------------------------------------

    def _item(self, part, id):
        for entry in self.stock[part]:
            if entry["id"] == id:
                return entry
        raise SystemExit(f"the stock has no {part} item \"{id}\"")

    def finished(self):
        """The job with its own copy of every catalogue item that it names."""
        used = {
            "luminaires": {lamp["item"] for lamp in self.job["luminaires"]},
            "transformers": {unit["item"] for unit in self.job["transformers"]},
            "cables": {cable["item"] for cable in self.job["cables"]},
            "connectors": {joint["connector"] for joint in self.job["joints"] if joint["connector"]},
            "controls": {control for unit in self.job["transformers"] for control in unit.get("controls", [])},
        }
        for part, ids in used.items():
            for id in ids:
                self._item(part, id)
        self.job["catalogue"] = {"currency": self.stock["currency"]}
        for part, ids in used.items():
            self.job["catalogue"][part] = [entry for entry in self.stock[part] if entry["id"] in ids]
        self.job["catalogue"]["sundries"] = self.stock.get("sundries", [])
        return self.job


def _plain(value):
    return [_plain(part) for part in value] if isinstance(value, (list, tuple)) else value


def as_text(value, indent=0):
    """JSON as a person would lay it out: objects over lines, points and short lists of numbers on one."""
    inner = " " * (indent + 2)
    outer = " " * indent
    if isinstance(value, dict) and value:
        rows = [f"{inner}{json.dumps(key)}: {as_text(part, indent + 2)}" for key, part in value.items()]
        return "{\n" + ",\n".join(rows) + "\n" + outer + "}"
    if isinstance(value, list) and value:
        flat = all(isinstance(part, (int, float, str)) for part in value)
        points = all(isinstance(part, list) and len(part) <= 3 for part in value)
        if flat or points:
            return json.dumps(value, ensure_ascii=False)
        return "[\n" + ",\n".join(inner + as_text(part, indent + 2) for part in value) + "\n" + outer + "]"
    return json.dumps(value, ensure_ascii=False)
