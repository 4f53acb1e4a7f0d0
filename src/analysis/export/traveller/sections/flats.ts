import { bentFlat } from '../../../fold/bent-flat.js';
import type { FlatPattern } from '../../../fold/flat-pattern.js';
import { extentOfContour } from '../../../geometry/contour.js';
import { SAME_POINT } from '../../../geometry/tolerance.js';
import type { Vec2 } from '../../../geometry/vec.js';
import { FLAT_BEND_COLUMNS, flatBendRow, type FlatBendRow } from '../../../report/making/bends.js';
import { holeGroups, middleOfHole, type HoleGroup } from '../../../report/flats/hole-groups.js';
import type { Block, Section } from '../layout/block.js';
import { isUnderneath, nickLength, nicksOf, type Nick } from '../../../stages/nicks.js';
import { feetOn, otherSide, sideUpOf } from '../../../fold/marked-side.js';
import { hiddenPlacesText } from '../../flat/flat-drawing.js';
import { facingFigure, flatFigure } from '../figures/flat-figure.js';
import { pieceNumber, strokesOf, type Job } from '../job.js';
import { partSeamBlocks } from './part-seams.js';
import { CONTENT_WIDTH } from '../layout/lay-block.js';
import { toldTable } from '../layout/told-table.js';

/** mm. The drawing gives way to the tables below it where both then stay on one sheet of either paper. */
const FIGURE_HEIGHT = { most: 150, least: 75 } as const;
/** mm: what stands above the drawing and heads the tables, a row of a table and each line more of it, a note. */
const BESIDE = { heads: 62, row: 8.5, line: 4.6, note: 17 } as const;
/** mm, of the lower paper. */
const SHEET_HEIGHT = 232;
/** Places of holes on a line. */
const ON_A_LINE = 4;

/** By which the parts list leads to the drawing. */
export const flatKey = (job: Job, flat: FlatPattern): string => `flat-${pieceNumber(job, flat)}`;

/** One sheet for each flat: the drawing, its bends and its holes, measured from the ringed corner. */
export const flatSection = (job: Job, flat: FlatPattern): Section => {
  const { units } = job;
  const strokes = strokesOf(job, flat);
  const numberOf = (bend: number): string => String(strokes.find(({ bends }) => bends.includes(bend))?.number ?? '');
  const groups = holeGroups(job.tub, flat);
  const letterOf = (hole: number): string | undefined => groups.find(({ holes }) => holes.includes(hole))?.letter;
  const nicks = nicksOf(job.stages.shape(), flat, nickLength(job.tub.shop));
  const { figure, scale } = flatFigure(
    { flat, nicks, numberOf, letterOf },
    [CONTENT_WIDTH, figureHeight(flat, strokes.length, groups)],
    units,
  );
  const facing = facingFigure(flat);
  const sheet = job.tub.sheets[flat.sheet];
  const from = extentOfContour(flat.outline).min;
  const blocks: Block[] = [
    {
      kind: 'text',
      text: `${flat.quantity} piece${flat.quantity === 1 ? '' : 's'} of ${sheet.material} ${units.fineOf(sheet.thickness)}. ${upText(flat)}, as it is cut and marked; drawn about ${scale}, lengths in ${units.lengthName} from the ringed corner${isCornerOf(flat, from) ? '' : ' of the square around it'}. Bend up: dashes. Bend down: long and short dashes. The drawing file for the cutter holds every corner.`,
    },
    ...(facing ? [{ kind: 'figure', figure: facing } as const] : []),
    { kind: 'figure', figure },
  ];
  const isBent = bentFlat(flat).bends.length > 0;
  if (isBent) blocks.push(bendTable(job, flat, from, nicks), ...underneathText(flat));
  blocks.push(...pressedText(flat), ...sideText(flat), ...footTable(job, flat, from));
  if (groups.length > 0) blocks.push(holeTable(job, flat, groups, from));
  if (!isBent) blocks.push(...partSeamBlocks(job, flat));
  return { key: flatKey(job, flat), title: `Flat ${pieceNumber(job, flat)}: ${flat.name}`, starts: 'follows', blocks };
};

/** Does metal stand there? A slanting piece has no corner where its lengths begin. */
const isCornerOf = ({ outline }: FlatPattern, [x, y]: Vec2): boolean =>
  outline.some((corner) => Math.hypot(corner.x - x, corner.y - y) <= SAME_POINT);

const figureHeight = (flat: FlatPattern, strokes: number, groups: readonly HoleGroup[]): number => {
  const notes = (flat.bends.some(isUnderneath) ? 1 : 0) + (sideUpOf(flat) === 'wet' ? 1 : 0);
  const feet = feetOn(flat).length;
  const lines = groups.reduce((sum, { holes }) => sum + Math.floor((holes.length - 1) / ON_A_LINE), 0);
  const { heads, row, line, note } = BESIDE;
  const left =
    SHEET_HEIGHT - heads - (strokes + groups.length + (feet > 0 ? feet + 1 : 0)) * row - lines * line - notes * note;
  return left < FIGURE_HEIGHT.least ? FIGURE_HEIGHT.most : Math.min(left, FIGURE_HEIGHT.most);
};

/** Steps of laps, which no brake bends. */
const pressedText = (flat: FlatPattern): Block[] => {
  const names = [...new Set(flat.bends.filter(({ pressed }) => pressed).map(({ name }) => name))];
  if (names.length === 0) return [];
  return [
    {
      kind: 'text',
      text: `The pairs of lines of ${names.join(', ')} are no strokes of a brake: the edge is set down there by a step (a joggle; its depth and length stand with the seams), in a tool for it or between two bars. Try the step on scrap: the lap must lie on the other sheet with both wet sides level.`,
    },
  ];
};

const pairOf = (job: Job, [x, y]: Vec2, from: Vec2): string =>
  `${job.units.length(x - from[0])}, ${job.units.length(y - from[1])}`;

const upText = (flat: FlatPattern): string => `${sideUpOf(flat) === 'dry' ? 'Dry' : 'Wet'} side up`;

/** Ink on the side that holds water, of which a loose piece has none; and what cannot be marked on the side that lies up. */
const sideText = (flat: FlatPattern): Block[] => {
  const isWet = sideUpOf(flat) === 'wet' && flat.part !== undefined;
  const hidden = hiddenPlacesText(flat);
  const told = [
    ...(isWet
      ? ['Marked on the wet side: use ink that wipes off, never a scriber, and wipe it off before sealing and filling.']
      : []),
    ...(hidden === undefined ? [] : [`${hidden}.`]),
  ];
  return told.length === 0 ? [] : [{ kind: 'text', text: told.join(' ') }];
};

/** Where other panels stand on its face, by the edge of their wet faces. */
const footTable = ({ units }: Job, flat: FlatPattern, from: Vec2): Block[] => {
  const feet = feetOn(flat);
  if (feet.length === 0) return [];
  const pair = ([x, y]: Vec2): string => `${units.length(x - from[0])}, ${units.length(y - from[1])}`;
  return [
    {
      kind: 'table',
      columns: [
        { head: 'Here stands', align: 'left', share: 50 },
        { head: 'On its', align: 'left', share: 34 },
        { head: 'Its wet face from x, y', align: 'right', share: 45 },
        { head: 'to x, y', align: 'right', share: 45 },
      ],
      rows: feet.map(({ text, side, points }) => [text ?? '', `${side} side`, pair(points[0]), pair(points[1])]),
    },
  ];
};

/** Lines that the bed hides, and what carries them across. */
const underneathText = (flat: FlatPattern): Block[] =>
  flat.bends.some(isUnderneath)
    ? [
        {
          kind: 'text',
          text: `Line underneath: the bend is made with the ${otherSide(sideUpOf(flat))} side up, and the pen marks the ${sideUpOf(flat)} side. A nick at the edge shows it on both; where none is cut, because a seam runs there, carry the line round the edge with a square and a soft pencil.`,
        },
      ]
    : [];

const bendTable = (job: Job, flat: FlatPattern, from: Vec2, nicks: readonly Nick[]): Block => {
  const strokes = strokesOf(job, flat);
  const ends = strokes.map(({ bends }) => endsOf(bends.map((i) => flat.bends[i])));
  const rows = strokes.map(({ bends }) => flatBendRow(flat.bends[bends[0]]));
  const nameOf = ({ name }: FlatBendRow, i: number): string => {
    const { length } = strokes[i].bends;
    return length === 1 ? name : `${name}, ${length} in line`;
  };
  return toldTable(job.units, FLAT_BEND_COLUMNS, rows, [
    { head: 'Bend', align: 'middle', share: 13, cell: (_, i) => String(strokes[i].number) },
    { head: 'Between', align: 'left', share: 42, cell: nameOf },
    { key: 'direction', share: 14 },
    { key: 'angle_deg', share: 17 },
    { key: 'radius_mm', share: 20, head: 'Inside radius', as: 'fine' },
    { head: 'Line from x, y', align: 'right', share: 34, cell: (_, i) => pairOf(job, ends[i][0], from) },
    { head: 'to x, y', align: 'right', share: 34, cell: (_, i) => pairOf(job, ends[i][1], from) },
    { head: 'Line', align: 'left', share: 26, cell: (_, i) => lineText(flat, strokes[i].bends, nicks) },
  ]);
};

const lineText = (flat: FlatPattern, bends: readonly number[], nicks: readonly Nick[]): string => {
  if (!isUnderneath(flat.bends[bends[0]])) return 'in sight';
  const count = nicks.filter(({ bend }) => bends.includes(bend)).length;
  return count === 0 ? 'underneath' : `underneath, ${count} nick${count === 1 ? '' : 's'}`;
};

/** The outer ends of bends on one line. */
const endsOf = (bends: readonly { readonly start: Vec2; readonly end: Vec2 }[]): readonly [Vec2, Vec2] => {
  const [{ start, end }] = bends;
  const along = ([x, y]: Vec2): number => (x - start[0]) * (end[0] - start[0]) + (y - start[1]) * (end[1] - start[1]);
  const points = bends.flatMap((bend) => [bend.start, bend.end]).sort((a, b) => along(a) - along(b));
  return [points[0], points[points.length - 1]];
};

const holeTable = (job: Job, flat: FlatPattern, groups: readonly HoleGroup[], from: Vec2): Block => ({
  kind: 'table',
  columns: [
    { head: 'Hole', align: 'middle', share: 12 },
    { head: 'For', align: 'left', share: 46 },
    { head: `Size, ${job.units.lengthUnit}`, align: 'right', share: 36 },
    { head: 'Middle at x, y', align: 'left', share: 80 },
  ],
  rows: groups.map(({ letter: name, name: use, size, holes }) => [
    name,
    holes.length === 1 ? use : `${use} (${holes.length})`,
    sizeText(job, size),
    holes.map((i) => pairOf(job, middleOfHole(flat.holes[i]), from)).join('; '),
  ]),
});

const sizeText = ({ units }: Job, size: HoleGroup['size']): string => {
  if (size.kind === 'round') return `\u00d8 ${units.fine(size.diameter)}`;
  if (size.kind === 'hexagon') return `${units.fine(size.acrossFlats)} across flats`;
  return `${units.length(size.width)} x ${units.length(size.height)}`;
};
