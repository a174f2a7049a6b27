// SPDX-License-Identifier: Apache-2.0
// Edits of a photograph of the garden: taking one in, its known wall, what is outlined and measured on it, and the look
// of its night. A list that the document lacks is made by the first insert.
import type { JobDocument, KnownWall, NightLook, PictureMask, PictureMeasure, PictureSurface, PictureTree, Point2, View } from '../document';
import { nextName, randomId } from '../ids';
import type { Command, Operation, Path } from '../operations';

export type MarkList = 'surfaces' | 'trees' | 'masks' | 'measures';
export type Mark = PictureSurface | PictureTree | PictureMask | PictureMeasure;

/** What a file said about the photograph. */
export interface TakenView {
  readonly image: string;
  readonly widthPx: number;
  readonly heightPx: number;
  /** From the camera's own note, in elements of the photograph as kept. */
  readonly focalPx?: number | undefined;
  readonly name?: string;
}

export const viewPath = (id: string): Path => ['views', { id }];
export const findView = (job: JobDocument, id: string | undefined): View | undefined => job.views?.find((view) => view.id === id);

export function addView(job: JobDocument, { image, widthPx, heightPx, focalPx, name }: TakenView): { readonly id: string; readonly command: Command } {
  const id = randomId('view');
  const value: View = {
    id,
    name: name ?? nextName('Photograph', (job.views ?? []).map((view) => view.name)),
    image,
    width_px: widthPx,
    height_px: heightPx,
    ...(focalPx !== undefined && { calibration: { method: 'vanishing_points', focal_px: focalPx } }),
  };
  return { id, command: { label: `Bring in ${value.name}`, changes: [{ op: 'insert', path: ['views'], value }] } };
}

export const removeView = (view: View): Command => ({ label: `Remove ${view.name ?? 'the photograph'}`, changes: [{ op: 'remove', path: viewPath(view.id) }] });

export const renameView = (view: View, name: string): Command => ({ label: 'Name of the photograph', changes: [setIn(view, ['name'], name === '' ? undefined : name)] });

const setIn = (view: View, path: Path, value: unknown): Operation => ({ op: 'set', path: [...viewPath(view.id), ...path], value });

/** The first time it must be the whole wall. A view without a method gets one along with it. */
export function setWall(view: View, change: Partial<KnownWall>, label: string): Command {
  const changes: Operation[] = view.calibration?.method === undefined ? [setIn(view, ['calibration', 'method'], 'vanishing_points')] : [];
  for (const [key, value] of Object.entries(change)) changes.push(setIn(view, ['calibration', 'wall', key], value));
  return { label, changes };
}

export const forgetWall = (view: View): Command => ({ label: 'Mark the wall anew', changes: [setIn(view, ['calibration', 'wall'], undefined), ...(view.calibration?.adjoining_px ? [setIn(view, ['calibration', 'adjoining_px'], undefined)] : [])] });

/** Its far edge, lower end first; undefined: there is none. */
export const setAdjoining = (view: View, edge: readonly Point2[] | undefined, label: string): Command => ({ label, changes: [setIn(view, ['calibration', 'adjoining_px'], edge)] });

export const setCalibration = (view: View, key: 'click_error_px' | 'focal_px' | 'method', value: unknown, label: string): Command => ({
  label,
  changes: [...(view.calibration?.method === undefined && key !== 'method' ? [setIn(view, ['calibration', 'method'], 'vanishing_points')] : []), setIn(view, ['calibration', key], value)],
});

export function addMark<L extends MarkList>(view: View, list: L, mark: Omit<NonNullable<View[L]>[number], 'id'>, label: string): { readonly id: string; readonly command: Command } {
  const id = randomId({ surfaces: 'surface', trees: 'cutout', masks: 'mask', measures: 'measure' }[list]);
  return { id, command: { label, changes: [{ op: 'insert', path: [...viewPath(view.id), list], value: { id, ...mark } }] } };
}

export const setMark = (view: View, list: MarkList, id: string, changes: Readonly<Record<string, unknown>>, label: string): Command => ({
  label,
  changes: Object.entries(changes).map(([key, value]) => setIn(view, [list, { id }, key], value)),
});

export const removeMark = (view: View, list: MarkList, id: string, label: string): Command => ({ label, changes: [{ op: 'remove', path: [...viewPath(view.id), list, { id }] }] });

/** The whole outline of a mark, or of one of the walls that fix the camera, with one corner moved. */
export function moveCorner(view: View, list: MarkList | 'wall' | 'adjoining', id: string | undefined, index: number, to: Point2): Operation | undefined {
  if (list === 'wall') {
    const corners = view.calibration?.wall?.corners_px;
    return corners && setIn(view, ['calibration', 'wall', 'corners_px'], corners.map((corner, at) => (at === index ? to : corner)));
  }
  if (list === 'adjoining') {
    const edge = view.calibration?.adjoining_px;
    return edge && setIn(view, ['calibration', 'adjoining_px'], edge.map((corner, at) => (at === index ? to : corner)));
  }
  const mark = (view[list] as readonly Mark[] | undefined)?.find((one) => one.id === id);
  if (!mark || id === undefined) return undefined;
  if ('outline_px' in mark) return setIn(view, [list, { id }, 'outline_px'], mark.outline_px.map((corner, at) => (at === index ? to : corner)));
  return setIn(view, [list, { id }, index === 0 ? 'from_px' : 'to_px'], to);
}

export const setNight = (view: View, key: keyof NightLook, value: number | undefined, label: string): Command => ({ label, changes: [setIn(view, ['night', key], value)] });
