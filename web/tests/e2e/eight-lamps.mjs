// SPDX-License-Identifier: Apache-2.0
// An invented run: 18 m of 12 AWG to F1, then steps of 4.5 m to F8, eight lamps of 4 VA that hold their current below
// 10 V, each beside a buried joint; joints 1 to 4 in a bed, the others in lawn; tapes from two fixed points. The states
// of tests/reference/reference_run.csv are of this run.
import { twoSplices } from './two-splices.mjs';

export function eightLamps({ loop = false } = {}) {
  const job = twoSplices();
  const four = { ...job.catalogue.luminaires[0], id: 'four', title: 'Light of 4 VA', power_w: 4, power_va: 4, v_regulation_min: 10 };
  const numbers = [1, 2, 3, 4, 5, 6, 7, 8];
  const at = (k) => [18 + 4.5 * (k - 1), 8];
  const cable = (id, from, to, length_m) => ({ id, item: '12awg', from, to, length_m, depth_m: 0.2 });
  return {
    ...job, id: 'eight-lamps', title: 'Eight lamps',
    catalogue: { ...job.catalogue, luminaires: [four] },
    plan: {
      fixed_points: [{ id: 'P1', name: 'house corner', position: [0, 0] }, { id: 'P2', name: 'gate post', position: [20, 0] }],
      areas: [{ id: 'bed', kind: 'bed', outline: [[0, 7], [33, 7], [33, 9], [0, 9]] }, { id: 'lawn', kind: 'lawn', outline: [[33, 7], [60, 7], [60, 9], [33, 9]] }],
    },
    luminaires: numbers.map((k) => ({ id: `F${k}`, item: 'four', joint: `J${k}`, lead_length_m: 0, position: [at(k)[0], 8.4, 0.2] })),
    transformers: [{ ...job.transformers[0], position: [2, 2] }],
    cables: [
      ...numbers.map((k) => cable(`C${k}`, k === 1 ? 'T-A' : `J${k - 1}`, `J${k}`, k === 1 ? 18 : 4.5)),
      ...(loop ? [cable('C9', 'J8', 'T-A', 18)] : []),
    ],
    joints: numbers.map((k) => ({
      id: `J${k}`, kind: 'in_line', connector: 'hub', position: at(k),
      as_built: { fixed_point_1: 'P1', fixed_point_2: 'P2', offset_1_m: 10 + k, offset_2_m: 7 + k, depth_m: 0.15, pictures: [], done: true },
    })),
  };
}
