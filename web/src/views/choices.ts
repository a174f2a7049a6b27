// SPDX-License-Identifier: Apache-2.0
// Lists to choose from in several views.
import type { Engine } from '../engine/client';

/** Common currencies (ISO 4217). A job from elsewhere may have any other. */
export const currencies = ['USD', 'CAD', 'EUR', 'GBP', 'AUD', 'NZD', 'CHF', 'SEK', 'NOK', 'DKK', 'ZAR', 'MXN', 'JPY'].map(
  (code) => ({ value: code, label: code }),
);

/** The engine's rulesets; none where it cannot be asked, and the field then keeps what it has. */
export async function rulesetChoices(engine: Engine): Promise<readonly { readonly value: string; readonly label: string }[]> {
  try {
    return (await engine.rulesets()).map(({ id, title }) => ({ value: id, label: title }));
  } catch {
    return [];
  }
}
