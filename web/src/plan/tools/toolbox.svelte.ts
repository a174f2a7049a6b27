// SPDX-License-Identifier: Apache-2.0
// The tools of one open plan: which is in hand, what each would place, and what is said aloud.
import { itemsOf, overlaid } from '../../job/catalogue';
import { groundKinds, type CableItem, type Catalogue, type LuminaireItem, type Point2, type TransformerItem } from '../../job/document';
import { spotKinds, type OutlineKind, type SpotKind } from '../../job/edits/site';
import type { ThingKind } from '../../job/lookup';
import type { JobSession } from '../../session/job-session.svelte';
import type { Layers } from '../../session/layers.svelte';
import { quantityText } from '../../units/quantity';
import { parseQuantity } from '../../units/parse';
import { act, everything } from './actions';
import { CableTool } from './cable-tool.svelte';
import { MeasureTool } from './measure-tool.svelte';
import { PlaceTool } from './place-tool.svelte';
import { SelectTool } from './select-tool.svelte';
import { ScaleTool } from './scale-tool.svelte';
import { AreaTool, SpotTool } from './site-tools.svelte';
import { snap, type Snap } from './snap';
import { TapeTool } from './tape-tool.svelte';
import type { Stroke, Tool, ToolContext } from './tool';
import type { ActionId, ToolId } from './tools';

export type Choosable = 'luminaires' | 'transformers' | 'cables';

export class Toolbox implements ToolContext {
  readonly session: JobSession;
  readonly layers: Layers;
  readonly tools: Record<ToolId, Tool>;
  current: ToolId = $state('select');
  snapping = $state(true);
  spoken = $state('');
  /** Setting the picture's scale enlarges what is drawn as well. */
  drawingAlong = $state(false);
  outlineKind: OutlineKind = $state('bed');
  spotKind: SpotKind = $state('tree');
  #chosen: Record<Choosable, string | undefined> = $state({ luminaires: undefined, transformers: undefined, cables: undefined });
  #catalogue: () => Catalogue;

  constructor(session: JobSession, catalogue: () => Catalogue) {
    this.session = session;
    this.layers = session.layers;
    this.#catalogue = catalogue;
    this.tools = {
      select: new SelectTool(this),
      light: new PlaceTool(this, 'light', () => wrapped('luminaire', this.chosen('luminaires') as LuminaireItem | undefined)),
      transformer: new PlaceTool(this, 'transformer', () => wrapped('transformer', this.chosen('transformers') as TransformerItem | undefined)),
      cable: new CableTool(this, () => this.chosen('cables') as CableItem | undefined),
      area: new AreaTool(this, () => this.outlineKind),
      spot: new SpotTool(this, () => this.spotKind),
      scale: new ScaleTool(this, () => this.drawingAlong),
      tape: new TapeTool(this),
      measure: new MeasureTool(this),
    };
  }

  get tool(): Tool {
    return this.tools[this.current];
  }

  /** What the current tool takes from the catalogue, if anything. */
  get choice(): Choosable | undefined {
    return ({ light: 'luminaires', transformer: 'transformers', cable: 'cables' } as const)[this.current as 'light'];
  }

  take(id: ToolId): void {
    if (this.current !== id) this.tool.cancel();
    this.current = id;
    this.say(this.tool.hint);
  }

  /** A kind to choose, for the tools that draw the site. */
  get kinds(): readonly (OutlineKind | SpotKind)[] {
    if (this.current === 'area') return [...groundKinds, 'property_line', 'sleeve'];
    return this.current === 'spot' ? spotKinds : [];
  }

  get kind(): OutlineKind | SpotKind {
    return this.current === 'area' ? this.outlineKind : this.spotKind;
  }

  chooseKind(kind: string): void {
    if (this.current === 'area') this.outlineKind = kind as OutlineKind;
    else this.spotKind = kind as SpotKind;
  }

  /** Items to choose from: those that the job has already first. */
  options(section: Choosable): readonly (LuminaireItem | TransformerItem | CableItem)[] {
    const own = itemsOf(this.session.document.catalogue, section);
    const known = new Set(own.map(({ id }) => id));
    return [...own, ...itemsOf(overlaid(this.#catalogue(), null), section).filter(({ id }) => !known.has(id))];
  }

  chosen(section: Choosable): LuminaireItem | TransformerItem | CableItem | undefined {
    const options = this.options(section);
    return options.find(({ id }) => id === this.#chosen[section]) ?? options[0];
  }

  choose(section: Choosable, id: string): void {
    this.#chosen[section] = id;
  }

  takes(kind: ThingKind): boolean {
    return this.layers.takes(kind);
  }

  snap(stroke: Stroke, from?: Point2, without?: ReadonlySet<string>): Snap | undefined {
    if (!this.snapping || stroke.free) return undefined;
    const takes = (kind: ThingKind): boolean => this.layers.takes(kind);
    return snap({ job: this.session.document, at: stroke.at, radiusM: stroke.radiusM, from, takes, ...(without && { without }) });
  }

  length(metres: number): string {
    return quantityText(metres, 'length', this.session.units);
  }

  say(words: string): void {
    // The same words again are read again only where they differ: a space that does not break does.
    this.spoken = this.spoken === words ? `${words}\u00a0` : words;
  }

  act(id: ActionId): void {
    const refs = this.session.selection.refs;
    const allowed = refs.filter(({ kind }) => this.layers.takes(kind));
    const done = allowed.length === 0 ? undefined : act(this.session, id, allowed);
    this.say(done ?? (refs.length > 0 && allowed.length === 0 ? 'The layer of what is selected is locked.' : 'That does nothing to what is selected.'));
  }

  selectAll(): void {
    const refs = everything(this.session.document, (kind) => this.layers.takes(kind));
    this.session.selection.set(refs);
    this.say(`${refs.length} things selected.`);
  }

  /** "12 ft" or "3.5 < 90": a stretch of that length, in that direction. True where it was taken. */
  typed(text: string): boolean {
    const [length, angle] = text.split('<');
    const lengthM = parseQuantity(length ?? '', 'length', this.session.units);
    const angleDeg = angle === undefined || angle.trim() === '' ? undefined : Number(angle.replace('°', ''));
    if (lengthM === undefined || (angleDeg !== undefined && !Number.isFinite(angleDeg))) return false;
    return this.tool.typed?.take(lengthM, angleDeg) ?? false;
  }
}

const wrapped = <K extends string, I>(kind: K, item: I | undefined): { kind: K; item: I } | undefined => (item ? { kind, item } : undefined);
