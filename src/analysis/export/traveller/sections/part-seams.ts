import type { FlatPattern } from '../../../fold/flat-pattern.js';
import type { SeamJoint } from '../../../join/seam-joint.js';
import { reportSpotOrder } from '../../../report/joining/assembly.js';
import { reportSeams, SEAM_COLUMNS, type SeamRow } from '../../../report/joining/seams.js';
import { BOX, type Block } from '../layout/block.js';
import type { Job } from '../job.js';
import { toldTable } from '../layout/told-table.js';
import { jointText } from './seams.js';

/** What joins a part to others, and what is done for that while it is alone; none where no seam runs along it. */
export const partSeamBlocks = (job: Job, flat: FlatPattern): Block[] => {
  const { part } = flat;
  if (part === undefined) return [];
  const joints = job.stages.joints().seams.filter(({ runs }) => sidesOn(job, part, runs).length > 0);
  if (joints.length === 0) return [];
  const all = reportSeams(job.stages);
  const rows = joints.map(({ seam }) => all[seam]);
  const alone = joints.map((joint) => aloneText(job, part, joint));
  return [
    { kind: 'text', weight: 'bold', text: 'Its seams' },
    toldTable(job.units, SEAM_COLUMNS, rows, [
      {
        head: 'No.',
        align: 'middle',
        share: 11,
        cell: (_, i) => ({ text: String(joints[i].seam + 1), to: 'seams' }),
      },
      { key: 'name', share: 30 },
      { head: 'To part', align: 'left', share: 28, cell: (_, i) => partsBeyond(job, part, joints[i]).join(', ') },
      { head: 'Joint', align: 'left', share: 27, cell: (row) => jointText(job.units, row) },
      { key: 'closed_by', share: 25 },
      ...(alone.some((text) => text !== '-')
        ? [{ head: 'While it is alone', align: 'left' as const, share: 55, cell: (_: SeamRow, i: number) => alone[i] }]
        : []),
      { head: 'Ready', align: 'middle', share: 15, cell: () => BOX },
    ]),
  ];
};

/** Faces of the part on which runs of a seam lie. */
const sidesOn = (job: Job, part: number, runs: SeamJoint['runs']): number[] => {
  const { partOf } = job.stages.joints().paths;
  return runs.flatMap(({ run }) => run.sides.map(({ face }) => face).filter((face) => partOf(face) === part));
};

/** A seam may join a part to itself. */
const partsBeyond = ({ stages }: Job, part: number, { runs }: SeamJoint): string[] => {
  const { partOf } = stages.joints().paths;
  const parts = runs.flatMap(({ run }) => {
    const [a, b] = run.sides.map(({ face }) => partOf(face));
    return [a === part ? b : a];
  });
  return [...new Set(parts)].map((each) =>
    each === undefined ? '-' : each === part ? 'itself' : stages.parts()[each].name,
  );
};

/** Clips that go onto it first, and edges to bevel. */
const aloneText = (job: Job, part: number, joint: SeamJoint): string => {
  const { stages, tub, units } = job;
  const panels = sidesOn(job, part, joint.runs).map((face) => tub.panels[face].name);
  const row = reportSeams(stages)[joint.seam];
  const onto = reportSpotOrder(stages).flatMap(({ seam, first_onto }) =>
    seam === row.name && first_onto !== null && panels.includes(first_onto) ? [first_onto] : [],
  );
  const bevels = new Map<string, string[]>();
  for (const { panel, along_mm, across_mm } of row.bevels.filter((bevel) => panels.includes(bevel.panel))) {
    const size = `${units.fineOf(along_mm)} along, ${units.fineOf(across_mm)} across`;
    bevels.set(size, [...(bevels.get(size) ?? []), panel]);
  }
  const all = [
    ...(onto.length > 0 ? [`spot its clips onto ${[...new Set(onto)].join(', ')}`] : []),
    ...[...bevels].map(
      ([size, on]) => `bevel the dry edge of ${on.join(', ')} at the ${row.tabs?.kind ?? 'tabs'}: ${size}`,
    ),
  ];
  return all.length === 0 ? '-' : all.join('; ');
};
