// SPDX-License-Identifier: Apache-2.0
// The night view of a photograph, calculated in a worker of its own so that checks stay as quick as ever. The engine
// keeps each lamp's light: a lamp that is switched, dimmed or coloured costs a sum, a lamp that is moved costs its own
// light only.
import type { JobDocument } from '../job/document';
import { changedParts } from './changed-parts';
import { EngineRefusal } from './client';
import { NightChannel, startNightChannel, type NightAnswer } from './night-channel';

/** How the night is shown; what is absent is as the view in the job says. */
export interface NightLook {
  /** 0: as the adapted eye sees it, 1: as a camera would expose it. */
  readonly camera_share?: number;
  readonly exposure_stops?: number;
  /** Moon and sky on level ground. */
  readonly ambient_lx?: number;
  /** Light of this colour looks white. */
  readonly white_k?: number;
}

/** What is tried on a lamp without writing it into the job. */
export interface LampTrial {
  /** On top of what the job and its volts say; 0 is off. */
  readonly share?: number;
  readonly colour_temperature_k?: number;
}

export interface NightWish {
  /** Id of the view in the job. */
  readonly view: string;
  readonly look?: NightLook;
  /** By id of the luminaire. */
  readonly lamps?: Readonly<Record<string, LampTrial>>;
}

export interface NightLamp {
  readonly id: string;
  readonly name: string;
  /** Of its full light: dimming and what its volts leave. */
  readonly share: number;
  readonly colour_temperature_k: number;
  readonly is_in_picture: boolean;
}

export interface NightFacts {
  readonly width_px: number;
  readonly height_px: number;
  /** The luminance that exposure is found from. */
  readonly adaptation_cd_m2: number;
  /** How much of the picture lies on a surface that takes light. */
  readonly lit_share: number;
  readonly lamps: readonly NightLamp[];
  /** What was assumed, a sentence each: for the caption of an export. */
  readonly assumptions: readonly string[];
  /** What a person should look at, a sentence each. */
  readonly remarks: readonly string[];
  /** Ids of the lamps whose light was calculated anew. */
  readonly recomputed: readonly string[];
}

export interface NightPicture {
  readonly image: ImageData;
  readonly facts: NightFacts;
  /** Inside the engine. */
  readonly milliseconds: number;
}

/** What lies under a place of the picture. */
export interface NightProbe {
  /** Id of the surface, tree or mask; empty where there is none. */
  readonly piece: string;
  /** Nothing where no surface takes light. */
  readonly lux: number | null;
  readonly cd_m2: number;
  readonly reflectance: number | null;
  readonly site: readonly [x_m: number, y_m: number, z_m: number] | null;
  /** Brightest first, those that give less than a hundredth of the light left out. */
  readonly lamps: readonly { readonly id: string; readonly lux: number }[];
}

export interface NightEngine {
  /** The photograph at the size at which it is shown; give it before the first picture, and when the size changes. */
  photograph(image: ImageData): Promise<void>;
  /** The night as the job stands. Only what differs from the last one is calculated anew. */
  picture(document: JobDocument, wish: NightWish): Promise<NightPicture>;
  /** In elements of the photograph given, of the picture last made. */
  probe(x_px: number, y_px: number): Promise<NightProbe>;
  /** Lets go of the worker and all that it keeps. */
  end(): void;
}

// The engine takes the look flat and the lamps as a list.
const asked = ({ view, look, lamps }: NightWish): unknown => ({
  view,
  ...look,
  ...(lamps && { lamps: Object.entries(lamps).map(([id, trial]) => ({ id, ...trial })) }),
});

export const startNight = (start: () => NightChannel = startNightChannel): NightEngine => new WorkerNight(start);

class WorkerNight implements NightEngine {
  #start: () => NightChannel;
  #channel: NightChannel | undefined;
  #kept: JobDocument | undefined;

  constructor(start: () => NightChannel) {
    this.#start = start;
  }

  async photograph(image: ImageData): Promise<void> {
    this.#channel ??= this.#start();
    await this.#channel.call({ verb: 'night_photograph', given: [], image });
  }

  async picture(document: JobDocument, wish: NightWish): Promise<NightPicture> {
    const start = performance.now();
    const { text, image, milliseconds } = await this.#made(document, JSON.stringify(asked(wish)));
    if (!image) throw new EngineRefusal('The engine sent no picture.');
    const facts = JSON.parse(text) as NightFacts;
    // For tools/bench.mjs.
    performance.clearMeasures('duskwire night');
    performance.measure('duskwire night', { start, end: performance.now(), detail: { engineMilliseconds: milliseconds, recomputed: facts.recomputed.length } });
    return { image, facts, milliseconds };
  }

  // The engine keeps the last document: of the next one only what differs is sent. Where that does not fit, the whole is.
  async #made(document: JobDocument, wish: string): Promise<NightAnswer> {
    const parts = this.#kept && changedParts(this.#kept, document);
    this.#kept = document;
    if (parts) {
      try {
        return await this.#given().call({ verb: 'night_changed', given: [JSON.stringify(parts), wish] });
      } catch (error) {
        if (!(error instanceof EngineRefusal) || error.code !== 'not_found') throw error;
      }
    }
    return this.#given().call({ verb: 'night_picture', given: [JSON.stringify(document), wish] });
  }

  async probe(x_px: number, y_px: number): Promise<NightProbe> {
    const { text } = await this.#given().call({ verb: 'night_probe', given: [JSON.stringify([x_px, y_px])] });
    return JSON.parse(text) as NightProbe;
  }

  end(): void {
    this.#channel?.end(new EngineRefusal('The night view was closed.', [], 'ended'));
    this.#channel = undefined;
    this.#kept = undefined;
  }

  #given(): NightChannel {
    if (!this.#channel) throw new EngineRefusal('Give the photograph before asking for its night.', [], 'not_found');
    return this.#channel;
  }
}
