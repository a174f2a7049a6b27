// SPDX-License-Identifier: Apache-2.0
// Routing by the fragment, so that the page works from any folder of any host: #/ the jobs, #/job/ID/PANE a job,
// its print preview, the planning of its wiring or its photographs, #/catalogue, #/settings.

export type Route =
  | { readonly view: 'jobs' }
  | { readonly view: 'job'; readonly id: string; readonly pane: string | undefined }
  | { readonly view: 'catalogue' }
  | { readonly view: 'settings' };

/** In the place of a stage: the print preview, and over the stage they were opened from the planning of the wiring and
 *  the photographs. */
export const printPane = 'print';
export const planningPane = 'planning';
export const photoPane = 'photograph';

export function parseRoute(fragment: string): Route {
  const [view, id, pane] = fragment.replace(/^#?\/?/, '').split('/').map(decodePart);
  if (view === 'job' && id) return { view, id, pane: pane || undefined };
  if (view === 'catalogue' || view === 'settings') return { view };
  return { view: 'jobs' };
}

export function addressOf(route: Route): string {
  if (route.view === 'jobs') return '#/';
  if (route.view !== 'job') return `#/${route.view}`;
  const pane = route.pane === undefined ? '' : `/${encodeURIComponent(route.pane)}`;
  return `#/job/${encodeURIComponent(route.id)}${pane}`;
}

function decodePart(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

let current = $state.raw<Route>(parseRoute(globalThis.location?.hash ?? ''));
globalThis.addEventListener?.('hashchange', () => (current = parseRoute(location.hash)));

export const route = (): Route => current;

export function go(to: Route, how: 'push' | 'replace' = 'push'): void {
  if (how === 'push') location.hash = addressOf(to);
  else {
    history.replaceState(null, '', addressOf(to));
    current = to;
  }
}
