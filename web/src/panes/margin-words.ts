// SPDX-License-Identifier: Apache-2.0
// The margin to collapse in words, from the engine's two factors.
import type { MarginReport } from '../engine/report';

const factor = (value: number, beyondCap: boolean): string => `${value.toFixed(2)} times${beyondCap ? ' or more' : ''}`;

export function marginWords(margin: MarginReport, name: (id: string) => string): string {
  if (margin.load_factor === 0) {
    const lamp = margin.load_first_lamp === '' ? 'A lamp' : name(margin.load_first_lamp);
    return `No margin to collapse: ${lamp} has left its regulation already, and draws more current the lower its volts fall.`;
  }
  const lamp = margin.load_first_lamp === '' ? 'the first lamp' : name(margin.load_first_lamp);
  return `Margin to collapse: all loads may grow ${factor(margin.load_factor, margin.load_beyond_cap)}, or all lengths ${factor(margin.length_factor, margin.length_beyond_cap)}, before ${lamp} leaves its regulation.`;
}
