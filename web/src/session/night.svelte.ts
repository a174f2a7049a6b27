// SPDX-License-Identifier: Apache-2.0
// The night of a photograph: asked for anew whenever the job, the look or what is tried on a lamp changes; the newest
// wins. Works at a size that a hand can drag at; the file for the client is made from the same engine.
import { tick } from 'svelte';
import { LatestWins } from '../engine/latest';
import { startNight, type LampTrial, type NightEngine, type NightFacts, type NightPicture, type NightProbe } from '../engine/night';
import type { JobDocument } from '../job/document';
import type { ShownPicture } from './photo.svelte';

interface Question {
  readonly document: JobDocument;
  readonly view: string;
  readonly lamps: Readonly<Record<string, LampTrial>>;
}

/** Of the picture that is calculated while one works on it. */
const workPixels = 500_000;
/** Of the one for the client: each lamp's light of so many places has to fit into the browser's memory. */
const largePixels = 2_000_000;

const longestWaitMilliseconds = 300;

const shareFor = ({ widthPx, heightPx }: ShownPicture, pixels: number): number => Math.min(1, Math.sqrt(pixels / (widthPx * heightPx)));

export class Night {
  #start: () => NightEngine;
  #engine: NightEngine | undefined;
  #given: ShownPicture | undefined;
  #photograph: Promise<void> | undefined;
  #queue: LatestWins<Question, NightPicture>;
  #probeNumber = 0;
  #waiting: (() => void)[] = [];

  on = $state(false);
  image: ImageData | undefined = $state.raw();
  facts: NightFacts | undefined = $state.raw();
  milliseconds = $state(0);
  busy = $state(false);
  failure: string | undefined = $state();
  probed: NightProbe | undefined = $state.raw();
  /** Lamps that are switched off for a look. */
  off: ReadonlySet<string> = $state.raw(new Set());
  /** Elements of the calculated picture for one of the photograph. */
  scale = $state(1);

  constructor(start: () => NightEngine = startNight) {
    this.#start = start;
    this.#queue = new LatestWins<Question, NightPicture>(
      (question) => this.#picture(question),
      (picture) => {
        this.image = picture.image;
        this.facts = picture.facts;
        this.milliseconds = picture.milliseconds;
        this.failure = undefined;
        this.#rested();
      },
      (error) => {
        this.failure = error instanceof Error ? error.message : String(error);
        this.image = undefined;
        this.#rested();
      },
    );
  }

  ask(document: JobDocument, view: string, picture: ShownPicture): void {
    if (this.#given !== picture) this.#give(picture);
    this.busy = true;
    this.#queue.put({ document, view, lamps: this.#trials() });
  }

  /** Once the picture in work is there, or after a while: a hand that never rests holds up nothing for ever. */
  async rest(): Promise<void> {
    // What was changed just now is asked for once the page has followed.
    await tick();
    if (!this.busy) return;
    await Promise.race([new Promise<void>((resolve) => this.#waiting.push(resolve)), new Promise((resolve) => setTimeout(resolve, longestWaitMilliseconds))]);
  }

  switchLamp(id: string, on: boolean): void {
    const off = new Set(this.off);
    if (on) off.delete(id);
    else off.add(id);
    this.off = off;
  }

  switchAll(on: boolean, ids: readonly string[]): void {
    this.off = new Set(on ? [] : ids);
  }

  /** What lies under an element of the photograph. */
  async probe(x: number, y: number): Promise<void> {
    if (!this.#engine || !this.image) return;
    const number = ++this.#probeNumber;
    try {
      const probed = await this.#engine.probe(x * this.scale, y * this.scale);
      if (number === this.#probeNumber) this.probed = probed;
    } catch {
      // The next move asks again.
      this.probed = undefined;
    }
  }

  /** The picture for the client, larger; in an engine of its own, which goes again. */
  async large(document: JobDocument, view: string, picture: ShownPicture): Promise<NightPicture> {
    const engine = this.#start();
    try {
      await engine.photograph(pixelsOf(picture, shareFor(picture, largePixels)));
      return await engine.picture(document, { view, lamps: this.#trials() });
    } finally {
      engine.end();
    }
  }

  end(): void {
    this.#engine?.end();
    this.#engine = undefined;
    this.#given = undefined;
    this.image = undefined;
    this.facts = undefined;
    this.probed = undefined;
    this.on = false;
  }

  #rested(): void {
    if (this.#queue.hasNewer) return;
    this.busy = false;
    for (const resolve of this.#waiting.splice(0)) resolve();
  }

  #trials(): Readonly<Record<string, LampTrial>> {
    return Object.fromEntries([...this.off].map((id) => [id, { share: 0 }]));
  }

  #give(picture: ShownPicture): void {
    this.#given = picture;
    this.#engine ??= this.#start();
    this.scale = shareFor(picture, workPixels);
    this.#photograph = this.#engine.photograph(pixelsOf(picture, this.scale));
  }

  async #picture({ document, view, lamps }: Question): Promise<NightPicture> {
    await this.#photograph;
    return this.#engine!.picture(document, { view, lamps });
  }
}

/** The photograph's elements at a share of its size. */
export function pixelsOf(picture: ShownPicture, scale: number): ImageData {
  const [widthPx, heightPx] = [Math.max(1, Math.round(picture.widthPx * scale)), Math.max(1, Math.round(picture.heightPx * scale))];
  const canvas = new OffscreenCanvas(widthPx, heightPx);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error('This browser has no room to draw the picture.');
  context.imageSmoothingQuality = 'high';
  context.drawImage(picture.bitmap, 0, 0, widthPx, heightPx);
  return context.getImageData(0, 0, widthPx, heightPx);
}
