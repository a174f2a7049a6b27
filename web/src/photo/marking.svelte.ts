// SPDX-License-Identifier: Apache-2.0
// Marking on the photograph: the known wall's corners, outlines of surfaces, trees and masks, lengths to measure. Points
// are set one by one, by finger, mouse or keyboard, and each can be moved afterwards.
import type { MaskKind, PictureMask, PictureMeasure, PictureSurface, PictureTree, SurfaceKind } from '../job/document';
import { addMark, moveCorner, removeMark, setAdjoining, setMark, type MarkList } from '../job/edits/views';
import type { Command, Operation } from '../job/operations';
import type { Gesture } from '../job/store.svelte';
import type { JobSession } from '../session/job-session.svelte';
import type { Photo } from '../session/photo.svelte';
import { siteFromPixel } from './camera';
import { facing, groundPlane, maskKindNames, surfaceKindNames, usualPlane } from './planes';
import { cornerAt, lowest, markAt, pointsOf, sameMark, surfaceUnder, upEdge, wallCorners, type MarkRef } from './shapes';
import type { Pixel } from './stage-frame';
import type { PhotoStroke, PhotoTool } from './tool';

export type Drawing =
  | { readonly what: 'wall' }
  | { readonly what: 'adjoining' }
  | { readonly what: 'surface'; readonly kind: SurfaceKind }
  | { readonly what: 'tree' }
  | { readonly what: 'mask'; readonly kind: MaskKind }
  | { readonly what: 'measure' };

const least: Readonly<Record<Drawing['what'], number>> = { wall: 4, adjoining: 2, surface: 3, tree: 3, mask: 3, measure: 2 };
const most: Readonly<Record<Drawing['what'], number>> = { wall: 4, adjoining: 2, surface: 2000, tree: 2000, mask: 2000, measure: 2 };
const wallHints = ['one corner of the wall', 'the second corner', 'the third corner', 'the last corner'];

export class Marking implements PhotoTool {
  #session: JobSession;
  #photo: Photo;
  #gesture: Gesture | undefined;
  #dragging = false;

  drawing: Drawing | undefined = $state.raw();
  /** Set so far. */
  points: readonly Pixel[] = $state.raw([]);
  /** Under the hand, not set yet. */
  loose: Pixel | undefined = $state.raw();
  selected: MarkRef | undefined = $state.raw();
  /** Of what is selected: the corner in hand, for the arrow keys. */
  corner: number | undefined = $state();

  constructor(session: JobSession, photo: Photo) {
    this.#session = session;
    this.#photo = photo;
  }

  get draws(): boolean {
    return this.drawing !== undefined;
  }

  get hint(): string {
    const { drawing, points } = this;
    if (!drawing) return this.corner !== undefined ? 'Drag the corner, or use the arrow keys.' : 'Tap an outline to change it.';
    if (drawing.what === 'wall') return `Tap ${wallHints[points.length] ?? ''}.`;
    if (drawing.what === 'adjoining') return points.length === 0 ? 'Tap the foot of the second wall’s far edge.' : 'Tap the upper end of that edge, as high as the known wall.';
    if (drawing.what === 'measure') return points.length === 0 ? 'Tap where the length begins.' : 'Tap where it ends.';
    if (points.length < least[drawing.what]) return 'Tap the corners one after the other.';
    return 'Tap on, or press Done to close the outline.';
  }

  get canFinish(): boolean {
    return this.drawing !== undefined && this.points.length >= least[this.drawing.what];
  }

  begin(drawing: Drawing): void {
    this.cancel();
    this.selected = undefined;
    this.drawing = drawing;
  }

  select(ref: MarkRef | undefined): void {
    this.selected = ref;
    this.corner = undefined;
  }

  down({ at, radiusPx }: PhotoStroke): boolean {
    if (this.drawing) {
      this.loose = at;
      return true;
    }
    const { view } = this.#photo;
    const index = view && this.selected && cornerAt(pointsOf(view, this.selected), at, radiusPx);
    if (index === undefined) return false;
    this.corner = index;
    this.#dragging = true;
    return true;
  }

  move({ at }: PhotoStroke): void {
    if (this.drawing) this.loose = at;
    else if (this.#dragging) this.#moveCorner(at);
  }

  up({ at, radiusPx }: PhotoStroke): void {
    if (this.drawing) return this.#set(at, radiusPx);
    this.#gesture?.commit();
    this.#gesture = undefined;
    this.#dragging = false;
    this.loose = undefined;
  }

  hover(at: Pixel): void {
    this.loose = this.drawing ? at : undefined;
  }

  tap({ at, radiusPx }: PhotoStroke): void {
    const { view } = this.#photo;
    const ref = view && markAt(view, at, radiusPx);
    if (!sameMark(ref, this.selected)) this.select(ref);
  }

  cancelStroke(): void {
    this.#gesture?.cancel();
    this.#gesture = undefined;
    this.#dragging = false;
    this.loose = undefined;
  }

  nudge([dx, dy]: Pixel): boolean {
    const { view } = this.#photo;
    const at = view && this.selected && this.corner !== undefined ? pointsOf(view, this.selected)[this.corner] : undefined;
    if (!view || !at) return false;
    const change = this.#cornerChange([at[0] + dx, at[1] + dy]);
    if (change) this.#session.store.run({ label: 'Move a corner', changes: [change] }, `corner ${view.id} ${this.selected?.id} ${this.corner}`);
    return true;
  }

  finish(): void {
    const { drawing, points } = this;
    if (!drawing || !this.canFinish) return;
    this.drawing = undefined;
    this.points = [];
    this.loose = undefined;
    this.#keep(drawing, points);
  }

  stepBack(): void {
    if (this.drawing) this.points = this.points.slice(0, -1);
  }

  cancel(): boolean {
    const had = this.drawing !== undefined || this.selected !== undefined;
    this.cancelStroke();
    this.drawing = undefined;
    this.points = [];
    this.select(undefined);
    return had;
  }

  remove(): void {
    const { view } = this.#photo;
    const ref = this.selected;
    if (!view || !ref || ref.list === 'wall' || ref.list === 'adjoining') return;
    this.#session.store.run(removeMark(view, ref.list, ref.id, 'Remove an outline'));
    this.select(undefined);
  }

  /** Changes keys of a surface, tree, mask or measure. */
  set(list: MarkList, id: string, changes: Readonly<Record<string, unknown>>, label: string): void {
    const { view } = this.#photo;
    if (view) this.#session.store.run(setMark(view, list, id, changes, label));
  }

  #set(at: Pixel, radiusPx: number): void {
    const { drawing, points } = this;
    if (!drawing) return;
    this.loose = undefined;
    const closes = points.length >= least[drawing.what] && cornerAt([points[0]!], at, radiusPx) !== undefined;
    if (closes) return this.finish();
    this.points = [...points, this.#within(at)];
    if (this.points.length === most[drawing.what]) this.finish();
  }

  // A place beside the picture is on its edge.
  #within([x, y]: Pixel): Pixel {
    const { picture } = this.#photo;
    const keep = (value: number, size: number | undefined): number => Math.round(Math.min(size ?? Infinity, Math.max(0, value)) * 100) / 100;
    return [keep(x, picture?.widthPx), keep(y, picture?.heightPx)];
  }

  #cornerChange(to: Pixel): Operation | undefined {
    const { view } = this.#photo;
    return view && this.selected && this.corner !== undefined ? moveCorner(view, this.selected.list, this.selected.id, this.corner, this.#within(to)) : undefined;
  }

  #moveCorner(at: Pixel): void {
    this.#gesture ??= this.#session.store.begin('Move a corner');
    const change = this.#cornerChange(at);
    if (change) this.#gesture.preview([change]);
    this.loose = at;
  }

  #keep(drawing: Drawing, points: readonly Pixel[]): void {
    if (drawing.what === 'wall') {
      this.#photo.editWall({ corners_px: wallCorners(points) }, 'Mark the known wall');
      return;
    }
    const { view } = this.#photo;
    if (drawing.what === 'adjoining') {
      if (view) this.#session.store.run(setAdjoining(view, upEdge(points), 'Mark the second wall'));
      return;
    }
    const made = view && this.#made(drawing, points);
    if (!made) return;
    this.#session.store.run(made.command);
    this.select({ list: made.list, id: made.id });
  }

  #made(drawing: Exclude<Drawing, { what: 'wall' | 'adjoining' }>, points: readonly Pixel[]): { list: MarkList; id: string; command: Command } | undefined {
    const view = this.#photo.view!;
    const { camera } = this.#photo;
    if (drawing.what === 'mask') {
      const mark: Omit<PictureMask, 'id'> = { kind: drawing.kind, outline_px: points };
      return { list: 'masks', ...addMark(view, 'masks', mark, `Outline: ${maskKindNames[drawing.kind]}`) };
    }
    if (drawing.what === 'measure') {
      const surface = surfaceUnder(view, points)?.id;
      const mark: Omit<PictureMeasure, 'id'> = { from_px: points[0]!, to_px: points[1]!, ...(surface !== undefined && { surface }) };
      return { list: 'measures', ...addMark(view, 'measures', mark, 'Measure on the photograph') };
    }
    if (!camera) return undefined;
    if (drawing.what === 'tree') {
      const foot = siteFromPixel(camera, lowest(points), groundPlane);
      if (!foot) return undefined;
      const mark: Omit<PictureTree, 'id'> = { outline_px: points, foot };
      return { list: 'trees', ...addMark(view, 'trees', mark, 'Outline: tree') };
    }
    const plane = usualPlane(drawing.kind, this.#photo.planes);
    if (!plane) return undefined;
    const { onPlane, normal } = facing(plane, camera.position);
    const mark: Omit<PictureSurface, 'id'> = { kind: drawing.kind, name: surfaceKindNames[drawing.kind], outline_px: points, on_plane: onPlane, normal };
    return { list: 'surfaces', ...addMark(view, 'surfaces', mark, `Outline: ${surfaceKindNames[drawing.kind]}`) };
  }
}
