// SPDX-License-Identifier: Apache-2.0
// Lamps on the photograph: placed on the ground or on a wall, moved and aimed by hand, the same lamps as on the plan.
import type { JobDocument, Luminaire, LuminaireItem, Point3 } from '../job/document';
import { aimAt, aimChanges, isAimed, lampName, moveLampChanges, wayOfAim } from '../job/edits/lamp';
import { placeLuminaire } from '../job/edits/place';
import { removeCommand } from '../job/edits/remove';
import { luminaireItem } from '../job/lookup';
import type { Operation } from '../job/operations';
import type { Gesture } from '../job/store.svelte';
import type { JobSession } from '../session/job-session.svelte';
import type { Photo } from '../session/photo.svelte';
import { metresPerPixel, pixelFromSite, siteFromPixel, type Plane } from './camera';
import { isHidden, spotUnder } from './ground-under';
import type { Pixel } from './stage-frame';
import type { PhotoStroke, PhotoTool } from './tool';

export interface LampMark {
  readonly lamp: Luminaire;
  readonly at: Pixel;
  /** Where the mark of its aim is, of an aimed lamp. */
  readonly aim: Pixel | undefined;
}

// A drag counts from the job as it was when it began.
type Hold =
  | { readonly what: 'move'; readonly base: JobDocument; readonly lamp: Luminaire; readonly plane: Plane; readonly offset: Pixel }
  | { readonly what: 'aim'; readonly lamp: Luminaire };

const aimMarkM = 2;
// Of the picture's width: far enough to be taken hold of, also of a lamp far away.
const aimMarkShare = 0.06;
const offWallM = 0.1;
const nudgeM = 0.1;

export class LampTool implements PhotoTool {
  #session: JobSession;
  #photo: Photo;
  #gesture: Gesture | undefined;
  #hold: Hold | undefined;

  /** What the next tap places. */
  placing: LuminaireItem | undefined = $state.raw();
  loose: Pixel | undefined = $state.raw();

  constructor(session: JobSession, photo: Photo) {
    this.#session = session;
    this.#photo = photo;
  }

  get draws(): boolean {
    return this.placing !== undefined;
  }

  get hint(): string {
    if (!this.#photo.camera) return 'Mark the known wall first: it says where things are.';
    if (this.placing) return 'Tap the ground or a wall where the light stands.';
    return this.selected ? 'Drag the light to move it, its ring to aim it.' : 'Tap a light, or choose one to place.';
  }

  get selected(): Luminaire | undefined {
    const ref = this.#session.selection.single;
    return ref?.kind === 'luminaire' ? this.#session.document.luminaires?.find(({ id }) => id === ref.id) : undefined;
  }

  /** Every lamp that the photograph shows; the selected one also behind a wall. */
  get marks(): readonly LampMark[] {
    const { camera, picture, view } = this.#photo;
    if (!camera || !picture || !view) return [];
    const { selected } = this;
    return (this.#session.document.luminaires ?? []).flatMap((lamp): LampMark[] => {
      const at = lamp.position && pixelFromSite(camera, lamp.position);
      if (!at || at[0] < 0 || at[1] < 0 || at[0] > picture.widthPx || at[1] > picture.heightPx) return [];
      if (lamp.id !== selected?.id && isHidden(this.#session.document, view, camera, lamp.position!)) return [];
      return [{ lamp, at, aim: this.#aimMark(lamp) }];
    });
  }

  down({ at, radiusPx }: PhotoStroke): boolean {
    if (this.placing) {
      this.loose = at;
      return true;
    }
    const near = (point: Pixel | undefined): boolean => point !== undefined && Math.hypot(point[0] - at[0], point[1] - at[1]) <= radiusPx;
    const { selected, marks } = this;
    const own = marks.find(({ lamp }) => lamp.id === selected?.id);
    if (own && !near(own.at) && near(own.aim)) {
      this.#hold = { what: 'aim', lamp: own.lamp };
      return true;
    }
    const hit = own && near(own.at) ? own : [...marks].reverse().find((mark) => near(mark.at));
    if (!hit) return false;
    this.#session.selection.set([{ kind: 'luminaire', id: hit.lamp.id }]);
    this.#hold = { what: 'move', base: this.#session.document, lamp: hit.lamp, plane: this.#planeOf(hit), offset: [hit.at[0] - at[0], hit.at[1] - at[1]] };
    return true;
  }

  move({ at }: PhotoStroke): void {
    if (this.placing) {
      this.loose = at;
      return;
    }
    const hold = this.#hold;
    if (!hold) return;
    this.#gesture ??= this.#session.store.begin(`${hold.what === 'aim' ? 'Aim' : 'Move'} ${lampName(hold.lamp)}`);
    this.#gesture.preview(hold.what === 'aim' ? this.#aiming(hold.lamp, at) : this.#moving(hold, at));
  }

  up({ at }: PhotoStroke): void {
    this.loose = undefined;
    if (this.placing) return this.#place(this.placing, at);
    this.#gesture?.commit();
    this.#gesture = undefined;
    this.#hold = undefined;
  }

  hover(at: Pixel): void {
    this.loose = this.placing ? at : undefined;
  }

  tap(): void {
    this.#session.selection.clear();
  }

  cancelStroke(): void {
    this.#gesture?.cancel();
    this.#gesture = undefined;
    this.#hold = undefined;
    this.loose = undefined;
  }

  /** To the right and away from the camera, by a hand's width for each key. */
  nudge([dx, dy]: Pixel): boolean {
    const lamp = this.selected;
    const { camera } = this.#photo;
    if (!lamp?.position || !camera) return false;
    const [right, , ahead] = camera.axes;
    const level = (way: Point3): Point3 => {
      const length = Math.hypot(way[0], way[1]) || 1;
      return [way[0] / length, way[1] / length, 0];
    };
    const [across, away] = [level(right), level(ahead)];
    const [x, y] = [Math.sign(dx) * nudgeM, -Math.sign(dy) * nudgeM];
    const to: Point3 = [lamp.position[0] + across[0] * x + away[0] * y, lamp.position[1] + across[1] * x + away[1] * y, lamp.position[2]];
    this.#session.store.run({ label: `Move ${lampName(lamp)}`, changes: moveLampChanges(this.#session.document, lamp, to) }, `photo nudge ${lamp.id}`);
    return true;
  }

  finish(): void {
    this.placing = undefined;
  }

  stepBack(): void {
    this.remove();
  }

  cancel(): boolean {
    const had = this.placing !== undefined || this.selected !== undefined;
    this.cancelStroke();
    if (this.placing) this.placing = undefined;
    else this.#session.selection.clear();
    return had;
  }

  remove(): void {
    const lamp = this.selected;
    if (!lamp || this.placing) return;
    const command = removeCommand(this.#session.document, [{ kind: 'luminaire', id: lamp.id }]);
    if (command) this.#session.store.run(command);
    this.#session.selection.clear();
  }

  #place(item: LuminaireItem, pixel: Pixel): void {
    const { camera, view } = this.#photo;
    const spot = camera && view && spotUnder(view, camera, pixel);
    if (!spot) return;
    const { place, plane, level } = spot;
    const at: Point3 = level
      ? [place[0], place[1], place[2] + (item.mounting_height_m ?? 0)]
      : [place[0] + plane.normal[0] * offWallM, place[1] + plane.normal[1] * offWallM, place[2]];
    const { command, made } = placeLuminaire(this.#session.document, item, at);
    this.#session.store.run(command);
    this.#session.selection.set([made]);
  }

  // A lamp on a wall moves along the wall, any other at its own height.
  #planeOf({ lamp, at }: LampMark): Plane {
    const { camera, view } = this.#photo;
    const position = lamp.position!;
    const spot = camera && view && spotUnder(view, camera, at);
    const off = spot ? Math.abs(spot.plane.normal.reduce((sum, part, index) => sum + part * (position[index]! - spot.plane.onPlane[index]!), 0)) : Infinity;
    const onWall = spot !== undefined && !spot.level && off <= 2 * offWallM;
    return { onPlane: position, normal: onWall ? spot.plane.normal : [0, 0, 1] };
  }

  #moving({ base, lamp, plane, offset }: Hold & { what: 'move' }, at: Pixel): Operation[] {
    const { camera } = this.#photo;
    const to = camera && siteFromPixel(camera, [at[0] + offset[0], at[1] + offset[1]], plane);
    return to ? moveLampChanges(base, lamp, to) : [];
  }

  #aiming(lamp: Luminaire, at: Pixel): Operation[] {
    const { camera, view } = this.#photo;
    const spot = camera && view && spotUnder(view, camera, at);
    const { position, azimuth_deg } = lamp;
    return spot && position ? aimChanges(lamp, aimAt(position, spot.place, this.#session.document.plan?.north_deg, azimuth_deg)) : [];
  }

  #aimMark(lamp: Luminaire): Pixel | undefined {
    const { camera } = this.#photo;
    const { document } = this.#session;
    if (!camera || !lamp.position || !isAimed(luminaireItem(document, lamp.item))) return undefined;
    const isSet = lamp.azimuth_deg !== undefined || lamp.tilt_deg !== undefined;
    const way = isSet ? wayOfAim(lamp.azimuth_deg ?? 0, lamp.tilt_deg ?? 0, document.plan?.north_deg) : ([0, 0, 1] as const);
    const reachM = Math.max(aimMarkM, aimMarkShare * camera.width_px * metresPerPixel(camera, lamp.position));
    const [x, y, z] = lamp.position;
    return pixelFromSite(camera, [x + way[0] * reachM, y + way[1] * reachM, z + way[2] * reachM]);
  }
}
