// SPDX-License-Identifier: Apache-2.0
// What the page asks of a price band, and how the job's price stands to its answer.
import type { FirstLookRequest, PriceBand } from '../engine/price';
import type { JobDocument } from '../job/document';
import { moneyText } from '../units/money';

/** What is known before anybody has walked the garden. */
export interface BandNotes {
  readonly words: string;
  readonly treeHeightM: number | undefined;
  readonly outletKnown: boolean;
  readonly waterKnown: boolean;
  readonly nightPhotoSeen: boolean;
}

/** The client's wishes, to begin with. */
export const notesOf = ({ client }: JobDocument): BandNotes => ({
  words: (client?.wishes ?? []).map(({ text }) => text ?? '').filter(Boolean).join('\n'),
  treeHeightM: undefined,
  outletKnown: false,
  waterKnown: false,
  nightPhotoSeen: false,
});

/** The height comes in metres, so that the known size is one of them and nothing is marked on a photograph. */
export const bandRequest = ({ words, treeHeightM, outletKnown, waterKnown, nightPhotoSeen }: BandNotes): FirstLookRequest => ({
  known: { name: 'a metre', size_px: 1 },
  known_m: 1,
  ...(treeHeightM !== undefined && { things: [{ name: 'the tallest tree', size_px: treeHeightM }] }),
  depth_error_share: 0,
  click_error_px: 0,
  note: words,
  outlet_known: outletKnown,
  water_known: waterKnown,
  night_photo_seen: nightPhotoSeen,
});

/** The job as drawn beside the band. Amounts of two currencies are not compared. */
export function besideBand(band: PriceBand, price: { readonly total_minor: number; readonly currency: string }): string {
  const total = `As drawn the job comes to ${moneyText(price.total_minor, price.currency)}`;
  if (price.currency !== band.currency) return `${total}. The band is in ${band.currency}: the two are not compared.`;
  if (price.total_minor < band.low_minor) return `${total}: below the band.`;
  return price.total_minor > band.high_minor ? `${total}: above the band.` : `${total}: within the band.`;
}
