// SPDX-License-Identifier: Apache-2.0
// How the state of a lamp is told: a shape and a word, and only then a colour. One table for plan, lists and legend.
import type { LampReport } from '../engine/report';

export type LampLook = 'good' | 'edge' | 'low' | 'high' | 'off' | 'unknown';

export interface LookOf {
  readonly word: string;
  /** What it means, for a legend. */
  readonly meaning: string;
  /** Path in a box of 12 by 12, centred on 6, 6. */
  readonly shape: string;
  readonly filled: boolean;
  readonly tone: 'ok' | 'warn' | 'bad' | 'ink-soft';
}

export const looks: Record<LampLook, LookOf> = {
  good: { word: 'in window', meaning: 'Inside its window in every case', shape: 'M6 1a5 5 0 1 0 0 10A5 5 0 0 0 6 1z', filled: true, tone: 'ok' },
  edge: { word: 'out at worst', meaning: 'Inside at nominal, outside in the worst case', shape: 'M6 0.5 11.5 6 6 11.5 0.5 6z', filled: false, tone: 'warn' },
  low: { word: 'too low', meaning: 'Below its window', shape: 'M0.8 1.5h10.4L6 11z', filled: true, tone: 'bad' },
  high: { word: 'too high', meaning: 'Above its window', shape: 'M0.8 10.5h10.4L6 1z', filled: true, tone: 'bad' },
  off: { word: 'dark', meaning: 'No supply, or below cut-off', shape: 'M1.5 1.5l9 9M10.5 1.5l-9 9', filled: false, tone: 'bad' },
  unknown: { word: 'not computed', meaning: 'No answer yet', shape: 'M6 1a5 5 0 1 0 0 10A5 5 0 0 0 6 1z', filled: false, tone: 'ink-soft' },
};

export function lookOf(lamp: LampReport | undefined): LampLook {
  if (!lamp) return 'unknown';
  if (lamp.state === 'off') return 'off';
  if (lamp.nominal_v > lamp.window_max_v) return 'high';
  if (lamp.nominal_v < lamp.window_min_v) return 'low';
  return lamp.worst_low_v < lamp.window_min_v || lamp.worst_high_v > lamp.window_max_v ? 'edge' : 'good';
}
