// SPDX-License-Identifier: Apache-2.0
// Random ids: two people who work on copies of one job must never hand out the same one. Without
// crypto.randomUUID(), which pages from a bare network address do not have.

// 32 characters: digits and letters without i, l, o (mistaken for digits) and u.
const alphabet = '0123456789abcdefghjkmnpqrstvwxyz';

/** `prefix-` and `length` characters of 5 bits each. */
export function randomId(prefix: string, length = 10): string {
  const bytes = crypto.getRandomValues(new Uint8Array(length));
  let text = '';
  for (const byte of bytes) text += alphabet[byte & 31];
  return `${prefix}-${text}`;
}

/** The first of "Light 1", "Light 2", ... that is not taken yet. */
export function nextName(stem: string, taken: Iterable<string | undefined>): string {
  const names = new Set(taken);
  let number = 1;
  while (names.has(`${stem} ${number}`)) number += 1;
  return `${stem} ${number}`;
}
