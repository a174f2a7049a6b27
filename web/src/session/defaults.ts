// SPDX-License-Identifier: Apache-2.0
// What a new job begins with: as the last one on this device, at first as the device's region suggests.
import type { NewJob } from '../job/blank';

export type Defaults = Pick<NewJob, 'units' | 'ruleset' | 'currency' | 'timeZone'>;

const key = 'duskwire-new-job';

export function defaults(): Defaults {
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
  return { ...suggestedFor(navigator.language), timeZone, ...remembered() };
}

/** Regions that measure gardens in feet; mains and code decide the ruleset. A suggestion, to be changed. */
export function suggestedFor(language: string): Omit<Defaults, 'timeZone'> {
  const region = new Intl.Locale(language).maximize().region;
  if (region === 'US') return { units: 'us', ruleset: 'us', currency: 'USD' };
  if (region === 'CA') return { units: 'metric', ruleset: 'ca', currency: 'CAD' };
  const currency = region === 'GB' ? 'GBP' : region === 'AU' ? 'AUD' : region === 'NZ' ? 'NZD' : region === 'CH' ? 'CHF' : 'EUR';
  return { units: 'metric', ruleset: 'iec', currency };
}

export function rememberDefaults(chosen: Defaults): void {
  try {
    localStorage.setItem(key, JSON.stringify(chosen));
  } catch {
    // Asked anew next time.
  }
}

function remembered(): Partial<Defaults> {
  try {
    const { units, ruleset, currency } = JSON.parse(localStorage.getItem(key) ?? '{}') as Partial<Defaults>;
    return { ...(units && { units }), ...(ruleset && { ruleset }), ...(currency && { currency }) };
  } catch {
    return {};
  }
}
