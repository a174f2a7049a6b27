// SPDX-License-Identifier: Apache-2.0
import { expect, it } from 'vitest';
import { areaNames } from '../../../../src/plan/sheet/area-names';
import { labelPlaces, type Label, type Mark } from '../../../../src/plan/sheet/label-places';

const mark = (id: string, x: number, y: number): Mark => ({ id, x, y, radius: 6, width: 40, height: 8 });
const room = { width: 400, height: 300 };
const overlap = (a: Label, b: Label): boolean => Math.abs(a.x - b.x) < (a.width + b.width) / 2 - 1e-6 && Math.abs(a.y - b.y) < (a.height + b.height) / 2 - 1e-6;

it('stands at the right of a mark that is alone, without a line', () => {
  expect(labelPlaces([mark('F1', 100, 100)], room)).toEqual([{ id: 'F1', x: 127.5, y: 100, width: 40, height: 8, line: undefined }]);
});

it('turns to the left where the right is beyond the drawing or across a cable', () => {
  expect(labelPlaces([mark('F1', 390, 100)], room)[0]!.x).toBeLessThan(390);
  expect(labelPlaces([mark('F1', 100, 100)], { ...room, lines: [[[130, 0], [130, 300]]] })[0]!.x).toBeLessThan(100);
});

it('keeps all labels of a crowd apart from each other and off the marks', () => {
  const crowd = Array.from({ length: 12 }, (_, index) => mark(`F${index}`, 150 + (index % 4) * 16, 120 + Math.floor(index / 4) * 16));
  const labels = labelPlaces(crowd, room);
  expect(labels).toHaveLength(12);
  for (const [index, label] of labels.entries()) {
    for (const other of labels.slice(index + 1)) expect(overlap(label, other), `${label.id} on ${other.id}`).toBe(false);
    for (const { id, x, y } of crowd) expect(overlap(label, { ...label, x, y, width: 12, height: 12 }), `${label.id} on the mark ${id}`).toBe(false);
  }
});

it('draws a line back from a label that had to move away', () => {
  const crowd = Array.from({ length: 9 }, (_, index) => mark(`F${index}`, 150 + (index % 3) * 13, 120 + Math.floor(index / 3) * 13));
  const away = labelPlaces(crowd, room).find(({ line }) => line);
  const of = crowd.find(({ id }) => id === away!.id)!;
  const [x, y] = away!.line!;
  expect(Math.hypot(x - of.x, y - of.y)).toBeCloseTo(of.radius, 6);
});

it('leaves out labels that find no place, rather than laying them on others', () => {
  const crowd = Array.from({ length: 300 }, (_, index) => mark(`F${index}`, 105 + (index % 15) * 13, 55 + Math.floor(index / 15) * 10));
  const labels = labelPlaces(crowd, room);
  expect(labels.length).toBeGreaterThan(0);
  expect(labels.length).toBeLessThan(300);
});

it('keeps two labels in a row apart, so that they do not read as one', () => {
  const [one, other] = labelPlaces([mark('B1', 100, 100), mark('B2', 197, 100)], { ...room, lines: [[[224, 0], [224, 300]]] });
  expect(Math.abs(other!.x - one!.x) - 40 >= 3 || Math.abs(other!.y - one!.y) >= 8).toBe(true);
});

it('leaves a mark without a label without one', () => {
  expect(labelPlaces([{ ...mark('J1', 50, 50), width: 0 }], room)).toEqual([]);
});

const size = (text: string) => ({ width: text.length * 5, height: 8 });
const square = (left: number, top: number, width: number, height: number) => [[left, top], [left + width, top], [left + width, top + height], [left, top + height]] as const;

it('names an area in its middle, upright where it is narrow, and not at all where it is too small', () => {
  const names = areaNames([
    { id: 'lawn', text: 'Lawn', outline: square(0, 0, 100, 60) },
    { id: 'walk', text: 'Walk', outline: square(200, 0, 12, 100) },
    { id: 'step', text: 'Step', outline: square(300, 0, 10, 10) },
  ], [], size);
  expect(names).toEqual([
    { id: 'lawn', text: 'Lawn', x: 50, y: 30, upright: false },
    { id: 'walk', text: 'Walk', x: 206, y: 50, upright: true },
  ]);
});

it('keeps the name off what is drawn over the area', () => {
  const [name] = areaNames([{ id: 'lawn', text: 'Lawn', outline: square(0, 0, 100, 60) }, { id: 'bed', text: 'A bed too long for it', outline: square(30, 0, 70, 60) }], [], size);
  expect(name!.id).toBe('lawn');
  expect(name!.x + 10).toBeLessThanOrEqual(30);
});
