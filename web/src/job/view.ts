// SPDX-License-Identifier: Apache-2.0
// Photographs within a job as TypeScript sees them: camera, surfaces, measures, the night. The same keys as
// docs/schema/job-v1.schema.json (a test holds both together).
import type { Point3 } from './document';

/** [x, y] in picture elements from the top left corner of the upright photograph. */
export type PixelPoint = readonly [number, number];
/** Closed; the first point is not repeated. */
export type PixelOutline = readonly PixelPoint[];

export const calibrationMethods = ['vanishing_points', 'focal_length', 'known_points'] as const;
export type CalibrationMethod = (typeof calibrationMethods)[number];

export const surfaceKinds = ['wall', 'ground', 'roof', 'steps', 'other'] as const;
export type SurfaceKind = (typeof surfaceKinds)[number];

export const maskKinds = ['sky', 'window', 'other'] as const;
export type MaskKind = (typeof maskKinds)[number];

export interface ViewReference {
  readonly pixel_px: PixelPoint;
  readonly site: Point3;
}

/** An upright rectangle of known size; corners bottom left, bottom right, top right, top left. */
export interface KnownWall {
  readonly corners_px: PixelOutline;
  readonly left: Point3;
  readonly right: Point3;
  readonly height_m: number;
}

export interface Calibration {
  readonly method: CalibrationMethod;
  readonly focal_px?: number;
  readonly principal_point_px?: PixelPoint;
  readonly wall?: KnownWall;
  /** Lower and upper far corner of a second wall, at a right angle to the known one and as high. */
  readonly adjoining_px?: PixelOutline;
  readonly references?: readonly ViewReference[];
  readonly size_error_pct?: number;
  readonly click_error_px?: number;
}

export interface PictureSurface {
  readonly id: string;
  readonly name?: string;
  readonly kind?: SurfaceKind;
  readonly outline_px: PixelOutline;
  readonly on_plane: Point3;
  /** Of unit length, to the lit side. */
  readonly normal: readonly [number, number, number];
  readonly reflectance?: number;
}

export interface PictureTree {
  readonly id: string;
  readonly tree?: string;
  readonly outline_px: PixelOutline;
  readonly foot: Point3;
  readonly reflectance?: number;
}

export interface PictureMask {
  readonly id: string;
  readonly kind?: MaskKind;
  readonly outline_px: PixelOutline;
  readonly luminance_cd_m2?: number;
  readonly colour_temperature_k?: number;
}

export interface PictureMeasure {
  readonly id: string;
  readonly name?: string;
  /** None: upright at `from_px`, which stands on the ground. */
  readonly surface?: string;
  readonly from_px: PixelPoint;
  readonly to_px: PixelPoint;
}

export interface NightLook {
  readonly camera_share?: number;
  readonly exposure_stops?: number;
  readonly ambient_lx?: number;
  readonly white_k?: number;
}

/** A photograph and how it belongs to the plan. */
export interface View {
  readonly id: string;
  readonly name?: string;
  readonly image: string;
  readonly width_px?: number;
  readonly height_px?: number;
  readonly taken?: string;
  readonly view_point?: string;
  readonly position?: Point3;
  readonly calibration?: Calibration;
  readonly surfaces?: readonly PictureSurface[];
  readonly trees?: readonly PictureTree[];
  readonly masks?: readonly PictureMask[];
  readonly measures?: readonly PictureMeasure[];
  readonly night?: NightLook;
  readonly notes?: string;
}
