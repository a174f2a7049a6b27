// SPDX-License-Identifier: Apache-2.0
// Reads a printed PDF with poppler's tools, in millimetres of paper from the top left corner, for the tests beside this
// file.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const mmPerPt = 25.4 / 72;

/** Size and number of pages; words and drawn paths of the first page. */
export function readPdf(bytes) {
  const folder = mkdtempSync(join(tmpdir(), 'duskwire-print-'));
  try {
    const file = join(folder, 'sheet.pdf');
    writeFileSync(file, bytes);
    const run = (tool, ...args) => execFileSync(tool, args, { encoding: 'utf8', maxBuffer: 1 << 28 });
    const facts = run('pdfinfo', file);
    const [, width, height] = /^Page size:\s+([\d.]+) x ([\d.]+) pts/m.exec(facts);
    return {
      pages: Number(/^Pages:\s+(\d+)/m.exec(facts)[1]),
      widthMm: width * mmPerPt,
      heightMm: height * mmPerPt,
      text: run('pdftotext', '-layout', file, '-'),
      words: wordsOf(run('pdftotext', '-bbox', '-f', '1', '-l', '1', file, '-')),
      paths: pathsOf(run('pdftocairo', '-svg', '-f', '1', '-l', '1', file, '-')),
    };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function wordsOf(html) {
  return [...html.matchAll(/<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)</g)].map(
    ([, left, top, right, bottom, text]) => ({ text, left: left * mmPerPt, top: top * mmPerPt, right: right * mmPerPt, bottom: bottom * mmPerPt }),
  );
}

// Bounds of each path by its points; letters are symbols, not paths, and left out.
function pathsOf(svg) {
  const drawn = svg.replace(/<defs>[\s\S]*?<\/defs>/g, '');
  return [...drawn.matchAll(/<path [^>]*\bd="([^"]+)"([^>]*)/g)].map(([, d, rest]) => {
    const [a, b, c, e, x0, y0] = /matrix\(([^)]+)\)/.exec(rest)?.[1].split(',').map(Number) ?? [1, 0, 0, 1, 0, 0];
    const numbers = d.match(/-?\d+(\.\d+)?(e-?\d+)?/g).map(Number);
    const xs = [];
    const ys = [];
    for (let i = 0; i + 1 < numbers.length; i += 2) {
      xs.push((a * numbers[i] + c * numbers[i + 1] + x0) * mmPerPt);
      ys.push((b * numbers[i] + e * numbers[i + 1] + y0) * mmPerPt);
    }
    return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys), curved: d.includes('C') };
  });
}
