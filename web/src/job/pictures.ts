// SPDX-License-Identifier: Apache-2.0
// Where a document refers to pictures. A reference is the hash of the content; older files may hold a file name, which
// is left alone.
import type { JobDocument } from './document';
import type { Operation, Path } from './operations';

export interface PictureRef {
  readonly path: Path;
  readonly hash: string;
}

const isHash = (value: unknown): value is string => typeof value === 'string' && /^[0-9a-f]{64}$/.test(value);

export function pictureRefs(job: JobDocument): PictureRef[] {
  const refs: PictureRef[] = [];
  const note = (hash: unknown, path: Path): void => {
    if (isHash(hash)) refs.push({ path, hash });
  };
  const noteAll = (owner: unknown, path: Path): void => {
    const pictures = (owner as { pictures?: readonly unknown[] } | null)?.pictures ?? [];
    pictures.forEach((hash, index) => note(hash, [...path, 'pictures', index]));
  };
  note(job.plan?.underlay?.image, ['plan', 'underlay', 'image']);
  for (const view of job.views ?? []) note(view.image, ['views', { id: view.id }, 'image']);
  for (const joint of job.joints ?? []) noteAll(joint.as_built, ['joints', { id: joint.id }, 'as_built']);
  (job.visits ?? []).forEach((visit, index) => noteAll(visit, ['visits', index]));
  return refs;
}

/** Refers to pictures by their new hashes. */
export function renamePictures(job: JobDocument, names: ReadonlyMap<string, string>): Operation[] {
  return pictureRefs(job).flatMap(({ path, hash }): Operation[] => {
    const value = names.get(hash);
    return value === undefined || value === hash ? [] : [{ op: 'set', path, value }];
  });
}
