// SPDX-License-Identifier: Apache-2.0
// An invented site: transformer, 30 m of 12 AWG to splice S1, 15 m more to S2; F1 to F4 6 VA on 8 m leads at S1, F5 to F7
// 3 VA on 5 m leads and F8 9 VA on a 10 m lead at S2; leads 14 AWG; mains 5 % up and down, nothing else varies.
const light = (id, power_va) => ({
  id, title: `Light of ${power_va} VA`, kind: 'bullet', lamp: 'regulated_led', power_w: power_va, power_va, window_min_v: 10, window_max_v: 15,
  v_regulation_min: 9, v_cut_off: 7, lead_area_mm2: 2.0809,
});
const lamp = (id, item, joint, lead_length_m) => ({ id, item, lead_length_m, ...(joint && { joint }) });

export function twoSplices({ tap_v = 13, sourceOhm = 0 } = {}) {
  return {
    format: 'duskwire-job', version: 1, id: 'two-splices', title: 'Two splices', created: '2026-03-02',
    site: {
      mains_v: 120, mains_hz: 60, ruleset: 'us', units: 'metric', currency: 'USD',
      corners: { mains_tolerance_pct: 5, cable_nominal_c: 20, cable_cold_c: 20, cable_hot_c: 20, length_tolerance_pct: 0, few_lamps: false },
    },
    practice: { slack_at_luminaire_m: 0, slack_at_splice_m: 0, slack_at_transformer_m: 0 },
    catalogue: {
      currency: 'USD',
      luminaires: [light('uplight', 6), light('path', 3), light('wash', 9), light('smaller', 4)],
      transformers: [{ id: 'unit', title: 'Transformer of 300 VA', rating_va: 300, output_count: 1, output_limit_a: 25, taps_v: [12, 13, 14, 15], r_own_ohm: sourceOhm, r_shared_ohm: 0 }],
      cables: [{ id: '12awg', title: 'Cable 12 AWG', area_mm2: 3.3088, gauge_awg: 12, ohm_per_m_20c: 0.005211, direct_burial: true }],
      connectors: [{ id: 'hub', title: 'Hub', sealed: true, mechanically_held: true, contact_ohm: 0, fills: [{ area_min_mm2: 0.5, area_max_mm2: 6, count_min: 1, count_max: 10 }] }],
    },
    luminaires: [
      ...['F1', 'F2', 'F3', 'F4'].map((id) => lamp(id, 'uplight', 'S1', 8)), ...['F5', 'F6', 'F7'].map((id) => lamp(id, 'path', 'S2', 5)), lamp('F8', 'wash', 'S2', 10),
    ],
    transformers: [{ id: 'T', item: 'unit', outputs: [{ id: 'T-A', tap_v }] }],
    cables: [{ id: 'C1', item: '12awg', from: 'T-A', to: 'S1', length_m: 30, depth_m: 0.2 }, { id: 'C2', item: '12awg', from: 'S1', to: 'S2', length_m: 15, depth_m: 0.2 }],
    joints: ['S1', 'S2'].map((id) => ({ id, kind: 'hub', connector: 'hub' })),
  };
}

/** One lamp at the end of a single run, behind a source of 0.03 ohm; nothing varies. */
export function singleRun(length_m) {
  const job = twoSplices({ sourceOhm: 0.03 });
  return { ...job, title: 'One run', site: { ...job.site, corners: { ...job.site.corners, mains_tolerance_pct: 0 } }, luminaires: [lamp('F1', 'uplight', 'S1', 0)], cables: [{ ...job.cables[0], length_m }], joints: [job.joints[0]] };
}

/** 52 lamps of 266 W and power factor 0.70, half of them on each output, close to the transformer; units to choose from. */
export function manyOfLowPowerFactor() {
  const job = twoSplices();
  const fixture = { ...light('fixture', 266 / 0.7 / 52), power_w: 266 / 52 };
  const unit = (id, rating_va) => ({ ...job.catalogue.transformers[0], id, title: `Transformer of ${rating_va} VA`, rating_va, output_count: 2 });
  const thick = { ...job.catalogue.cables[0], id: '8awg', title: 'Cable 8 AWG', area_mm2: 8.367, gauge_awg: 8, ohm_per_m_20c: 0.00206 };
  const roomy = { ...job.catalogue.connectors[0], fills: [{ area_min_mm2: 0.5, area_max_mm2: 10, count_min: 1, count_max: 40 }] };
  const sides = ['A', 'B'];
  return {
    ...job,
    title: 'Many lamps of low power factor',
    site: { ...job.site, corners: { ...job.site.corners, mains_tolerance_pct: 0 } },
    catalogue: { ...job.catalogue, luminaires: [fixture], transformers: [unit('unit-300', 300), unit('unit-600', 600)], cables: [thick], connectors: [roomy] },
    luminaires: Array.from({ length: 52 }, (_, i) => lamp(`F${i + 1}`, 'fixture', `S-${sides[i % 2]}`, 1)),
    transformers: [{ id: 'T', item: 'unit-300', outputs: sides.map((side) => ({ id: `T-${side}`, tap_v: 13 })) }],
    cables: sides.map((side) => ({ id: `C-${side}`, item: '8awg', from: `T-${side}`, to: `S-${side}`, length_m: 2, depth_m: 0.2 })),
    joints: sides.map((side) => ({ id: `S-${side}`, kind: 'hub', connector: 'hub' })),
  };
}
