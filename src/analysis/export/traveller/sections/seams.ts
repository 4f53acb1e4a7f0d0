import type { RunJoint, SeamJoint } from '../../../join/seam-joint.js';
import { spotRowsOf } from '../../../join/spots/spot-plan.js';
import { lerp } from '../../../geometry/vec.js';
import { BOX, type Block, type Section } from '../block.js';
import { foldedFigure, type Balloon } from '../folded-figure.js';
import type { Job } from '../job.js';
import { CONTENT_WIDTH } from '../lay-out.js';

/** Every seam with how it is held and closed, the gap to expect, and its spots. Undefined: the tub has none. */
export const seamSection = (job: Job): Section | undefined => {
  const { seams } = job.stages.joints();
  if (seams.length === 0) return undefined;
  const spots = spotTable(job);
  return {
    title: 'Seams and spots',
    starts: 'sheet',
    blocks: [
      {
        kind: 'figure',
        figure: foldedFigure(job.scenery, 'above', [CONTENT_WIDTH, 78], seams.flatMap(balloonOf)),
        caption: 'Numbers stand in the middle of each seam\u2019s longest straight length.',
      },
      seamTable(job, seams),
      ...(spots ? [{ kind: 'text', weight: 'bold', text: 'Spot welds' } as const, spots] : []),
      {
        kind: 'text',
        text: 'Spots and rivets hold, they do not seal: what closes a seam stands under Closed by. Wipe flux, oil and marking ink off before sealing.',
      },
    ],
  };
};

const balloonOf = ({ runs, seam }: SeamJoint): Balloon[] => {
  const [longest] = [...runs].sort((a, b) => b.run.length - a.run.length);
  return longest ? [{ at: lerp(longest.run.start, longest.run.end, 0.5), text: String(seam + 1) }] : [];
};

const CLOSED_BY: Readonly<Record<SeamJoint['method']['closing'], string>> = {
  tig: 'TIG weld',
  mig: 'MIG weld',
  solder: 'solder',
  sealant: 'sealant',
  none: 'nothing',
};

const seamTable = ({ units, tub }: Job, seams: readonly SeamJoint[]): Block => ({
  kind: 'table',
  columns: [
    { head: 'No.', align: 'middle', share: 11 },
    { head: 'Seam', align: 'left', share: 34 },
    { head: 'Joint', align: 'left', share: 29 },
    { head: 'Closed by', align: 'left', share: 24 },
    { head: 'Length', align: 'right', share: 19 },
    { head: 'Amount', align: 'right', share: 19 },
    { head: `Gap to expect, ${units.lengthUnit}`, align: 'right', share: 20 },
    { head: 'at most', align: 'right', share: 16 },
    { head: 'Done', align: 'middle', share: 14 },
  ],
  rows: seams.map((joint) => {
    const volume = sum(joint.runs, ({ bead }) => bead.volume);
    return [
      String(joint.seam + 1),
      joint.name,
      jointText(tub.seams[joint.seam].style, joint, units),
      CLOSED_BY[joint.method.closing],
      units.longOf(joint.length),
      volume > 0 ? units.smallVolumeOf(volume) : '-',
      units.fine(Math.max(0, ...joint.runs.map(({ gap }) => gap.expected))),
      units.fine(joint.allowed),
      BOX,
    ];
  }),
});

const jointText = (style: Job['tub']['seams'][number]['style'], { runs }: SeamJoint, units: Job['units']): string => {
  const edge =
    style.kind === 'lap' ? `lap of ${units.fineOf(style.by)}` : style.kind === 'over' ? 'one edge covered' : 'corner';
  const clips = sum(runs, ({ row }) => row?.centres.length ?? 0);
  const kind = runs.find(({ row }) => row)?.row?.tabs.on === 'loose' ? 'clips' : 'tabs';
  return clips === 0 ? edge : `${edge}, ${clips} ${kind}`;
};

const sum = (runs: readonly RunJoint[], value: (run: RunJoint) => number): number =>
  runs.reduce((total, run) => total + value(run), 0);

const spotTable = ({ stages, tub, units }: Job): Block | undefined => {
  const rows = spotRowsOf(tub, stages.joints());
  if (rows.length === 0) return undefined;
  return {
    kind: 'table',
    columns: [
      { head: 'Seam', align: 'middle', share: 14 },
      { head: 'Along', align: 'left', share: 44 },
      { head: 'Spots', align: 'right', share: 16 },
      { head: `Sheets, ${units.lengthUnit}`, align: 'right', share: 30 },
      { head: `Nugget, ${units.lengthUnit}`, align: 'right', share: 24 },
      { head: `To an edge, ${units.lengthUnit}`, align: 'right', share: 26 },
      { head: 'Done', align: 'middle', share: 16 },
    ],
    rows: rows.map(({ seam, joint, spots, stack, limits, edge }) => [
      String(seam + 1),
      joint.run.sides.map(({ face }) => tub.panels[face].name).join(' / '),
      String(spots.length),
      stack.map((t) => units.fine(t)).join(' + '),
      limits ? units.fine(limits.nugget) : 'no table',
      units.length(edge),
      BOX,
    ]),
  };
};
