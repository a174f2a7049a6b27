// SPDX-License-Identifier: Apache-2.0
// The engine as the page gets it, under Node: each verb answers, its numbers are those of the command, and what cannot
// be used is refused in words.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import test from 'node:test';

const root = new URL('../../', import.meta.url);
const read = (name) => readFileSync(new URL(name, root), 'utf8');
const { default: createEngine } = await import(new URL('build/wasm/duskwire.mjs', root));
const engine = await createEngine({ wasmBinary: readFileSync(new URL('build/wasm/duskwire.wasm', root)) });
const examples = readdirSync(new URL('examples/', root)).filter((name) => name.endsWith('.json'));
const demo = read('examples/ostrey-garden.json');
const ask = (verb, ...given) => JSON.parse(engine.call(verb, given));

function command(...words) {
  const done = spawnSync(new URL('build/release/duskwire', root).pathname, words, { cwd: root, encoding: 'utf8' });
  assert.ok(done.status === 0 || done.status === 1, done.stderr);
  return JSON.parse(done.stdout);
}

// Same shape and words; numbers within 1e-9 of the larger (1e-12 where both are nearly zero).
function assertSame(a, b, place) {
  if (typeof a === 'number' && typeof b === 'number') {
    const gap = Math.abs(a - b);
    assert.ok(gap <= Math.max(1e-12, 1e-9 * Math.max(Math.abs(a), Math.abs(b))), `${place}: ${a} against ${b}`);
  } else if (a !== null && b !== null && typeof a === 'object' && typeof b === 'object') {
    assert.deepEqual(Object.keys(a), Object.keys(b), place);
    for (const key of Object.keys(a)) assertSame(a[key], b[key], `${place}/${key}`);
  } else {
    assert.equal(a, b, place);
  }
}

test('there are examples to compare', () => assert.ok(examples.length >= 3));

for (const name of examples) {
  const job = read(`examples/${name}`);
  test(`check of ${name} is what the command prints`, () => {
    const answer = ask('check', job, '{"cures": true}');
    assert.deepEqual(answer.problems.filter((problem) => problem.severity === 'error'), []);
    assertSame(answer.report, command('check', `examples/${name}`, '--json'), '');
  });
  test(`materials of ${name} are what the command prints`, () =>
    assertSame(ask('materials', job), command('materials', `examples/${name}`, '--json'), ''));
  test(`the price of ${name} is what the command prints`, () =>
    assertSame(ask('price', job), command('price', `examples/${name}`, '--json'), ''));
  test(`advice on ${name} is what the command prints`, () =>
    assertSame(ask('advise', job), command('advise', `examples/${name}`, '--json'), ''));
}

test('the texts of an export are those that the command writes', () => {
  const texts = ask('export_texts', demo);
  const folder = mkdtempSync(join(tmpdir(), 'duskwire-face-'));
  try {
    const file = join(folder, 'demo.zip');
    command('export', 'examples/ostrey-garden.json', '--output', file, '--no-papers', '--json');
    const script = 'import json, sys, zipfile; z = zipfile.ZipFile(sys.argv[1]); print(json.dumps({n: z.read(n).decode() for n in z.namelist() if not n.startswith("pictures/")}))';
    const written = JSON.parse(spawnSync('python3', ['-c', script, file], { encoding: 'utf8', maxBuffer: 2 ** 26 }).stdout);
    assert.deepEqual(new Set([...texts.map(({ name }) => name), 'job.json', 'SHA256SUMS']), new Set(Object.keys(written)));
    // The last digit of a table may be rounded otherwise here: heads and words only.
    const words = (text) => text.replace(/-?[0-9]+\.[0-9]+/g, '0').replace(/\b[0-9]+\b/g, '0');
    for (const { name, text } of texts) assert.equal(words(text), words(written[name]), name);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('the price of a job without its last light moves by its lines', () => {
  const after = JSON.parse(demo);
  after.cables = after.cables.filter((cable) => cable.to !== 'B4');
  after.luminaires = after.luminaires.filter((lamp) => lamp.id !== 'B4');
  const moved = ask('price_difference', demo, JSON.stringify(after));
  assert.equal(moved.moved_minor, ask('price', JSON.stringify(after)).total_minor - ask('price', demo).total_minor);
  assert.equal(moved.lines.reduce((sum, line) => sum + line.moved_minor, 0), moved.moved_minor);
  assert.match(moved.summary, /^The price went down by /);
});

test('a photograph alone gives a band of prices, and a request without a known size is refused', () => {
  const asked = { known: { name: 'door', size_px: 410 }, known_m: 2.03, note: 'front steps are scary, I love the tree' };
  const band = ask('price_band', JSON.stringify(asked));
  assert.equal(band.low_minor, 60000);
  assert.equal(band.high_minor, 280000);
  assert.equal(band.parts.length, 2);
  assert.throws(() => ask('price_band', '{}'), /known/);
});

test('rules on deposits come with the notice that they are no legal advice', () => {
  assert.match(ask('deposit_rules').notice, /not legal advice/);
});

test('check without cures finds the same, with no cure computed', () => {
  const quick = ask('check', demo, '{"cures": false}').report;
  const whole = ask('check', demo, '{}').report;
  assert.deepEqual(quick.lamps, whole.lamps);
  assert.deepEqual(quick.findings.map((finding) => finding.id).sort(), whole.findings.map((finding) => finding.id).sort());
});

test('a kept document of which parts change is checked as if it were sent whole', () => {
  const options = '{"cures": false}';
  const changed = JSON.parse(demo);
  assert.deepEqual(ask('check_and_keep', demo, options), ask('check', demo, options));
  const parts = [];
  changed.luminaires[3].position[0] += 2.5;
  parts.push(['/luminaires/3', changed.luminaires[3]]);
  changed.cables[1].path = changed.cables[1].path.map(([x, y], index) => (index ? [x + 40, y] : [x, y]));
  delete changed.cables[1].length_m;
  parts.push(['/cables/1', changed.cables[1]]);
  changed.site.mains_v = 110;
  parts.push(['/site', changed.site]);
  const before = ask('check', demo, options);
  const answer = ask('check_changed', JSON.stringify(parts), options);
  assert.deepEqual(answer, ask('check', JSON.stringify(changed), options));
  assert.notDeepEqual(answer.report.cables, before.report.cables);
  changed.luminaires[3].joint = 'nowhere';
  const broken = ask('check_changed', JSON.stringify([['/luminaires/3', changed.luminaires[3]]]), options);
  assert.deepEqual(broken, ask('check', JSON.stringify(changed), options));
  assert.match(broken.problems[0].message, /nowhere/);
});

test('a change that does not fit is refused, and nothing is kept after it', () => {
  for (const parts of ['[["/luminaires/999", {}]]', '[["", {}]]', '[["luminaires", {}]]', '[["/site/x/y", 1]]', '[1]', '{}', 'x', '[["/title", "a"], ["/nothing", 1]]']) {
    ask('check_and_keep', demo, '{"cures": false}');
    assert.throws(() => ask('check_changed', parts, '{}'), { name: 'EngineRefusal' }, parts);
    assert.throws(() => ask('check_changed', '[]', '{}'), { code: 'not_found', message: /send the whole/ }, parts);
  }
});

test('a ruleset asked for is the one judged by', () => {
  const us = ask('check', demo, '{"cures": false, "ruleset": "us"}').report;
  const iec = ask('check', demo, '{"cures": false, "ruleset": "iec"}').report;
  assert.notDeepEqual(us.findings, iec.findings);
  assert.throws(() => engine.call('check', [demo, '{"ruleset": "nowhere"}']), { code: 'not_found' });
});

test('a cure applied takes its finding away', () => {
  const { report } = ask('check', demo, '{"cures": true}');
  const finding = report.findings.find((one) => one.severity === 'error' && one.cures.length > 0);
  assert.ok(finding, 'the demo has an error with a cure');
  const cured = engine.call('apply_changes', [demo, JSON.stringify(finding.cures[0].changes)]);
  const after = ask('check', cured, '{"cures": false}').report;
  assert.ok(!after.findings.some((one) => one.id === finding.id && one.subject === finding.subject && one.severity === 'error'));
});

test('changes that cannot be applied are refused and say why', () => {
  assert.throws(() => engine.call('apply_changes', [demo, '[{"kind": "set_tap", "target": "nowhere", "number": 13}]']), {
    name: 'EngineRefusal',
    code: 'not_found',
    message: /nowhere/,
  });
  assert.throws(() => engine.call('apply_changes', [demo, '[{"kind": "paint"}]']), (error) => {
    assert.equal(error.code, 'invalid');
    assert.ok(error.problems.some((problem) => problem.pointer === '/0/kind'));
    return true;
  });
});

test('validate tells every problem with its place; a sound job has no error', () => {
  assert.deepEqual(ask('validate', demo).filter((problem) => problem.severity === 'error'), []);
  const broken = JSON.parse(demo);
  broken.version = 2;
  assert.ok(ask('validate', JSON.stringify(broken)).some((problem) => problem.pointer === '/version'));
});

test('a job that cannot be read has problems and no report', () => {
  const answer = ask('check', '{"format": "something else"}', '{}');
  assert.ok(answer.problems.length > 0);
  assert.equal(answer.report, undefined);
});

test('a job with an error that can be drawn is still computed', () => {
  const job = JSON.parse(demo);
  job.luminaires[0].joint = 'nowhere';
  const answer = ask('check', JSON.stringify(job), '{"cures": false}');
  assert.ok(answer.problems.some((problem) => problem.severity === 'error'));
  assert.equal(answer.report.lamps.length, job.luminaires.length);
});

test('a quick question is answered as by the command', () => {
  const cable = ask('stock').cables.find((item) => item.gauge_awg === 12);
  const answer = ask('ask', JSON.stringify({ lamps: 8, lamp_w: 4, length_m: 60, tap_v: 13, cable }));
  const printed = command('ask', '--lamps', '8', '--watts', '4', '--length', '60m', '--cable', '12awg', '--tap', '13', '--source-ohm', '0',
    '--window', '9:15', '--mains-tolerance', '0', '--json');
  for (const key of ['last_v', 'first_v', 'current_a', 'load_va', 'load_margin', 'short_a']) assertSame(answer[key], printed[key], key);
});

test('a part left out of the question is found', () => {
  const tap = ask('ask', '{"lamps": 8, "lamp_w": 4, "length_m": 40, "cable": {"id": "c", "area_mm2": 4, "ohm_per_m_20c": 0.0043}}');
  assert.equal(tap.asked, 'tap');
  assert.ok(tap.tried.length > 1);
  const cable = ask('ask', '{"lamps": 8, "lamp_w": 4, "length_m": 40, "tap_v": 12, "units": "us"}');
  assert.equal(cable.asked, 'cable');
  assert.ok(cable.tried.length > 1);
  assert.throws(() => engine.call('ask', ['{"lamp_w": 4}']), { code: 'invalid' });
});

test('a table of lamps becomes a job that can be checked', () => {
  const job = ask('start_job', JSON.stringify({ title: 'Front', lamps_csv: 'name,watts,x_m,y_m\nDoor,4,3,0\nGate,4,9,1\n' }));
  assert.equal(job.title, 'Front');
  assert.equal(job.luminaires.length, 2);
  assert.equal(ask('check', JSON.stringify(job), '{}').report.lamps.length, 2);
  assert.throws(() => engine.call('start_job', ['{"lamps_csv": "name\\n"}']), { name: 'EngineRefusal' });
});

function plan(job, request) {
  const begun = ask('route_begin', job, JSON.stringify(request));
  assert.equal(begun.more, true);
  let progress = begun;
  while (progress.more) {
    const next = ask('route_search', '20');
    assert.ok(next.steps >= progress.steps);
    progress = next;
  }
  assert.equal(ask('route_search', '20').more, false, 'it stays at its end');
  const answer = ask('route_answer');
  assert.deepEqual(ask('route_answer'), answer, 'asking again changes nothing');
  assert.deepEqual(ask('route_end'), {});
  return { begun, progress, answer };
}

// The last bit of a distance is another here than there, so that the two may find different plans: what they hold is
// the same.
test('a wiring is planned as by the command, in as many calls as the page likes', () => {
  const request = { seed: 7, most_steps: 400, rates: { labour_minor_per_h: 4500 } };
  const { begun, progress, answer } = plan(demo, request);
  assert.equal(begun.lamps, 40);
  assert.equal(progress.lamps_placed, 40);
  const printed = command('route', 'examples/ostrey-garden.json', '--seed', '7', '--steps', '400', '--labour', '45', '--json');
  assertSame(answer.today, printed.today, 'today');
  assert.deepEqual(Object.keys(answer), Object.keys(printed));
  assert.deepEqual(Object.keys(answer.planned), Object.keys(printed.planned));
  assert.deepEqual(Object.keys(answer.runs[0]), Object.keys(printed.runs[0]));
  assert.equal(answer.steps, printed.steps);
  for (const one of [answer, printed]) {
    assert.equal(one.planned.sound, true);
    assert.ok(one.planned.cost.cost_minor < one.today.cost.cost_minor);
  }
  assert.deepEqual(plan(demo, request).answer, answer, 'the same request gives the same plan');
});

test('a planned job is a document like any other', () => {
  const { answer } = plan(demo, { most_steps: 100 });
  const report = ask('check', JSON.stringify(answer.job), '{"cures": false}').report;
  assert.equal(report.sound, true);
  assert.equal(report.lamps.length, 40);
  assert.equal(Math.min(...report.lamps.map((lamp) => lamp.worst_low_v)), answer.planned.lowest_v);
});

test('where no wiring can be planned it is said why', () => {
  ask('route_begin', read('examples/small-garden.json'), '{}');
  ask('route_search', '50');
  const answer = ask('route_answer');
  assert.equal(answer.job, null);
  assert.ok(answer.obstacles.length > 0);
  assert.ok(answer.obstacles.every((obstacle) => obstacle.message && obstacle.cure));
  ask('route_end');
});

test('a search ends when it is told, when another begins, and when one is refused', () => {
  ask('route_begin', demo, '{}');
  assert.equal(ask('route_search', '0').more, true);
  ask('route_end');
  for (const verb of ['route_search', 'route_answer']) {
    const given = verb === 'route_search' ? ['10'] : [];
    assert.throws(() => engine.call(verb, given), { code: 'not_found', message: /route_begin/ });
  }
  ask('route_begin', demo, '{}');
  ask('route_begin', read('examples/small-garden.json'), '{}');
  assert.equal(ask('route_search', '0').lamps, 8);
  assert.throws(() => ask('route_begin', demo, '{"reserve_pct": -1}'), (error) => {
    assert.equal(error.code, 'invalid');
    assert.ok(error.problems.some((problem) => problem.pointer === '/reserve_pct'));
    return true;
  });
  assert.throws(() => ask('route_answer'), { code: 'not_found' });
  assert.throws(() => ask('route_begin', '{}', '{}'), { code: 'invalid' });
});

test('the time to search for is a number of milliseconds', () => {
  ask('route_begin', demo, '{}');
  for (const time of ['', '-1', '1e9', '"10"', 'NaN', '[]', '10 10']) {
    assert.throws(() => ask('route_search', time), { code: 'invalid', message: /milliseconds/ }, time);
  }
  const before = performance.now();
  ask('route_search', '100');
  const took = performance.now() - before;
  assert.ok(took > 90 && took < 5000, `${took} ms`);
  ask('route_end');
});

test('stock and rulesets are the files that come with the program', () => {
  assert.deepEqual(ask('stock'), JSON.parse(read('data/catalogue/stock.json')));
  const ids = readdirSync(new URL('data/rulesets/', root)).map((name) => name.replace('.json', ''));
  assert.deepEqual(ask('rulesets').map((one) => one.id).sort(), ids.sort());
});

test('what the engine does not know is refused, and it goes on', () => {
  assert.throws(() => engine.call('sing', []), { code: 'unsupported', message: /sing/ });
  assert.throws(() => engine.call('check', [demo]), { code: 'invalid' });
  assert.throws(() => engine.call('materials', ['']), { code: 'invalid' });
  assert.ok(ask('check', demo, '{"cures": false}').report.lamps.length > 0);
});

test('texts cross whole: beyond ASCII, beyond one plane, long', () => {
  const job = JSON.parse(demo);
  job.title = 'Gärten am Weg, 庭, 🌙'.padEnd(190, 'ü');
  assert.equal(JSON.parse(engine.call('apply_changes', [JSON.stringify(job), '[]'])).title, job.title);
  job.notes_of_ours = 'x'.repeat(3_000_000);
  assert.equal(JSON.parse(engine.call('apply_changes', [JSON.stringify(job), '[]'])).notes_of_ours.length, 3_000_000);
});

test('nothing may follow the document, not even behind a zero byte', () =>
  assert.ok(ask('validate', `${demo}\u0000more`).some((problem) => problem.severity === 'error')));
