// SPDX-License-Identifier: Apache-2.0
// How much light falls where, as `duskwire levels JOB --json` prints it (docs/results.md says what each number means).
import type { Point2, Point3, Polyline } from '../job/document';
import type { Finding, Provenance } from './report';

export interface LuxFigures {
  readonly average_lx: number;
  readonly minimum_lx: number;
  readonly maximum_lx: number;
  /** Minimum over average. */
  readonly uniformity: number;
  /** Of the average, what bounced once; 0 where that was not asked for. */
  readonly bounced_lx?: number;
  readonly points: number;
  readonly minimum_at: Point3;
}

/** One target held against one place. */
export interface LevelVerdict {
  readonly set: string;
  readonly target: string;
  readonly title: string;
  /** Of the set that the job names. */
  readonly in_force: boolean;
  readonly met: boolean;
  readonly asked: string;
  /** What of it the place has not; absent or empty where it has all. */
  readonly missed?: string;
  readonly provenance: Provenance;
}

export type LitPlace = 'path' | 'steps' | 'drive' | 'terrace' | 'bed' | 'background' | 'facade' | 'tree' | 'ground' | 'property_line' | 'window' | 'lamp';

export interface PlaceLevels {
  readonly id: string;
  readonly name: string;
  readonly pointer: string;
  readonly place: LitPlace;
  readonly lit: LuxFigures;
  readonly centreline?: LuxFigures | null;
  readonly upright?: LuxFigures | null;
  readonly length_m?: number | null;
  readonly width_m?: number | null;
  readonly treads?: readonly { readonly number: number; readonly height_m: number; readonly lit: LuxFigures }[];
  readonly verdicts?: readonly LevelVerdict[];
}

export interface SpillEdge {
  readonly edge: number;
  readonly average_lx: number;
  readonly maximum_lx: number;
  readonly maximum_at: Point3;
  readonly lamp: string;
  readonly lamp_lx: number;
}

export interface WindowSpill {
  readonly view_point: string;
  readonly lx: number;
  readonly lamp: string;
  readonly lamp_lx: number;
}

export type SightState = 'visible' | 'shielded' | 'turned_away' | 'blocked' | 'accepted';

/** From an eye to a bare lamp. */
export interface SightLine {
  readonly view_point: string;
  readonly lamp: string;
  readonly distance_m: number;
  readonly off_axis_deg: number;
  readonly intensity_cd: number;
  readonly state: SightState;
  readonly words: string;
}

export interface BrightnessRow {
  readonly id: string;
  readonly name: string;
  readonly place: LitPlace;
  readonly average_lx: number;
  readonly reflectance: number;
  readonly luminance_cd_m2: number;
  readonly ratio: number;
  readonly role: 'focal' | 'support' | 'background' | 'dark';
}

export interface LightContour {
  readonly lx: number;
  readonly lines: readonly Polyline[];
}

/** Rows from the south, each from the west; below 0 where there is no ground. */
export interface NightPlan {
  readonly origin: Point2;
  readonly cell_m: number;
  readonly columns: number;
  readonly rows: number;
  readonly lx: readonly number[];
  readonly maximum_lx: number;
  readonly contours: readonly LightContour[];
}

export interface Levels {
  /** Id of the set in force. */
  readonly targets: string;
  readonly places: readonly PlaceLevels[];
  readonly property_line_limit_lx: number;
  readonly property_line: readonly SpillEdge[];
  readonly window_limit_lx: number;
  readonly windows: readonly WindowSpill[];
  readonly sights: readonly SightLine[];
  readonly upward: { readonly flux_lm: number; readonly upward_lm: number; readonly upward_share: number };
  /** Absent where light that bounced was not asked for. */
  readonly bounce?: { readonly patch_m: number; readonly patches: number; readonly sent_lm: number } | null;
  readonly brightness: readonly BrightnessRow[];
  readonly plan?: NightPlan | null;
  readonly findings: readonly Finding[];
  readonly sound: boolean;
  readonly blocks_quote: boolean;
}

export interface LevelSet {
  readonly id: string;
  readonly title: string;
  readonly notice: string;
}

/** What is to be lit. */
export interface ChooseTarget {
  readonly tree?: string;
  readonly area?: string;
  /** Area and edge: "house/0". */
  readonly face?: string;
  /** How far from the trunk or the face the lamps stand. */
  readonly setback_m?: number;
  /** The longest gap between two lamps along a path. */
  readonly longest_m?: number;
  /** Across the pool of light of one path light. */
  readonly pool_m?: number;
}

/** What the target asks of a lamp, before any article is looked at. */
export interface ChooseNeed {
  readonly count?: number | null;
  readonly beam_deg?: number | null;
  readonly distance_m?: number | null;
  readonly setback_m?: number | null;
  readonly tilt_deg?: number | null;
  readonly spacing_m?: number | null;
  readonly flux_lm?: number | null;
}

export interface ChosenLamp {
  readonly item: string;
  readonly position: Point3;
  readonly azimuth_deg: number;
  readonly tilt_deg: number;
}

export interface ChooseOption {
  readonly item: string;
  readonly title: string;
  readonly count: number;
  readonly beam_deg: number;
  readonly flux_lm: number;
  readonly average_lx: number;
  readonly minimum_lx: number;
  readonly price_minor: number;
  readonly fits: boolean;
  readonly reason: string;
  readonly warnings: readonly string[];
  readonly lamps: readonly ChosenLamp[];
}

/** Lamps for a target, as `duskwire choose JOB --json` prints them: best first. */
export interface Chosen {
  readonly sentence: string;
  readonly need: ChooseNeed;
  readonly options: readonly ChooseOption[];
  readonly remarks: readonly string[];
}
