// SPDX-License-Identifier: Apache-2.0
// Where two versions of a job differ, as a person names the places: "Light F1", "Site: time zone".
import { difference } from './difference';
import type { JobDocument } from './document';
import type { Operation } from './operations';

const things: Readonly<Record<string, string>> = {
  luminaires: 'Light', transformers: 'Transformer', cables: 'Cable', joints: 'Joint', views: 'Photograph', visits: 'Visit',
};
const parts: Readonly<Record<string, string>> = {
  title: 'Title', created: 'Date of the job', stage: 'Stage of the work', site: 'Site', client: 'Client', practice: 'Ways of working', catalogue: 'Articles of this job', plan: 'Plan', light: 'Light wanted', programme: 'Switching', offer: 'Offer',
};
const units = /_(v|a|va|w|hz|m|mm2|deg|c|h|pct|minor|min)$/;

/** Each place once, in the job's order. */
export function placesThatDiffer(mine: JobDocument, theirs: JobDocument): readonly string[] {
  return [...new Set(difference(mine, theirs).map((change) => placeWords(change, theirs)))];
}

function placeWords(change: Operation, theirs: JobDocument): string {
  const [part, step] = change.path;
  if (typeof part !== 'string') return 'The whole job';
  const thing = things[part];
  const id = typeof step === 'object' ? step.id : change.op === 'insert' && change.path.length === 1 ? memberId(change.value) : undefined;
  if (thing !== undefined) {
    if (part === 'visits') return visitWords(theirs, id);
    return id === undefined ? `${thing}s` : `${thing} ${id}`;
  }
  const name = parts[part] ?? words(part);
  return typeof step === 'string' ? `${name}: ${words(step)}` : name;
}

// The id of a visit is nothing that a person has ever seen.
function visitWords(job: JobDocument, id: string | undefined): string {
  const visit = id === undefined ? undefined : job.visits?.find((one) => one.id === id);
  return visit ? `Visit of ${visit.date.slice(0, 10)}` : 'Visits';
}

const memberId = (value: unknown): string | undefined =>
  typeof value === 'object' && value !== null && 'id' in value && typeof value.id === 'string' ? value.id : undefined;

const words = (key: string): string => key.replace(units, '').replaceAll('_', ' ');
