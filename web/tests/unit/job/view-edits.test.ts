// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { addMark, addView, findView, moveCorner, removeMark, setWall } from '../../../src/job/edits/views';
import { applyOperations } from '../../../src/job/operations';
import { garden } from '../support/garden';

const corners = [[0, 10], [10, 10], [10, 0], [0, 0]] as const;
const wall = { corners_px: corners, left: [0, 0, 0], right: [4, 0, 0], height_m: 3 } as const;
const added = addView(garden(), { image: 'a'.repeat(64), widthPx: 40, heightPx: 30, focalPx: 55 });
const job = applyOperations(garden(), added.command.changes).document;
const view = findView(job, added.id)!;

describe('a photograph in the job', () => {
  it('has its size, its focal length and a name of its own', () => {
    expect(view).toMatchObject({ name: 'Photograph 1', width_px: 40, height_px: 30, calibration: { method: 'vanishing_points', focal_px: 55 } });
    expect(addView(job, { image: 'b', widthPx: 1, heightPx: 1 }).command.label).toBe('Bring in Photograph 2');
  });

  it('takes a wall without losing what else is known, and gives it back', () => {
    const { document, inverse } = applyOperations(job, setWall(view, wall, 'Mark the known wall').changes);
    expect(findView(document, view.id)!.calibration).toEqual({ method: 'vanishing_points', focal_px: 55, wall });
    expect(applyOperations(document, inverse).document).toEqual(job);
  });

  it('moves one corner and leaves the others', () => {
    const walled = applyOperations(job, setWall(view, wall, '').changes).document;
    const change = moveCorner(findView(walled, view.id)!, 'wall', '', 2, [11, 1])!;
    const moved = findView(applyOperations(walled, [change]).document, view.id)!;
    expect(moved.calibration!.wall!.corners_px).toEqual([[0, 10], [10, 10], [11, 1], [0, 0]]);
    expect(moveCorner(view, 'wall', '', 0, [1, 1])).toBeUndefined();
  });

  it('holds measures, and lets them go', () => {
    const { id, command } = addMark(view, 'measures', { from_px: [1, 2], to_px: [3, 4] }, 'Measure');
    const measured = applyOperations(job, command.changes).document;
    const change = moveCorner(findView(measured, view.id)!, 'measures', id, 1, [9, 9])!;
    const moved = applyOperations(measured, [change]).document;
    expect(findView(moved, view.id)!.measures).toEqual([{ id, from_px: [1, 2], to_px: [9, 9] }]);
    const gone = applyOperations(moved, removeMark(findView(moved, view.id)!, 'measures', id, 'Remove').changes).document;
    expect(findView(gone, view.id)!.measures).toEqual([]);
  });
});
