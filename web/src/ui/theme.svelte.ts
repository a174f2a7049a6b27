// SPDX-License-Identifier: Apache-2.0
// Which theme is on: the system's choice, or one that the person picked on this device.

export const themes = ['system', 'day', 'dusk', 'red', 'sun'] as const;
export type Theme = (typeof themes)[number];

export const themeNames: Record<Theme, string> = {
  system: 'As the device',
  day: 'Day',
  dusk: 'Dusk (dim, for work at night)',
  red: 'Red light (keeps eyes used to the dark)',
  sun: 'Full sun (black on white, heavy)',
};

const key = 'duskwire-theme';

function stored(): Theme {
  try {
    const value = localStorage.getItem(key);
    return themes.find((theme) => theme === value) ?? 'system';
  } catch {
    return 'system'; // storage closed by the person's settings
  }
}

let current = $state<Theme>(stored());

export const theme = (): Theme => current;

export function applyTheme(next: Theme = current): void {
  current = next;
  if (next === 'system') delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = next;
  try {
    localStorage.setItem(key, next);
  } catch {
    // The choice lasts until the page is closed.
  }
}

// Chosen in one tab, it holds in the others.
globalThis.addEventListener?.('storage', (event) => {
  const changed = (event as StorageEvent).key; // null: all of the storage was cleared
  if (changed === key || changed === null) applyTheme(stored());
});

// Paper is white whatever the screen is.
globalThis.addEventListener?.('beforeprint', () => (document.documentElement.dataset.theme = 'day'));
globalThis.addEventListener?.('afterprint', () => applyTheme());
