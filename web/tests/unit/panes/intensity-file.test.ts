// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import type { PhotometryReport } from '../../../src/engine/photometry';
import type { LuminaireItem } from '../../../src/job/document';
import { intensityText, withIntensityFile, withoutIntensityFile } from '../../../src/panes/intensity-file';

const item: LuminaireItem = { id: 'b', kind: 'bullet', lamp: 'regulated_led', power_w: 6, power_va: 8, window_min_v: 9, window_max_v: 15, v_regulation_min: 9, flux_lm: 450, beam_deg: 36 };
const light = { flux_lm: 512.3456, peak_cd: 1000, peak_c_deg: 0, peak_gamma_deg: 0, down_pct: 100, up_pct: 0, bug: { backlight: 0, uplight: 0, glare: 0, limits: [] }, curves: [] };
const report = (beams: readonly (number | undefined)[]): PhotometryReport => ({
  source: 'LM-63-2002', power_w: 6, light: { ...light, beams: beams.map((beam_deg, i) => ({ c_deg: 90 * i, ...(beam_deg === undefined ? {} : { beam_deg }) })) },
});

describe('intensity file', () => {
  it('is read as UTF-8 and else as Latin-1', () => {
    expect(intensityText(new TextEncoder().encode('grün'))).toBe('grün');
    expect(intensityText(new Uint8Array([0x67, 0x72, 0xfc, 0x6e]))).toBe('grün');
  });

  it('brings its lumens and its wider beam along', () => {
    const next = withIntensityFile(item, 'IESNA91', report([24.04, 60.123]));
    expect(next).toMatchObject({ intensity_file: 'IESNA91', flux_lm: 512.3, beam_deg: 60.12 });
    expect(withIntensityFile(item, 'x', report([undefined, 20])).beam_deg).toBe(360);
  });

  it('leaves no trace when it is taken out', () => {
    expect(withoutIntensityFile({ ...item, intensity_file: 'x' })).toEqual(item);
  });
});
