// SPDX-License-Identifier: Apache-2.0
// The job document as TypeScript sees it: the same keys as docs/schema/job-v1.schema.json (a test holds both together),
// SI units in each name.
// Documents also hold keys that this version does not know; nothing here may drop them (see operations.ts).
import type { BeamShape } from './beam-shape';
import type { Offer } from './offer';
import type { ProgrammeEntry } from './programme';
import type { View } from './view';
import type { Visit } from './visit';

export * from './view';

/** [x, y] in metres: x east (or as north_deg says), y a quarter turn left of it. */
export type Point2 = readonly [number, number];
/** [x, y, z] in metres, z over grade. */
export type Point3 = readonly [number, number, number];
export type Polyline = readonly Point2[];
/** Closed; the first point is not repeated. */
export type Polygon = readonly Point2[];

export const lampKinds = ['regulated_led', 'filament', 'resistive', 'constant_current_led'] as const;
export type LampKind = (typeof lampKinds)[number];

export const luminaireKinds = [
  'path', 'bullet', 'wall_wash', 'well', 'tree_downlight', 'step', 'strip', 'bollard', 'underwater', 'retrofit_lamp',
  'halogen_lamp',
] as const;
export type LuminaireKind = (typeof luminaireKinds)[number];

export const groundKinds = [
  'bed', 'lawn', 'gravel', 'paving', 'drive', 'street', 'building', 'deck', 'wall', 'steps', 'water', 'pool',
  'root_zone', 'forbidden',
] as const;
export type GroundKind = (typeof groundKinds)[number];

export const viewPointKinds = ['street', 'door', 'window', 'neighbour_window', 'seat', 'other'] as const;
export type ViewPointKind = (typeof viewPointKinds)[number];

export const jointKinds = ['in_line', 'branch', 'hub', 'end_of_run'] as const;
export type JointKind = (typeof jointKinds)[number];

export type DisplayUnits = 'metric' | 'us';
export type Mounting = 'wall' | 'post' | 'indoors';

// ---- catalogue -----------------------------------------------------------------------------------------------------

export interface LuminaireItem {
  readonly id: string;
  readonly title?: string;
  readonly kind: LuminaireKind;
  readonly lamp: LampKind;
  readonly power_w: number;
  readonly power_va: number;
  readonly rated_v?: number;
  readonly window_min_v: number;
  readonly window_max_v: number;
  readonly v_cut_off?: number;
  readonly v_regulation_min?: number;
  readonly flux_lm?: number;
  readonly beam_deg?: number;
  readonly beam_shape?: BeamShape;
  /** Text of an LM-63 or EULUMDAT file; its light goes before beam_shape, beam_deg and flux_lm. */
  readonly intensity_file?: string;
  readonly colour_temperature_k?: number;
  readonly mounting_height_m?: number;
  readonly lead_length_m?: number;
  readonly lead_area_mm2?: number;
  readonly price_minor?: number;
  readonly labour_min?: number;
  readonly underwater_listed?: boolean;
  readonly note?: string;
}

export interface TransformerItem {
  readonly id: string;
  readonly title?: string;
  readonly rating_va: number;
  readonly output_count?: number;
  readonly output_limit_a?: number;
  readonly taps_v: readonly number[];
  readonly r_own_ohm?: number;
  readonly r_shared_ohm?: number;
  readonly efficiency?: number;
  readonly core_loss_w?: number;
  readonly outdoor_listed?: boolean;
  readonly pool_listed?: boolean;
  readonly price_minor?: number;
  readonly labour_min?: number;
  readonly note?: string;
}

export interface CableItem {
  readonly id: string;
  readonly title?: string;
  readonly area_mm2: number;
  readonly gauge_awg?: number;
  readonly ohm_per_m_20c: number;
  readonly ampacity_a?: number;
  readonly outer_diameter_mm?: number;
  readonly direct_burial?: boolean;
  readonly sold_step_m?: number;
  readonly price_minor_per_m?: number;
  readonly labour_min_per_m?: number;
  readonly note?: string;
}

export interface ConnectorFill {
  readonly area_min_mm2: number;
  readonly area_max_mm2: number;
  readonly count_min?: number;
  readonly count_max?: number;
}

export interface ConnectorItem {
  readonly id: string;
  readonly title?: string;
  readonly fills?: readonly ConnectorFill[];
  readonly sealed?: boolean;
  readonly mechanically_held?: boolean;
  readonly serves_both_conductors?: boolean;
  readonly contact_ohm?: number;
  readonly price_minor?: number;
  readonly labour_min?: number;
  readonly note?: string;
}

export const controlKinds = ['astronomic_timer', 'mechanical_timer', 'photocell', 'surge', 'other'] as const;

export interface ControlItem {
  readonly id: string;
  readonly title?: string;
  readonly kind: (typeof controlKinds)[number];
  readonly price_minor?: number;
  readonly labour_min?: number;
  readonly note?: string;
}

export const sundryKinds = [
  'stake', 'staple', 'sleeve', 'tag', 'post_mount', 'tree_mount', 'drainage', 'other',
] as const;

export interface SundryItem {
  readonly id: string;
  readonly title?: string;
  readonly kind: (typeof sundryKinds)[number];
  readonly unit?: 'piece' | 'm';
  readonly price_minor?: number;
  readonly labour_min?: number;
  readonly note?: string;
}

export interface Catalogue {
  readonly currency?: string;
  readonly luminaires?: readonly LuminaireItem[];
  readonly transformers?: readonly TransformerItem[];
  readonly cables?: readonly CableItem[];
  readonly connectors?: readonly ConnectorItem[];
  readonly controls?: readonly ControlItem[];
  readonly sundries?: readonly SundryItem[];
}

/** A catalogue file: the stock, or the shop's own. */
export interface CatalogueFile extends Catalogue {
  readonly format: 'duskwire-catalogue';
  readonly version: 1;
  readonly title?: string;
  readonly note?: string;
}

// ---- site and plan -------------------------------------------------------------------------------------------------

export interface Corners {
  readonly mains_tolerance_pct?: number;
  readonly cable_nominal_c?: number;
  readonly cable_cold_c?: number;
  readonly cable_hot_c?: number;
  readonly length_tolerance_pct?: number;
  readonly few_lamps?: boolean;
}

export const soils = ['sand', 'loam', 'clay', 'stony', 'rock'] as const;
export type Soil = (typeof soils)[number];

export interface Site {
  readonly latitude_deg?: number;
  readonly longitude_deg?: number;
  readonly time_zone?: string;
  readonly address?: string;
  readonly mains_v: number;
  readonly mains_hz: number;
  readonly ruleset: string;
  readonly units?: DisplayUnits;
  readonly currency?: string;
  readonly soil?: Soil;
  readonly corners?: Corners;
}

export interface Wish {
  readonly text: string;
}

export interface Client {
  readonly name?: string;
  readonly contact?: string;
  readonly wishes?: readonly Wish[];
  readonly notes?: string;
}

export interface Practice {
  readonly slack_at_luminaire_m?: number;
  readonly slack_at_splice_m?: number;
  readonly slack_at_transformer_m?: number;
  readonly waste_pct?: number;
  readonly transformer_load_pct?: number;
  readonly output_load_pct?: number;
  readonly staple_spacing_m?: number;
}

export interface Area {
  readonly id: string;
  readonly name?: string;
  readonly kind: GroundKind;
  readonly outline: Polygon;
  readonly height_m?: number;
  /** Steps: how many risers, and the way up, clockwise from north. */
  readonly riser_count?: number;
  readonly ascent_deg?: number;
}

export interface Underlay {
  readonly image: string;
  readonly m_per_px: number;
  /** Where the picture's top left corner lies. */
  readonly origin?: Point2;
  /** Turn about that corner, counter-clockwise. */
  readonly rotation_deg?: number;
  readonly opacity?: number;
}

export interface Sleeve {
  readonly id: string;
  readonly path?: Polyline;
  readonly diameter_mm?: number;
  readonly depth_m?: number;
  readonly laid?: boolean;
}

export interface Receptacle {
  readonly id: string;
  readonly position: Point2;
  readonly gfci?: boolean;
  readonly in_use_cover?: boolean;
  readonly circuit_a?: number;
}

export interface ViewPoint {
  readonly id: string;
  readonly name?: string;
  readonly kind?: ViewPointKind;
  readonly position: Point3;
}

export interface Tree {
  readonly id: string;
  readonly name?: string;
  readonly position: Point2;
  readonly height_m?: number;
  readonly crown_width_m?: number;
  readonly crown_base_m?: number;
  readonly crown_transmittance?: number;
}

export interface FixedPoint {
  readonly id: string;
  readonly name?: string;
  readonly position: Point2;
}

export interface Plan {
  readonly underlay?: Underlay;
  readonly north_deg?: number;
  readonly areas?: readonly Area[];
  readonly sleeves?: readonly Sleeve[];
  readonly receptacles?: readonly Receptacle[];
  readonly property_line?: Polygon;
  readonly view_points?: readonly ViewPoint[];
  readonly trees?: readonly Tree[];
  readonly fixed_points?: readonly FixedPoint[];
}

// ---- how its light is judged ---------------------------------------------------------------------------------------

/** A lamp that may be seen from a view point: looked at and agreed to. */
export interface AcceptedSight {
  readonly luminaire: string;
  readonly view_point: string;
  readonly note?: string;
}

export interface LightPlan {
  /** Id of a set of levels. */
  readonly targets?: string;
  readonly property_line_limit_lx?: number;
  readonly window_limit_lx?: number;
  readonly accepted?: readonly AcceptedSight[];
}

// ---- what is wired -------------------------------------------------------------------------------------------------

export interface Luminaire {
  readonly id: string;
  readonly name?: string;
  readonly item: string;
  readonly position?: Point3;
  readonly azimuth_deg?: number;
  readonly tilt_deg?: number;
  readonly dim_pct?: number;
  /** A shield hides the lamp from eyes farther than this off its axis. */
  readonly shield_cut_off_deg?: number;
  readonly zone?: string;
  readonly joint?: string;
  readonly lead_length_m?: number;
  readonly slack_m?: number;
}

export interface Output {
  readonly id: string;
  readonly tap_v: number;
  readonly limit_a?: number;
}

export interface Transformer {
  readonly id: string;
  readonly name?: string;
  readonly item: string;
  readonly position?: Point2;
  readonly mounting_height_m?: number;
  readonly mounting?: Mounting;
  readonly receptacle?: string;
  readonly extension_cord?: boolean;
  readonly controls?: readonly string[];
  readonly outputs: readonly Output[];
}

export interface Cable {
  readonly id: string;
  readonly item: string;
  readonly from: string;
  readonly to: string;
  readonly path?: Polyline;
  readonly length_m?: number;
  readonly slack_from_m?: number;
  readonly slack_to_m?: number;
  readonly depth_m?: number;
  readonly ground?: GroundKind;
  readonly sleeve?: string;
  readonly crossed?: boolean;
}

export interface AsBuilt {
  readonly fixed_point_1?: string;
  readonly fixed_point_2?: string;
  readonly offset_1_m?: number;
  readonly offset_2_m?: number;
  readonly depth_m?: number;
  readonly pictures?: readonly string[];
  readonly recorded?: string;
  readonly done?: boolean;
}

export interface Joint {
  readonly id: string;
  readonly name?: string;
  readonly kind?: JointKind;
  readonly position?: Point2;
  readonly connector?: string;
  readonly connector_count?: number;
  readonly buried?: boolean;
  readonly as_built?: AsBuilt;
}

/** Where the job stands, in the order of the trade. */
export const stages = [
  'enquiry', 'survey', 'design', 'offered', 'preparing', 'installing', 'commissioned', 'in_care', 'closed',
] as const;
export type Stage = (typeof stages)[number];

export interface JobDocument {
  readonly format: 'duskwire-job';
  readonly version: 1;
  readonly id: string;
  readonly title?: string;
  readonly created?: string;
  readonly stage?: Stage;
  readonly site: Site;
  readonly client?: Client;
  readonly practice?: Practice;
  readonly catalogue?: Catalogue;
  readonly plan?: Plan;
  readonly light?: LightPlan;
  readonly luminaires?: readonly Luminaire[];
  readonly transformers?: readonly Transformer[];
  readonly cables?: readonly Cable[];
  readonly joints?: readonly Joint[];
  readonly views?: readonly View[];
  readonly programme?: readonly ProgrammeEntry[];
  readonly offer?: Offer;
  readonly visits?: readonly Visit[];
}
