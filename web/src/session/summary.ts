// SPDX-License-Identifier: Apache-2.0
// The health line of a job: worst lamp, load, findings, out of the engine's report.
import type { LampReport, Report } from '../engine/report';
import type { Summary } from '../storage/workspace';

/** Volts left to the nearer end of the lamp's window in the worst corner; negative outside. */
export const roomOf = (lamp: LampReport): number =>
  Math.min(lamp.worst_low_v - lamp.window_min_v, lamp.window_max_v - lamp.worst_high_v);

export function worstLamp(report: Report): LampReport | undefined {
  return report.lamps.reduce<LampReport | undefined>(
    (worst, lamp) => (worst === undefined || roomOf(lamp) < roomOf(worst) ? lamp : worst),
    undefined,
  );
}

export function summaryOf(report: Report): Summary {
  const worst = worstLamp(report);
  const count = (severity: string): number => report.findings.filter((finding) => finding.severity === severity).length;
  const sum = (pick: (transformer: Report['transformers'][number]) => number): number =>
    report.transformers.reduce((total, transformer) => total + pick(transformer), 0);
  const lowIsNearer = worst !== undefined && worst.worst_low_v - worst.window_min_v <= worst.window_max_v - worst.worst_high_v;
  return {
    lamp_count: report.lamps.length,
    ...(worst && { worst_lamp: worst.id, worst_lamp_v: lowIsNearer ? worst.worst_low_v : worst.worst_high_v }),
    load_va: sum(({ worst_load_va }) => worst_load_va),
    rating_va: sum(({ rating_va }) => rating_va),
    error_count: count('error'),
    warning_count: count('warning'),
  };
}
