// SPDX-License-Identifier: Apache-2.0
// Whether keys of a single letter do something (WCAG 2.2, 2.1.4): some people speak to their computer, and each word
// would be a row of commands.
const key = 'duskwire-letter-keys';

function stored(): boolean {
  try {
    return localStorage.getItem(key) !== 'off';
  } catch {
    return true;
  }
}

let on = $state(stored());

export const letterKeys = (): boolean => on;

export function setLetterKeys(next: boolean): void {
  on = next;
  try {
    localStorage.setItem(key, next ? 'on' : 'off');
  } catch {
    // Lasts until the page is closed.
  }
}
