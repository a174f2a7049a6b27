// SPDX-License-Identifier: Apache-2.0
// The page's icons as paths in a box of 20 by 20.

export const icons = {
  undo: ['M7 4 3 8l4 4', 'M3 8h8.5a5 5 0 0 1 0 10H8'],
  redo: ['M13 4l4 4-4 4', 'M17 8H8.5a5 5 0 0 0 0 10H12'],
  plus: ['M10 3.5v13', 'M3.5 10h13'],
  minus: ['M3.5 10h13'],
  close: ['M4.5 4.5l11 11', 'M15.5 4.5l-11 11'],
  search: ['M8.5 3.5a5 5 0 1 0 0 10 5 5 0 0 0 0-10z', 'M12.3 12.3 17 17'],
  fit: ['M3 7V3h4', 'M13 3h4v4', 'M17 13v4h-4', 'M7 17H3v-4'],
  layers: ['M10 3 3 7l7 4 7-4z', 'M3 11l7 4 7-4'],
  more: ['M4.5 10h.01', 'M10 10h.01', 'M15.5 10h.01'],
  back: ['M12 4l-6 6 6 6'],
  down: ['M4.5 7.5 10 13l5.5-5.5'],
  up: ['M4.5 12.5 10 7l5.5 5.5'],
  file: ['M5 2.5h6.5L15.5 7v10.5h-10.5z', 'M11.5 2.5V7h4'],
  picture: ['M3 4h14v12H3z', 'M3 14l4.5-4.5 3.5 3.5 2.5-2.5L17 14', 'M12.5 7.5h.01'],
  table: ['M3 4h14v12H3z', 'M3 8h14', 'M3 12h14', 'M8 4v12'],
  copy: ['M7 7h10v10H7z', 'M13 7V3H3v10h4'],
  archive: ['M3 4h14v4H3z', 'M4 8v9h12V8', 'M8 11h4'],
  lamp: ['M6 9a4 4 0 0 1 8 0', 'M4 9h12', 'M10 9v8', 'M7.5 17h5'],
  transformer: ['M5 3h10v14H5z', 'M8 7h4', 'M8 10h4', 'M8 17v2', 'M12 17v2'],
  cable: ['M3 15c4 0 3-10 7-10s3 10 7 10'],
  joint: ['M10 6.5a3.5 3.5 0 1 0 0 7 3.5 3.5 0 0 0 0-7z', 'M1.5 10h5', 'M13.5 10h5'],
  warning: ['M10 3 2.5 16.5h15z', 'M10 8.5v3.5', 'M10 14.5h.01'],
  error: ['M6.5 2.5h7l4 4v7l-4 4h-7l-4-4v-7z', 'M7.5 7.5l5 5', 'M12.5 7.5l-5 5'],
  note: ['M10 2.5a7.5 7.5 0 1 0 0 15 7.5 7.5 0 0 0 0-15z', 'M10 9v5', 'M10 6.2h.01'],
  check: ['M3.5 10.5 8 15l8.5-10'],
  settings: ['M3 6h14', 'M3 14h14', 'M7 4v4', 'M13 12v4'],
  pointer: ['M5 3l10 7-4.5 1 2.5 5-2 1-2.5-5L5 15z'],
  measure: ['M2.5 13.5l11-11 4 4-11 11z', 'M6 10l1.5 1.5', 'M8.5 7.5l2.5 2.5', 'M11 5l1.5 1.5'],
  remove: ['M4 5.5h12', 'M8 5.5V3.5h4v2', 'M5.5 5.5l1 11h7l1-11', 'M8.5 8.5v5', 'M11.5 8.5v5'],
  help: ['M7 7.5a3 3 0 1 1 4.5 2.6c-1 .6-1.5 1-1.5 2.4', 'M10 15.5h.01'],
  locate: ['M10 5.5a4.5 4.5 0 1 0 0 9 4.5 4.5 0 0 0 0-9z', 'M10 1.5v4', 'M10 14.5v4', 'M1.5 10h4', 'M14.5 10h4'],
} as const satisfies Record<string, readonly string[]>;

export type IconName = keyof typeof icons;
