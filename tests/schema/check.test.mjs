// SPDX-License-Identifier: Apache-2.0
// The published schemas against the documents of the project, and against the program's own reader: what a schema
// refuses the reader refuses too, and the reader is stricter only where a schema cannot tell.
//
// Needs `npm ci` here and the program judge_documents; its path is JUDGE_DOCUMENTS, as a rule from build/release.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { after, test } from "node:test";
import { fileURLToPath } from "node:url";

import Ajv from "ajv/dist/2020.js";

const project = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
const judge = process.env.JUDGE_DOCUMENTS ?? path.join(project, "build/release/tests/schema/judge_documents");
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), "schema-check-"));
after(() => fs.rmSync(scratch, { recursive: true }));

const read = (file) => JSON.parse(fs.readFileSync(path.join(project, file), "utf8"));
const files = (folder) => fs.readdirSync(path.join(project, folder)).filter((name) => name.endsWith(".json"))
  .map((name) => path.join(folder, name));

const schemas = Object.fromEntries(["job", "catalogue", "ruleset"]
  .map((name) => [`duskwire-${name}`, read(`docs/schema/${name}-v1.schema.json`)]));
// Strict: an unknown word in a schema is an error, not passed over. Only `anyOf` beside `type` is this house's way.
const ajv = new Ajv({ strict: true, strictTypes: false, allErrors: true });
const valid = Object.fromEntries(Object.entries(schemas).map(([name, schema]) => [name, ajv.compile(schema)]));
const schemaTakes = (document, format = document.format) => valid[format](document);

// The reader's verdict on each of many documents, in batches of one process each.
function readerTakes(documents) {
  const names = documents.map((document, i) => {
    const name = path.join(scratch, `${i}.json`);
    fs.writeFileSync(name, JSON.stringify(document));
    return name;
  });
  const verdicts = [];
  for (let i = 0; i < names.length; i += 500) {
    const out = execFileSync(judge, names.slice(i, i + 500), { encoding: "utf8", maxBuffer: 1 << 28 });
    for (const line of out.trimEnd().split("\n")) {
      verdicts.push({ taken: line.startsWith("taken "), problems: JSON.parse(line.slice(line.indexOf(" "))) });
    }
  }
  assert.equal(verdicts.length, documents.length);
  return verdicts;
}

const documents = [...files("examples"), "tests/schema/full-job.json", "data/catalogue/stock.json",
  ...files("data/rulesets")];

for (const file of documents) {
  test(`${file} is taken by its schema and by the reader`, () => {
    const document = read(file);
    assert.ok(schemaTakes(document), JSON.stringify(valid[document.format].errors?.slice(0, 5), null, 2));
    const [verdict] = readerTakes([document]);
    assert.ok(verdict.taken, JSON.stringify(verdict.problems, null, 2));
  });
}

const full = () => read("tests/schema/full-job.json");

// Follows a path such as "cables/0/depth_m" and sets, or with undefined removes, what is there.
function planted(pointer, value) {
  const document = full();
  const keys = pointer.split("/");
  const last = keys.pop();
  const holder = keys.reduce((at, key) => at[key], document);
  if (value === undefined) delete holder[last];
  else holder[last] = value;
  return document;
}

const broken = {
  "version 0": planted("version", 0),
  "version 2": planted("version", 2),
  "another format": planted("format", "garden"),
  "no format": planted("format", undefined),
  "no site": planted("site", undefined),
  "mains as text": planted("site/mains_v", "120"),
  "latitude beyond the pole": planted("site/latitude_deg", 91),
  "an unknown kind of ground": planted("cables/0/ground", "grass"),
  "a cable without item": planted("cables/0/item", undefined),
  "a negative depth": planted("cables/0/depth_m", -0.1),
  "a path of one point": planted("cables/0/path", [[0, 0]]),
  "a point of three numbers on the plan": planted("joints/0/position", [1, 2, 3]),
  "an id with a space": planted("luminaires/0/id", "F 1"),
  "luminaires as an object": planted("luminaires", {}),
  "a fraction of an output": planted("catalogue/transformers/0/output_count", 1.5),
  "no taps": planted("catalogue/transformers/0/taps_v", []),
  "a flag as a number": planted("joints/0/buried", 1),
  "null for nothing": planted("plan/underlay", null),
  "a reading of nothing": planted("visits/0/readings/0/quantity", undefined),
  "an unknown day": planted("programme/0/days", ["monday"]),
  "a date in words": planted("created", "2 March"),
};

test("planted mistakes are refused by the schema", () => {
  for (const [name, document] of Object.entries(broken)) {
    assert.ok(!schemaTakes(document, "duskwire-job"), name);
  }
});

test("planted mistakes are refused by the reader", () => {
  const verdicts = readerTakes(Object.values(broken));
  Object.keys(broken).forEach((name, i) => assert.ok(!verdicts[i].taken, name));
});

// --- every value of a document, bent in turn ---

const resolve = (schema, node) => (node.$ref ? { ...schema.$defs[node.$ref.slice("#/$defs/".length)], ...node } : node);

// Values near the edges of what a schema node allows, and of other types.
function variantsOf(node, value) {
  const out = [null, {}, [], "x y", true, -1e7, 0.5, "a\u0001", ""];
  for (const edge of [node.minimum, node.maximum, node.exclusiveMinimum]) {
    if (edge !== undefined) out.push(edge, edge - 1, edge + 1, edge + 1e-6, edge - 1e-6);
  }
  if (node.maxLength !== undefined) out.push("y".repeat(node.maxLength), "y".repeat(node.maxLength + 1));
  if (node.enum) out.push(...node.enum, "no-such-name");
  if (Array.isArray(value)) {
    out.push(value.slice(0, 1), [...value, ...value], [...value, null], value.slice(0, -1));
  }
  return out;
}

// Calls `visit(holder, key, node)` for each value that a document holds and its schema knows.
function walk(schema, node, value, visit) {
  node = resolve(schema, node);
  if (node.properties && value && typeof value === "object") {
    for (const key of Object.keys(value)) {
      if (!(key in node.properties)) continue;
      visit(value, key, resolve(schema, node.properties[key]));
      walk(schema, node.properties[key], value[key], visit);
    }
  } else if (node.type === "object" && typeof node.additionalProperties === "object") {
    for (const key of Object.keys(value)) {
      visit(value, key, resolve(schema, node.additionalProperties));
      walk(schema, node.additionalProperties, value[key], visit);
    }
  } else if (node.type === "array" && Array.isArray(value)) {
    value.forEach((each, i) => {
      const item = node.prefixItems?.[i] ?? node.items;
      if (!item) return;
      visit(value, i, resolve(schema, item));
      walk(schema, item, each, visit);
    });
  }
}

function bentVariants(document) {
  const schema = schemas[document.format];
  const variants = [];
  walk(schema, schema, document, (holder, key, node) => {
    const before = holder[key];
    for (const value of variantsOf(node, before)) {
      holder[key] = value;
      variants.push(structuredClone(document));
    }
    if (!Array.isArray(holder)) {
      delete holder[key];
      variants.push(structuredClone(document));
    }
    holder[key] = before;
  });
  return variants;
}

// Words of the reader's messages where it is stricter than a schema can be.
const beyondSchema = [/^There is no /m, /is the id of the /, /is taken already/, /There is no/, /apparent power is never/,
  /swap or correct/, /goes dark below/, /An LED needs/, /must ascend/, /, ascending/, /starts and ends at/,
  /neither "length_m" nor "path"/, /needs "time"/, /of the log is of kind \w+, so it needs/, /copy the item into it/, /is used twice: give each surface/, /does not say which way it faces/];

// A small catalogue and ruleset, so that bending stays quick.
function small(file) {
  const document = read(file);
  for (const key of Object.keys(document)) {
    if (Array.isArray(document[key])) document[key] = document[key].slice(0, 2);
  }
  return document;
}

for (const [name, document] of [["the full job", full()], ["a catalogue", small("data/catalogue/stock.json")],
  ["a ruleset", small("data/rulesets/us.json")]]) {
  test(`schema and reader agree on every bent value of ${name}`, () => {
    const format = document.format;
    const variants = bentVariants(document);
    const verdicts = readerTakes(variants);
    let refused = 0;
    variants.forEach((variant, i) => {
      const verdict = verdicts[i];
      const told = verdict.problems.filter((problem) => problem.severity === "error");
      if (!schemaTakes(variant, format)) {
        refused += 1;
        assert.ok(!verdict.taken, `only the schema refuses: ${JSON.stringify(valid[format].errors?.slice(0, 3))}`);
      } else if (!verdict.taken) {
        const unexplained = told.filter((problem) => !beyondSchema.some((words) => words.test(problem.message)));
        assert.deepEqual(unexplained, [], "only the reader refuses");
      }
    });
    assert.ok(refused > 100 && refused < variants.length, `${refused} of ${variants.length} refused`);
  });
}

test("the full job uses every key of every shape", () => {
  const schema = schemas["duskwire-job"];
  const used = new Map();
  const note = (node, value) => {
    const shape = node.$ref?.slice("#/$defs/".length);
    if (shape) {
      if (!used.has(shape)) used.set(shape, new Set());
      Object.keys(value).forEach((key) => used.get(shape).add(key));
    }
    const full = resolve(schema, node);
    if (full.properties) {
      for (const [key, child] of Object.entries(full.properties)) if (key in value) note(child, value[key]);
    } else if (full.items && Array.isArray(value)) {
      value.forEach((each) => note(full.items, each));
    }
  };
  note(schema, full());
  for (const [shape, node] of Object.entries(schema.$defs)) {
    for (const key of Object.keys(node.properties)) assert.ok(used.get(shape)?.has(key), `${shape}.${key}`);
  }
  for (const key of Object.keys(schema.properties)) assert.ok(key in full(), key);
});

test("every property says what it means", () => {
  for (const schema of Object.values(schemas)) {
    for (const node of [schema, ...Object.values(schema.$defs)]) {
      for (const [key, property] of Object.entries(node.properties)) assert.ok(property.description, key);
    }
  }
});
