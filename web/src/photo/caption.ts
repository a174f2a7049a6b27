// SPDX-License-Identifier: Apache-2.0
// The night picture as a file for the client: the picture with a strip of words below it that says what it is and what
// was assumed, drawn on a canvas.

export interface Caption {
  readonly title: string;
  readonly lines: readonly string[];
}

export const notice = 'A calculated impression of the lighting, no photograph of it. What is built may look otherwise.';

/** Words broken so that no line is wider than `widthPx`, by the measure of the letters given. */
export function brokenLines(text: string, widthPx: number, measure: (text: string) => number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && measure(longer) > widthPx) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return line === '' ? lines : [...lines, line];
}

const font = (px: number, bold: boolean): string => `${bold ? '700 ' : ''}${px}px 'Atkinson Hyperlegible Next Variable', system-ui, sans-serif`;

export async function pictureWithCaption(image: ImageData, { title, lines }: Caption): Promise<Blob> {
  const widthPx = image.width;
  const letterPx = Math.max(12, Math.round(widthPx / 70));
  const marginPx = letterPx;
  const rowPx = Math.round(letterPx * 1.4);
  const canvas = new OffscreenCanvas(1, 1);
  const context = canvas.getContext('2d');
  if (!context) throw new Error('This browser has no room to draw the picture.');
  context.font = font(letterPx, false);
  const measure = (text: string): number => context.measureText(text).width;
  const words = [notice, ...lines].flatMap((line) => brokenLines(line, widthPx - 2 * marginPx, measure));
  canvas.width = widthPx;
  canvas.height = image.height + 2 * marginPx + rowPx * (words.length + 1);
  context.fillStyle = '#101815';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.putImageData(image, 0, 0);
  context.textBaseline = 'top';
  context.fillStyle = '#e6ece7';
  context.font = font(letterPx, true);
  context.fillText(title, marginPx, image.height + marginPx, widthPx - 2 * marginPx);
  context.font = font(letterPx, false);
  words.forEach((line, index) => context.fillText(line, marginPx, image.height + marginPx + rowPx * (index + 1)));
  return canvas.convertToBlob({ type: 'image/png' });
}
