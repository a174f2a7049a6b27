// SPDX-License-Identifier: Apache-2.0
// Short messages about something that just happened. Each is also read out (Toasts.svelte is a live region).

import { untrack } from 'svelte';

export interface Toast {
  readonly number: number;
  readonly text: string;
  readonly kind: 'done' | 'offer' | 'trouble';
  readonly action: { readonly label: string; readonly run: () => void } | undefined;
}

const stay = 6000;
// Where something may be done about it: it has to be read, decided and reached.
const stayToAct = 12_000;
let number = 0;
let shown = $state.raw<readonly Toast[]>([]);

export const toasts = (): readonly Toast[] => shown;

export function say(text: string, action?: Toast['action'], kind: Toast['kind'] = 'done'): void {
  const toast: Toast = { number: ++number, text, kind, action };
  // Who says something out of an effect does not wait for what is shown.
  shown = [...untrack(() => shown).slice(-2), toast];
  // Trouble and offers stay until they are put away.
  if (kind === 'done') setTimeout(() => dismiss(toast), action ? stayToAct : stay);
}

export const sayTrouble = (text: string, action?: Toast['action']): void => say(text, action, 'trouble');

export function dismiss(toast: Toast): void {
  shown = shown.filter((other) => other.number !== toast.number);
}
