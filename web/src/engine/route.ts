// SPDX-License-Identifier: Apache-2.0
// Planning the wiring: what the engine is asked, what it says on the way, and what it answers. SI numbers, money in
// minor units; a number that could not be computed is null in the text and is shown as a dash.
import type { JobDocument } from '../job/document';

/** What the contractor holds fast; ids of the job. */
export interface RoutePins {
  /** Stay as they are: ends, article, way. */
  readonly kept_cables: readonly string[];
  /** Along these cables' ways nothing is dug. */
  readonly forbidden_trenches: readonly string[];
  /** Luminaires that get an output each. */
  readonly own_outputs: readonly string[];
  /** Article and place stay. */
  readonly kept_transformers: readonly string[];
}

export interface RouteRequest {
  readonly pins?: Partial<RoutePins>;
  readonly no_hub?: boolean;
  readonly splice_every_lead?: boolean;
  /** All loads grow by so much. */
  readonly reserve_pct?: number;
  /** 0: as many as pay. */
  readonly most_cable_types?: number;
  readonly seed?: number;
  /** 0: until told to stop. */
  readonly most_steps?: number;
  readonly rates?: { readonly labour_minor_per_h: number };
}

export interface RouteProgress {
  readonly steps: number;
  /** The best so far by the search's own account; 0: none yet. */
  readonly cost_minor: number;
  readonly first_minor: number;
  readonly trench_m: number;
  readonly cable_m: number;
  readonly joints: number;
  readonly lamps_placed: number;
  readonly lamps: number;
  /** Whether searching on can bring anything. */
  readonly more: boolean;
}

export interface InstalledCost {
  readonly cost_minor: number;
  readonly material_minor: number;
  readonly labour_min: number;
  readonly trench_min: number;
  readonly trench_m: number;
  readonly cable_m: number;
  readonly joints: number;
  readonly cable_types: number;
}

/** The size of a wiring and how sound it is, by the full check in every corner. */
export interface RouteFigures {
  readonly cost: InstalledCost;
  readonly lowest_v: number;
  readonly lowest_lamp: string;
  /** To the nearer edge of its window; negative: outside. */
  readonly least_room_v: number;
  readonly least_room_lamp: string;
  /** Factor by which all loads may grow. */
  readonly load_margin: number;
  readonly load_va: number;
  readonly rating_va: number;
  readonly transformers: number;
  readonly outputs: number;
  readonly errors: number;
  /** Every lamp is fed. */
  readonly wired: boolean;
  readonly sound: boolean;
}

export type Topology = 'single' | 'chain' | 'tee' | 'hub' | 'mixed';

/** What hangs on one cable out of an output. */
export interface RouteRun {
  /** The first cable, at the output. */
  readonly cable: string;
  readonly output: string;
  readonly tap_v: number;
  readonly topology: Topology;
  readonly lamps: readonly string[];
  readonly load_va: number;
  readonly cable_m: number;
  /** Thickest first. */
  readonly cable_items: readonly string[];
  /** Why it is so, and what the next cheaper choice would break. */
  readonly sentence: string;
}

/** What stands in the way of a sound wiring. */
export interface RouteObstacle {
  /** Id in the job, or empty. */
  readonly subject: string;
  readonly message: string;
  readonly cure: string;
}

export interface RouteAnswer {
  /** Null where nothing sound was found. */
  readonly job: JobDocument | null;
  readonly today: RouteFigures;
  readonly planned: RouteFigures;
  /** Ids of sleeves that the plan adds. */
  readonly sleeves_to_lay: readonly string[];
  /** No wiring on the same ways costs less; 0: not known. */
  readonly bound_minor: number;
  readonly runs: readonly RouteRun[];
  readonly obstacles: readonly RouteObstacle[];
  readonly steps: number;
}
