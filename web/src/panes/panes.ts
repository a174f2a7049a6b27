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
import ProfilePane from './ProfilePane.svelte';
import PropertiesPane from './PropertiesPane.svelte';
import SitePane from './SitePane.svelte';

export type PaneId = 'site' | 'objects' | 'layers' | 'properties' | 'findings' | 'levels' | 'choosing' | 'lamps' | 'outputs' | 'profile' | 'materials';
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
  { id: 'lamps', title: 'Lamps', dock: 'bottom', icon: 'lamp', component: LampsPane },
  { id: 'outputs', title: 'Outputs', dock: 'bottom', icon: 'transformer', component: OutputsPane },
  { id: 'profile', title: 'Volts along the run', dock: 'bottom', icon: 'cable', component: ProfilePane },
  { id: 'materials', title: 'Materials', dock: 'bottom', icon: 'table', component: MaterialsPane },
];

export const docks: readonly Dock[] = ['left', 'right', 'bottom'];

/** The stages of the work on the page, in the order of the trade. */
export const stages = [
  { id: 'site', title: 'Site', hint: 'Measure and draw what is there', left: 'site', right: 'properties', bottom: undefined },
  { id: 'placement', title: 'Placement', hint: 'Set and aim the lights', left: 'objects', right: 'properties', bottom: 'lamps' },
  { id: 'wiring', title: 'Wiring', hint: 'Lay cables and joints', left: 'objects', right: 'properties', bottom: 'profile' },
  { id: 'supply', title: 'Transformers', hint: 'Size them, choose taps', left: 'objects', right: 'properties', bottom: 'outputs' },
  { id: 'check', title: 'Check', hint: 'Every lamp in its window, in every case', left: 'objects', right: 'findings', bottom: 'lamps' },
  { id: 'materials', title: 'Materials', hint: 'What to buy, cut and splice', left: 'objects', right: 'properties', bottom: 'materials' },
] as const satisfies readonly (Record<Dock, PaneId | undefined> & { id: string; title: string; hint: string })[];

export type StageId = (typeof stages)[number]['id'];

export const stageOf = (id: string | undefined): (typeof stages)[number] =>
  stages.find((stage) => stage.id === id) ?? stages[1];
