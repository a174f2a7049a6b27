// SPDX-License-Identifier: Apache-2.0
// Lists to choose from in several views.

/** Common currencies (ISO 4217). A job from elsewhere may have any other. */
export const currencies = ['USD', 'CAD', 'EUR', 'GBP', 'AUD', 'NZD', 'CHF', 'SEK', 'NOK', 'DKK', 'ZAR', 'MXN', 'JPY'].map(
  (code) => ({ value: code, label: code }),
);
