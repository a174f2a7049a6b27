// SPDX-License-Identifier: Apache-2.0
// Which panes a job has, where they dock, and which of them a stage of the work brings forward.
import type { Component } from 'svelte';
import type { JobSession } from '../session/job-session.svelte';
import type { IconName } from '../ui/icons';
import ChoosingPane from './ChoosingPane.svelte';
import FindingsPane from './FindingsPane.svelte';
import LayersPane from './LayersPane.svelte';
import LampsPane from './LampsPane.svelte';
import LevelsPane from './LevelsPane.svelte';
import MaterialsPane from './MaterialsPane.svelte';
import ObjectsPane from './ObjectsPane.svelte';
import OutputsPane from './OutputsPane.svelte';
import PricePane from './PricePane.svelte';
import ProfilePane from './ProfilePane.svelte';
import PropertiesPane from './PropertiesPane.svelte';
import SitePane from './SitePane.svelte';

export type PaneId = 'site' | 'objects' | 'layers' | 'properties' | 'findings' | 'levels' | 'choosing' | 'lamps' | 'outputs' | 'profile' | 'materials' | 'price';
export type Dock = 'left' | 'right' | 'bottom';

export interface Pane {
  readonly id: PaneId;
  readonly title: string;
  readonly dock: Dock;
  readonly icon: IconName;
  readonly component: Component<{ session: JobSession }>;
}

export const panes: readonly Pane[] = [
  { id: 'site', title: 'Site', dock: 'left', icon: 'file', component: SitePane },
  { id: 'objects', title: 'Objects', dock: 'left', icon: 'layers', component: ObjectsPane },
  { id: 'layers', title: 'Layers', dock: 'left', icon: 'table', component: LayersPane },
  { id: 'properties', title: 'Properties', dock: 'right', icon: 'settings', component: PropertiesPane },
  { id: 'findings', title: 'Findings', dock: 'right', icon: 'warning', component: FindingsPane },
  { id: 'levels', title: 'Levels', dock: 'right', icon: 'locate', component: LevelsPane },
  { id: 'choosing', title: 'Choose lamps', dock: 'right', icon: 'search', component: ChoosingPane },
  { id: 'price', title: 'Price', dock: 'right', icon: 'price', component: PricePane },
  { id: 'lamps', title: 'Lamps', dock: 'bottom', icon: 'lamp', component: LampsPane },
  { id: 'outputs', title: 'Outputs', dock: 'bottom', icon: 'transformer', component: OutputsPane },
  { id: 'profile', title: 'Volts along the run', dock: 'bottom', icon: 'cable', component: ProfilePane },
  { id: 'materials', title: 'Materials', dock: 'bottom', icon: 'table', component: MaterialsPane },
];

export const docks: readonly Dock[] = ['left', 'right', 'bottom'];

/** What fills the middle of a stage: the plan with its panes, or a view that takes their place. */
export type StageMain = 'plan' | 'offer' | 'clock' | 'papers' | 'visit';

/** The stages of the work on the page, in the order of the trade. */
export const stages = [
  { id: 'site', title: 'Site', hint: 'Measure and draw what is there', main: 'plan', left: 'site', right: 'properties', bottom: undefined },
  { id: 'placement', title: 'Placement', hint: 'Set and aim the lights', main: 'plan', left: 'objects', right: 'properties', bottom: 'lamps' },
  { id: 'wiring', title: 'Wiring', hint: 'Lay cables and joints', main: 'plan', left: 'objects', right: 'properties', bottom: 'profile' },
  { id: 'supply', title: 'Transformers', hint: 'Size them, choose taps', main: 'plan', left: 'objects', right: 'properties', bottom: 'outputs' },
  { id: 'check', title: 'Check', hint: 'Every lamp in its window, in every case', main: 'plan', left: 'objects', right: 'findings', bottom: 'lamps' },
  { id: 'materials', title: 'Materials', hint: 'What to buy, cut and splice', main: 'plan', left: 'objects', right: 'price', bottom: 'materials' },
  { id: 'price', title: 'Price', hint: 'Rates, terms and options, and what they make', main: 'offer', left: 'objects', right: 'price', bottom: undefined },
  { id: 'clock', title: 'Clock', hint: 'When the lights go on and off', main: 'clock', left: 'objects', right: 'properties', bottom: undefined },
  { id: 'papers', title: 'Papers', hint: 'What the client, the crew and the owner get', main: 'papers', left: 'objects', right: 'properties', bottom: undefined },
  { id: 'visit', title: 'Visits', hint: 'Read on site, find the fault, record what lies in the ground', main: 'visit', left: 'objects', right: 'properties', bottom: undefined },
] as const satisfies readonly (Record<Dock, PaneId | undefined> & { id: string; title: string; hint: string; main: StageMain })[];

export type StageId = (typeof stages)[number]['id'];

export const stageOf = (id: string | undefined): (typeof stages)[number] =>
  stages.find((stage) => stage.id === id) ?? stages[1];
