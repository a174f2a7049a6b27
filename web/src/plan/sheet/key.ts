// SPDX-License-Identifier: Apache-2.0
// The key of a printed plan: only the symbols that this job uses, each as a tiny job of one thing at the origin, so
// that the plan's own drawing shows it.
import type { JobDocument, JointKind, Plan } from '../../job/document';
import { endsOf } from '../../job/lookup';
import { lookOf, looks, type LampLook } from '../../ui/lamp-state';
import type { Answers } from './answers';

export interface KeyEntry {
  readonly words: string;
  readonly sample: JobDocument;
}

/** Half the length of a line in the key, in metres of its sample. */
const halfM = 1.3;
const line = [[-halfM, 0], [halfM, 0]] as const;

const jointWords: Record<JointKind, string> = {
  in_line: 'Splice in line',
  branch: 'Branch',
  hub: 'Hub',
  end_of_run: 'End of a run',
};

export function keyOf(job: JobDocument, live: Pick<Answers, 'lamps' | 'findingsOf'>): KeyEntry[] {
  const { id, format, version, site } = job;
  const bare: JobDocument = { id, format, version, site, ...(job.catalogue && { catalogue: job.catalogue }) };
  return [...lampEntries(job, live, bare), ...wireEntries(job, live, bare), ...siteEntries(job, bare)];
}

function lampEntries(job: JobDocument, live: Pick<Answers, 'lamps'>, bare: JobDocument): KeyEntry[] {
  const placed = (job.luminaires ?? []).filter(({ position }) => position);
  const entries: KeyEntry[] = (Object.keys(looks) as LampLook[]).flatMap((look) => {
    const lamp = placed.find(({ id }) => lookOf(live.lamps.get(id)) === look);
    return lamp ? [{ words: `Light, ${looks[look].word}`, sample: { ...bare, luminaires: [{ id: lamp.id, item: lamp.item, position: [0, 0, 0] as const }] } }] : [];
  });
  const aimed = placed.find(({ azimuth_deg, tilt_deg }) => azimuth_deg !== undefined || tilt_deg !== undefined);
  if (aimed) entries.push({ words: 'Light that is aimed', sample: { ...bare, plan: { north_deg: 90 }, luminaires: [{ id: aimed.id, item: aimed.item, position: [0, 0, 0], azimuth_deg: 90 }] } });
  const transformer = (job.transformers ?? []).find(({ position }) => position);
  if (transformer) entries.push({ words: 'Transformer', sample: { ...bare, transformers: [{ ...transformer, position: [0, 0] }] } });
  return entries;
}

function wireEntries(job: JobDocument, live: Pick<Answers, 'findingsOf'>, bare: JobDocument): KeyEntry[] {
  const entries: KeyEntry[] = [];
  const cables = job.cables ?? [];
  const routed = cables.find(({ path }) => path && path.length > 1);
  if (routed) entries.push({ words: 'Cable', sample: { ...bare, cables: [{ ...routed, path: line }] } });
  const ends = endsOf(job);
  const straight = cables.find(({ path, from, to }) => !path && ends.get(from) && ends.get(to));
  if (straight) {
    // Drawn from end to end: the sample's ends lie far outside of it, so that only the cable is seen.
    const far = ([[-9, 0], [9, 0]] as const).map((position, index) => ({ id: `end-${index}`, position }));
    const { id, item } = straight;
    entries.push({ words: 'Cable without a drawn route', sample: { ...bare, cables: [{ id, item, from: 'end-0', to: 'end-1' }], joints: far } });
  }
  const joints = (job.joints ?? []).filter(({ position }) => position);
  for (const [kind, words] of Object.entries(jointWords)) {
    const joint = joints.find((one) => (one.kind ?? 'in_line') === kind);
    if (joint) entries.push({ words, sample: { ...bare, joints: [{ id: `key-${kind}`, kind: kind as JointKind, position: [0, 0] }] } });
  }
  const found = joints.find(({ id }) => live.findingsOf.has(id));
  if (found) entries.push({ words: 'Joint with a finding, marked !', sample: { ...bare, joints: [{ ...found, position: [0, 0] }] } });
  return entries;
}

function siteEntries(job: JobDocument, bare: JobDocument): KeyEntry[] {
  const plan = job.plan ?? {};
  const entries: KeyEntry[] = [];
  const add = (words: string, sample: Plan): void => void entries.push({ words, sample: { ...bare, plan: sample } });
  // One side of it lies in the sample, the others far outside.
  if ((plan.property_line?.length ?? 0) > 2) add('Property line', { property_line: [[-9, 0], [9, 0], [9, 9], [-9, 9]] });
  const sleeve = plan.sleeves?.find(({ path }) => path);
  if (sleeve) add('Sleeve', { sleeves: [{ ...sleeve, path: line }] });
  if (plan.trees?.length) add('Tree with its crown', { trees: [{ ...plan.trees[0]!, position: [0, 0], crown_width_m: 1.7 }] });
  if (plan.receptacles?.length) add('Receptacle', { receptacles: [{ ...plan.receptacles[0]!, position: [0, 0] }] });
  if (plan.view_points?.length) add('View point', { view_points: [{ ...plan.view_points[0]!, position: [0, 0, 0] }] });
  if (plan.fixed_points?.length) add('Fixed point to measure from', { fixed_points: [{ ...plan.fixed_points[0]!, position: [0, 0] }] });
  return entries;
}
