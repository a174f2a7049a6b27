// SPDX-License-Identifier: Apache-2.0
// Money: integers of minor units in documents, decimal amounts for people. Digits after the point by ISO 4217 (from
// memory), as in the engine's base/currency.hpp.

const none = new Set(['BIF', 'CLP', 'DJF', 'GNF', 'ISK', 'JPY', 'KMF', 'KRW', 'PYG', 'RWF', 'UGX', 'VND', 'XAF', 'XOF', 'XPF']);
const three = new Set(['BHD', 'IQD', 'JOD', 'KWD', 'LYD', 'OMR', 'TND']);

export const minorDigits = (currency: string): number => (none.has(currency) ? 0 : three.has(currency) ? 3 : 2);

/** "1265.30", without the currency's name. */
export function amountText(minor: number, currency: string): string {
  return (minor / 10 ** minorDigits(currency)).toFixed(minorDigits(currency));
}

/** "USD 1,265.30" */
export function moneyText(minor: number, currency: string): string {
  const digits = minorDigits(currency);
  const amount = (minor / 10 ** digits).toLocaleString(undefined, { minimumFractionDigits: digits, maximumFractionDigits: digits });
  return `${currency}\u00a0${amount}`;
}

/** "+USD 120.00", "−USD 120.00": a move up or down. */
export const moveText = (minor: number, currency: string): string => `${minor < 0 ? '−' : '+'}${moneyText(Math.abs(minor), currency)}`;

/** Minor units, or undefined where the text is no amount or has more digits than the currency. */
export function parseAmount(text: string, currency: string): number | undefined {
  const match = /^(\d+)(?:[.,](\d*))?$/.exec(text.trim().replace(/[\s'](?=\d{3})/g, ''));
  if (!match) return undefined;
  const digits = minorDigits(currency);
  const fraction = match[2] ?? '';
  if (fraction.length > digits) return undefined;
  const minor = Number(match[1]) * 10 ** digits + Number(fraction.padEnd(digits, '0') || 0);
  return Number.isSafeInteger(minor) ? minor : undefined;
}

/** The same, of either sign. */
export function parseSignedAmount(text: string, currency: string): number | undefined {
  const below = /^\s*[-−]/.test(text);
  const minor = parseAmount(below ? text.replace(/^\s*[-−]/, '') : text, currency);
  return below && minor !== undefined && minor !== 0 ? -minor : minor;
}
