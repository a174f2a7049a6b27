// SPDX-License-Identifier: Apache-2.0
// What the engine says about a photograph: its camera, how well the marked corners agree with it, and what was measured
// on it. The same as `duskwire calibrate JOB --view NAME --json`.
import type { Point2, Point3, SurfaceKind } from '../job/document';

export interface Camera {
  readonly width_px: number;
  readonly height_px: number;
  readonly focal_px: number;
  readonly principal_point_px: Point2;
  readonly position: Point3;
  /** The camera's right, down and ahead as ways of length 1 in the garden. */
  readonly axes: readonly [Point3, Point3, Point3];
}

export interface MeasuredLength {
  readonly id: string;
  readonly length_m?: number | null;
  /** One standard deviation, from how far off a marked place may be. */
  readonly error_m?: number | null;
  readonly problem?: string | null;
}

/** A plane that hangs on the known wall, and what is assumed of it. */
export interface ProposedPlane {
  readonly id: string;
  readonly name: string;
  readonly kind: SurfaceKind;
  readonly on_plane: Point3;
  readonly normal: Point3;
  readonly note: string;
}

export interface CalibrationAnswer {
  readonly camera?: Camera | null;
  readonly residual_px?: number | null;
  readonly position_error_m?: number | null;
  readonly focal_error_px?: number | null;
  /** Of the second wall, where its far edge is marked. */
  readonly adjoining_width_m?: number | null;
  readonly adjoining_error_m?: number | null;
  /** Of the known wall, where the job does not know it. */
  readonly wall_height_m?: number | null;
  readonly wall_height_error_m?: number | null;
  /** Why there is no camera, where there is none. */
  readonly problem?: string | null;
  readonly measures: readonly MeasuredLength[];
  readonly planes: readonly ProposedPlane[];
  /** What a person should look at, a sentence each. */
  readonly findings: readonly string[];
}
