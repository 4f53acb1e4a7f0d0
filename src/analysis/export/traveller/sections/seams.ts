import type { SeamJoint } from '../../../join/seam-joint.js';
import { spotRowsOf } from '../../../join/spots/spot-plan.js';
import { lerp } from '../../../geometry/vec.js';
import { FACE_JOINT_COLUMNS, reportFaces } from '../../../report/joining/faces.js';
import { reportSeams, SEAM_COLUMNS, type SeamRow } from '../../../report/joining/seams.js';
import { BOX, type Block, type Section } from '../layout/block.js';
import { foldedFigure, type Balloon } from '../figures/folded-figure.js';
import type { Job } from '../job.js';
import { CONTENT_WIDTH } from '../layout/lay-block.js';
import type { Units } from '../layout/units.js';
import { toldTable } from '../layout/told-table.js';

/** Every seam with how it is held and closed, the gap to expect, and its spots. Undefined: the tub has none. */
export const seamSection = (job: Job): Section | undefined => {
  const { seams } = job.stages.joints();
  const faces = faceTable(job);
  if (seams.length === 0 && !faces) return undefined;
  const spots = spotTable(job);
  const sources = sourceText(reportSeams(job.stages));
  return {
    key: 'seams',
    title: 'Seams and spots',
    starts: 'sheet',
    blocks: [
      {
        kind: 'figure',
        figure: foldedFigure(job.scenery, 'above', [CONTENT_WIDTH, 92], seams.flatMap(balloonOf)),
        caption: 'Numbers stand in the middle of each seam\u2019s longest straight length.',
      },
      seamTable(job),
      ...(faces ? [{ kind: 'text', weight: 'bold', text: 'Faces bolted together' } as const, faces] : []),
      ...(spots ? [{ kind: 'text', weight: 'bold', text: 'Spot welds' } as const, spots] : []),
      ...(sources === '' ? [] : [{ kind: 'text', text: sources } as const]),
      {
        kind: 'text',
        text: 'Spots and rivets hold, they do not seal: what closes a seam stands under Closed by. Wipe flux, oil and marking ink off before sealing.',
      },
    ],
  };
};

const faceTable = ({ units, stages }: Job): Block | undefined => {
  const rows = reportFaces(stages);
  if (rows.length === 0) return undefined;
  return toldTable(units, FACE_JOINT_COLUMNS, rows, [
    { head: 'Between', align: 'left', share: 42, cell: ({ between }) => between.join(' / ') },
    { key: 'needed_mm', share: 19, as: 'fine', head: 'Apart' },
    { key: 'gasket_mm', share: 19 },
    { key: 'width_mm', share: 19 },
    { key: 'length_mm', share: 19, as: 'long' },
    { key: 'screws_count', share: 16 },
    { key: 'pitch_at_most_mm', share: 19 },
    { key: 'heads_on', share: 28 },
    { head: 'Done', align: 'middle', share: 14, cell: () => BOX },
  ]);
};

const balloonOf = ({ runs, seam }: SeamJoint): Balloon[] => {
  const [longest] = [...runs].sort((a, b) => b.run.length - a.run.length);
  return longest ? [{ at: lerp(longest.run.start, longest.run.end, 0.5), text: String(seam + 1) }] : [];
};

const seamTable = ({ units, stages }: Job): Block =>
  toldTable(units, SEAM_COLUMNS, reportSeams(stages), [
    { head: 'No.', align: 'middle', share: 11, cell: (_, i) => String(i + 1) },
    { key: 'name', share: 28 },
    { head: 'Joint', align: 'left', share: 24, cell: (row) => jointText(units, row) },
    { key: 'closed_by', share: 23 },
    { key: 'length_mm', share: 19, as: 'long' },
    { key: 'bead.volume_mL', share: 19, head: 'Amount' },
    { key: 'gap.expected_mm', share: 20, as: 'fine' },
    { key: 'gap.allowed_mm', share: 18, as: 'fine', head: 'At most' },
    { key: 'gap.closing_force_N', share: 18 },
    { head: 'Done', align: 'middle', share: 14, cell: () => BOX },
  ]);

/** Where the widest gaps and the sizes of spots come from: what is recalled or the trade's habit says so. */
const sourceText = (seams: readonly SeamRow[]): string => {
  const gaps = seams.filter(({ source }) => source !== '').map(({ closed_by, source }) => `${closed_by}: ${source}`);
  const spots = seams.flatMap(({ spots }) => (spots && spots.source !== '' ? [spots.source] : []));
  const told = [
    { what: 'Widest gaps from', from: gaps },
    { what: 'Nuggets and electrodes from', from: spots },
  ];
  return told
    .filter(({ from }) => from.length > 0)
    .map(({ what, from }) => `${what} ${[...new Set(from)].join('; ')}.`)
    .join(' ');
};

const EDGES = { corner: 'corner', tee: 'tee', over: 'one edge covered', lap: 'lap' } as const;

/** `corner, 7 clips`. */
export const jointText = (units: Units, { kind, lap_mm, joggle, tabs }: SeamRow): string => {
  const step = joggle ? `, joggle ${units.fine(joggle.depth_mm)} deep, ${units.fineOf(joggle.length_mm)} long` : '';
  const edge = lap_mm === null ? EDGES[kind] : `${EDGES[kind]} of ${units.lengthOf(lap_mm)}${step}`;
  return tabs === null ? edge : `${edge}, ${tabs.count} ${tabs.kind}`;
};

const spotTable = ({ stages, tub, units }: Job): Block | undefined => {
  const rows = spotRowsOf(tub, stages.joints());
  if (rows.length === 0) return undefined;
  return {
    kind: 'table',
    columns: [
      { head: 'Seam', align: 'middle', share: 14 },
      { head: 'Along', align: 'left', share: 34 },
      { head: 'Spots', align: 'right', share: 16 },
      { head: `Sheets, ${units.lengthUnit}`, align: 'right', share: 27 },
      { head: `Nugget, ${units.lengthUnit}`, align: 'right', share: 24 },
      { head: `Electrode at most, ${units.lengthUnit}`, align: 'right', share: 26 },
      { head: `To an edge, ${units.lengthUnit}`, align: 'right', share: 26 },
      { head: 'Done', align: 'middle', share: 16 },
    ],
    rows: rows.map(({ seam, joint, spots, stack, limits, edge }) => [
      String(seam + 1),
      joint.run.sides.map(({ face }) => tub.panels[face].name).join(' / '),
      String(spots.length),
      stack.map((t) => units.fine(t)).join(' + '),
      limits ? units.fine(limits.nugget) : 'no table',
      limits ? units.fine(limits.electrode) : 'no table',
      units.length(edge),
      BOX,
    ]),
  };
};
