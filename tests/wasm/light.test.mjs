// SPDX-License-Identifier: Apache-2.0
// The light of the engine as the page gets it, under Node: nights of a photograph, places probed on them, levels.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import test from 'node:test';

const root = new URL('../../', import.meta.url);
const { default: createEngine } = await import(new URL('build/wasm/duskwire.mjs', root));
const wasmBinary = readFileSync(new URL('build/wasm/duskwire.wasm', root));
const engine = await createEngine({ wasmBinary });
const demo = readFileSync(new URL('examples/ostrey-garden.json', root), 'utf8');
const ask = (verb, ...given) => JSON.parse(engine.call(verb, given));

// The demo's photograph as a pattern of its size: what is asked is who gets light, not what the house looks like.
// Node has none of the browser's.
globalThis.ImageData ??= class ImageData {
  constructor(data, width, height) {
    Object.assign(this, { data, width, height });
  }
};

function night() {
  const job = JSON.parse(demo);
  const view = job.views[0];
  const [width, height] = [320, Math.round((320 * view.height_px) / view.width_px)];
  const rgba = new Uint8ClampedArray(4 * width * height).map((_, i) => (i % 4 === 3 ? 255 : 100 + ((i * 7919) % 60)));
  engine.givePhotograph(rgba, width, height);
  return { job, view, width, height };
}
const nightOf = (job, wish) => ask('night_picture', JSON.stringify(job), JSON.stringify(wish));

test('a night needs a photograph first, and a place on it a night', async () => {
  const fresh = await createEngine({ wasmBinary });
  assert.throws(() => fresh.call('night_picture', [demo, '{"view": "front"}']), { code: 'not_found', message: /photograph/ });
  assert.throws(() => fresh.call('night_probe', ['[1, 1]']), { code: 'not_found', message: /night picture/ });
});

test('a night of a kept document with a part put in is that of the whole document', () => {
  const { job, view } = night();
  const wish = JSON.stringify({ view: view.id });
  nightOf(job, { view: view.id });
  const lamp = structuredClone(job.luminaires[0]);
  lamp.position[0] += 0.5;
  const changed = ask('night_changed', JSON.stringify([['/luminaires/0', lamp]]), wish);
  assert.deepEqual(changed.recomputed, [lamp.id]);
  const rgba = engine.takePicture().data.slice();
  job.luminaires[0] = lamp;
  const { recomputed: _, ...whole } = nightOf(job, { view: view.id });
  const { recomputed: __, ...parts } = changed;
  assert.deepEqual(parts, whole);
  assert.deepEqual(engine.takePicture().data, rgba);
  assert.throws(() => engine.call('night_changed', [JSON.stringify([['/luminaires/999', lamp]]), wish]), { code: 'not_found' });
  assert.throws(() => engine.call('night_changed', ['[]', wish]), { code: 'not_found', message: /whole/ });
});

test('a night lights the lamps of the job, and only the lamp that moved is computed anew', () => {
  const { job, view, width, height } = night();
  const first = nightOf(job, { view: view.id });
  assert.deepEqual([first.width_px, first.height_px], [width, height]);
  assert.equal(first.lamps.length, job.luminaires.length);
  assert.equal(first.recomputed.length, job.luminaires.length);
  assert.ok(first.lamps.some((lamp) => lamp.is_in_picture && lamp.share > 0));
  assert.ok(first.adaptation_cd_m2 > 0);
  assert.ok(first.lit_share > 0.2 && first.lit_share < 1);
  assert.ok(first.assumptions.length > 2);
  assert.deepEqual(nightOf(job, { view: view.id }).recomputed, []);
  job.luminaires[0].position[0] += 0.5;
  assert.deepEqual(nightOf(job, { view: view.id }).recomputed, [job.luminaires[0].id]);
});

test('a place of a night tells its light: nothing with all lamps off and no moon, the sum of its lamps else', () => {
  const { job, view } = night();
  const { lamps } = nightOf(job, { view: view.id, ambient_lx: 0 });
  const wall = view.calibration.wall.corners_px;
  const at = [0, 1].map((axis) => (wall.reduce((sum, corner) => sum + corner[axis], 0) / 4) * (320 / view.width_px));
  const lit = ask('night_probe', JSON.stringify(at));
  assert.ok(lit.lux > 0.01, JSON.stringify(lit));
  assert.ok(lit.reflectance > 0 && lit.reflectance < 1);
  assert.ok(Math.abs(lit.cd_m2 - (lit.lux * lit.reflectance) / Math.PI) < 0.02 * lit.cd_m2, 'L = E rho / pi');
  const named = lit.lamps.reduce((sum, { lux }) => sum + lux, 0);
  assert.ok(named <= lit.lux * 1.0001 && named > 0.6 * lit.lux);
  nightOf(job, { view: view.id, ambient_lx: 0, lamps: lamps.map(({ id }) => ({ id, share: 0 })) });
  assert.equal(ask('night_probe', JSON.stringify(at)).lux, 0);
  nightOf(job, { view: view.id, ambient_lx: 0, lamps: lamps.map(({ id }) => ({ id, share: 0.5 })) });
  const half = ask('night_probe', JSON.stringify(at)).lux;
  assert.ok(Math.abs(half - lit.lux / 2) < 1e-4 * lit.lux, `${half} is half of ${lit.lux}`);
});

test('what cannot be shown at night is refused', () => {
  const { job } = night();
  assert.throws(() => nightOf(job, { view: 'nowhere' }), { code: 'not_found', message: /nowhere/ });
  assert.throws(() => nightOf(job, { view: 1 }), { code: 'invalid' });
  nightOf(job, { view: job.views[0].id });
  for (const place of ['[1]', '"here"', '[-1, 4]', '[99999, 4]', '[null, 4]']) {
    assert.throws(() => ask('night_probe', place), { code: 'invalid' }, place);
  }
});

test('levels count light that bounced where that is asked for', () => {
  const straight = ask('levels', demo, '{"plan": false}');
  const bounced = ask('levels', demo, '{"plan": false, "bounce": true}');
  assert.equal(straight.bounce, undefined);
  assert.ok(bounced.bounce.sent_lm > 0 && bounced.bounce.patches > 0);
  const more = bounced.places.filter((place) => place.lit.bounced_lx > 0);
  assert.ok(more.length > 3);
  for (const [index, place] of bounced.places.entries()) {
    const before = straight.places.find(({ id }) => id === place.id);
    const straightLx = before?.lit.average_lx ?? place.lit.average_lx - place.lit.bounced_lx;
    assert.ok(Math.abs(straightLx + place.lit.bounced_lx - place.lit.average_lx) < 1e-3, `${index}: ${place.id}`);
  }
});
