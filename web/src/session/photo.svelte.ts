// SPDX-License-Identifier: Apache-2.0
// The photographs of an open job: which one is looked at, its picture, and the camera that the engine finds for it. A
// known wall is kept here until it is whole (four corners and place; its height may stay unknown, which is 0): only
// then has the job a place for it.
import { Superseded } from '../engine/client';
import type { CalibrationAnswer, Camera, ProposedPlane } from '../engine/calibration';
import { LatestWins } from '../engine/latest';
import type { JobDocument, KnownWall, View } from '../job/document';
import { addView, findView, setWall } from '../job/edits/views';
import { exifFocalPx } from '../storage/exif-focal';
import { imageSize } from '../storage/image-size';
import { takePicture } from '../storage/picture';
import type { JobSession } from './job-session.svelte';

export interface ShownPicture {
  readonly image: string;
  readonly bitmap: ImageBitmap;
  readonly url: string;
  readonly widthPx: number;
  readonly heightPx: number;
}

type PhotoSession = Pick<JobSession, 'document' | 'engine' | 'store' | 'pictures'>;
type Question = readonly [JobDocument, View];

// Enough of a file to hold what its camera noted.
const notedBytes = 2 ** 20;

export class Photo {
  #session: PhotoSession;
  #chosen: string | undefined = $state();
  #queue: LatestWins<Question, CalibrationAnswer>;
  #asked: View | undefined;

  picture: ShownPicture | undefined = $state.raw();
  pictureTrouble: string | undefined = $state();
  answer: CalibrationAnswer | undefined = $state.raw();
  /** The view that `answer` speaks of. */
  of: View | undefined = $state.raw();
  failure: string | undefined = $state();
  draft: Partial<KnownWall> = $state.raw({});

  constructor(session: PhotoSession) {
    this.#session = session;
    this.#queue = new LatestWins<Question, CalibrationAnswer>(
      ([document, { id }]) => session.engine.calibrate(document, id),
      (answer, [, view]) => this.#take(view, answer, answer.problem ?? undefined),
      (error, [, view]) => {
        if (!(error instanceof Superseded)) this.#take(view, undefined, error instanceof Error ? error.message : String(error));
      },
    );
  }

  get views(): readonly View[] {
    return this.#session.document.views ?? [];
  }

  /** The one that is looked at: the chosen one, or the first. */
  get view(): View | undefined {
    return findView(this.#session.document, this.#chosen) ?? this.views[0];
  }

  get camera(): Camera | undefined {
    return this.of !== undefined && this.of.id === this.view?.id ? (this.answer?.camera ?? undefined) : undefined;
  }

  /** What surfaces may lie on, as the engine hangs it on the known wall. */
  get planes(): readonly ProposedPlane[] {
    return this.camera ? (this.answer?.planes ?? []) : [];
  }

  /** The known wall, as far as it is known. */
  get wall(): Partial<KnownWall> {
    return this.view?.calibration?.wall ?? this.draft;
  }

  choose(id: string): void {
    if (id === this.view?.id) return;
    this.#chosen = id;
    this.draft = {};
    this.answer = undefined;
    this.failure = undefined;
  }

  /** Once whole, the wall is in the job, and so is each change of it. */
  editWall(change: Partial<KnownWall>, label: string, merge?: string): void {
    const { view } = this;
    if (!view) return;
    if (view.calibration?.wall) return this.#session.store.run(setWall(view, change, label), merge);
    this.draft = { ...this.draft, ...change };
    const { corners_px, left, right, height_m } = this.draft;
    if (corners_px?.length !== 4 || !left || !right) return;
    this.#session.store.run(setWall(view, { ...this.draft, height_m: height_m ?? 0 }, 'Mark the known wall'));
    this.draft = {};
  }

  /** Takes a picture file in as a new view of the job, upright and without what its file told besides. */
  async bringIn(file: Blob, name?: string): Promise<void> {
    const noted = new Uint8Array(await file.slice(0, notedBytes).arrayBuffer());
    const before = imageSize(noted);
    const focal = before && exifFocalPx(noted, before.widthPx, before.heightPx);
    const { blob, widthPx, heightPx } = await takePicture(file);
    const image = await this.#session.pictures.put(blob);
    // It may have been scaled, and turned upright: the longer side stays the longer one.
    const scale = before ? Math.max(widthPx, heightPx) / Math.max(before.widthPx, before.heightPx) : 1;
    const { id, command } = addView(this.#session.document, { image, widthPx, heightPx, focalPx: focal === undefined ? undefined : focal * scale, ...(name !== undefined && { name }) });
    this.#session.store.run(command);
    this.choose(id);
  }

  /** Asks for the camera where the view is another one than before. */
  ask(): void {
    const { view } = this;
    if (!view || view === this.#asked) return;
    this.#asked = view;
    this.#queue.put([this.#session.document, view]);
  }

  /** Loads the picture of the view; returns how to let go of it. */
  load(image: string): () => void {
    let gone = false;
    let made: ShownPicture | undefined;
    this.pictureTrouble = undefined;
    const fetchIt = async (): Promise<void> => {
      const blob = await this.#session.pictures.get(image);
      const bitmap = await createImageBitmap(blob, { imageOrientation: 'from-image' });
      made = { image, bitmap, url: URL.createObjectURL(blob), widthPx: bitmap.width, heightPx: bitmap.height };
      if (gone) letGo(made);
      else this.picture = made;
    };
    fetchIt().catch(() => {
      if (!gone) this.pictureTrouble = 'The picture of this photograph is not on this device.';
    });
    return () => {
      gone = true;
      if (made) letGo(made);
      this.picture = undefined;
    };
  }

  #take(view: View, answer: CalibrationAnswer | undefined, failure: string | undefined): void {
    if (view.id !== this.view?.id) return;
    this.answer = answer;
    this.failure = failure;
    this.of = view;
  }
}

function letGo({ url, bitmap }: ShownPicture): void {
  URL.revokeObjectURL(url);
  bitmap.close();
}
