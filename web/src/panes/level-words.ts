// SPDX-License-Identifier: Apache-2.0
// Levels of light in words, for the pane: what kind of place, how it stands against its target, who sees which lamp.
import type { BrightnessRow, Levels, LevelVerdict, LitPlace, LuxFigures, PlaceLevels, SightLine } from '../engine/levels';
import type { JobDocument } from '../job/document';
import { displayUnit, quantityText, type UnitSystem } from '../units/quantity';

export const placeNames: Readonly<Record<LitPlace, string>> = {
  path: 'Path', steps: 'Steps', drive: 'Drive', terrace: 'Terrace', bed: 'Bed', background: 'Background', facade: 'Face of the house',
  tree: 'Tree', ground: 'Ground', property_line: 'Property line', window: 'Window', lamp: 'Lamp',
};

export const roleNames: Readonly<Record<BrightnessRow['role'], string>> = { focal: 'Focal point', support: 'Support', background: 'Background', dark: 'Dark' };

const decimalsOf = (shown: number): number => (shown >= 10 ? 0 : shown >= 1 ? 1 : 2);

/** Lux, as every source of targets has it, with the figures that count; foot-candles beside it in US units. */
export function luxText(lx: number, units: UnitSystem): string {
  const text = quantityText(lx, 'illuminance', 'metric', decimalsOf(lx));
  return units === 'us' ? `${text} (${quantityText(lx, 'illuminance', 'us', decimalsOf(displayUnit('illuminance', 'us').fromSi(lx)))})` : text;
}

export interface Standing {
  readonly good: boolean | undefined;
  readonly words: string;
}

/** Against the chosen target; undefined where nothing is asked of such a place. */
export function standingOf({ verdicts }: PlaceLevels): Standing {
  const asked = (verdicts ?? []).filter(({ in_force }) => in_force);
  if (asked.length === 0) return { good: undefined, words: 'nothing is asked' };
  const missed = asked.filter(({ met }) => !met);
  return missed.length === 0 ? { good: true, words: `meets ${asked[0]!.asked}` } : { good: false, words: `misses ${missed[0]!.missed ?? missed[0]!.asked}` };
}

/** What other sources say of the same place: where they agree with the chosen one they are not repeated. */
export const otherVerdicts = ({ verdicts }: PlaceLevels): readonly LevelVerdict[] => (verdicts ?? []).filter(({ in_force }) => !in_force);

export const figuresWords = ({ average_lx, minimum_lx, uniformity }: LuxFigures, units: UnitSystem): string =>
  `${luxText(average_lx, units)} on average, ${luxText(minimum_lx, units)} at least, uniformity ${uniformity.toFixed(2)}`;

/** Sight lines that somebody should look at, of one view point after the other. */
export function sightsByEye(levels: Levels, job: JobDocument): readonly { readonly eye: string; readonly name: string; readonly seen: readonly SightLine[]; readonly hidden: number }[] {
  const eyes = job.plan?.view_points ?? [];
  return eyes.map(({ id, name }) => {
    const lines = levels.sights.filter(({ view_point }) => view_point === id);
    const seen = lines.filter(({ state }) => state === 'visible' || state === 'accepted').sort((a, b) => b.intensity_cd - a.intensity_cd);
    return { eye: id, name: name || id, seen, hidden: lines.length - seen.length };
  });
}

export const stateNames: Readonly<Record<SightLine['state'], string>> = {
  visible: 'lamp visible', shielded: 'shielded', turned_away: 'turned away', blocked: 'hidden', accepted: 'visible, accepted',
};
