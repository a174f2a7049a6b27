// SPDX-License-Identifier: Apache-2.0
// The numbers of an offer as fields: where they lie, what they are called, their range as in docs/job-format.md.
import type { JobDocument } from '../job/document';
import type { Quantity } from '../units/quantity';

export interface OfferField {
  readonly part: 'rates' | 'margins' | 'terms';
  readonly key: string;
  readonly label: string;
  /** Money where absent. */
  readonly quantity?: Quantity;
  readonly min?: number;
  readonly max?: number;
  readonly help?: string;
}

const money = (part: OfferField['part'], key: string, label: string, help?: string): OfferField => ({ part, key, label, ...(help && { help }) });
const number = (part: OfferField['part'], key: string, label: string, quantity: Quantity, min: number, max: number, help?: string): OfferField => ({
  part, key, label, quantity, min, max, ...(help && { help }),
});

export const rateFields: readonly OfferField[] = [
  money('rates', 'labour_price_minor_per_h', 'An hour, price'),
  money('rates', 'labour_cost_minor_per_h', 'An hour, cost to us'),
  money('rates', 'trip_price_minor', 'A trip, price', 'Beside the time on the road'),
  money('rates', 'trip_cost_minor', 'A trip, cost to us'),
  money('rates', 'sundries_cost_minor', 'Small goods, a lump', 'Cost to us'),
  number('rates', 'crew_size', 'Crew', 'count', 1, 100, 'People who drive out together'),
  number('rates', 'trips', 'Trips', 'count', 0, 1000, 'Empty: counted from the hours'),
  number('rates', 'trip_h', 'On the road', 'duration_h', 0, 24, 'There and back, each person'),
  number('rates', 'work_day_h', 'A day on site', 'duration_h', 0.25, 24),
  number('rates', 'night_visit_h', 'Night visit', 'duration_h', 0, 24, 'Each person'),
  number('rates', 'night_visit_people', 'People at the night visit', 'count', 0, 100),
  number('rates', 'commissioning_min_per_lamp', 'Commissioning a light', 'duration_min', 0, 1000),
  number('rates', 'commissioning_min_per_output', 'Commissioning an output', 'duration_min', 0, 1000),
];

export const marginFields: readonly OfferField[] = [
  number('margins', 'material_markup_pct', 'Mark-up on material', 'percent', 0, 1000),
  number('margins', 'overhead_pct', 'Overhead', 'percent', 0, 1000, 'On cost: lowers the margin, not the price'),
  number('margins', 'margin_floor_pct', 'Margin floor', 'percent', 0, 100, 'Below it the price warns'),
  number('margins', 'contingency_pct', 'Contingency', 'percent', 0, 1000, 'Empty: by the soil of the site'),
  number('margins', 'tax_pct', 'Tax', 'percent', 0, 1000),
];

export const termFields: readonly OfferField[] = [
  number('terms', 'deposit_pct', 'Deposit asked', 'percent', 0, 100),
  money('terms', 'deposit_cap_minor', 'Deposit at most'),
  number('terms', 'valid_days', 'The offer stands', 'days', 0, 3650),
];

export function valueOf(job: JobDocument, { part, key }: OfferField): number | undefined {
  const value = (job.offer?.[part] as Readonly<Record<string, unknown>> | undefined)?.[key];
  return typeof value === 'number' ? value : undefined;
}
