// SPDX-License-Identifier: Apache-2.0
// Whether the screen is too narrow for panes beside the plan.
import { MediaQuery } from 'svelte/reactivity';

const query = new MediaQuery('max-width: 899px');

export const narrow = (): boolean => query.current;
