/** The sheets that the pieces are cut from, with every piece where it lies, as first laid and as they lie now. */
import { mapContour } from '../geometry/contour.js';
import { plain } from '../model/wording.js';
import type { SourceId, Tub } from '../model/tub.js';
import {
  leftBlanksOf,
  offcutOf,
  placePoint,
  remnantText,
  shearWords,
  spentArea,
  toldOffcutOf,
  utilisationOf,
} from '../nest/nest.js';
import type { Nest, NestCourse, NestSheet, Placement, Unplaced } from '../nest/nest.js';
import type { Stages } from '../stages/stages.js';
import { drawnContour, drawnDegrees, drawnLength, note, sheetWords } from './drawn.js';
import { partAt } from './flat-scene.js';
import type { NestPieceItem, NestSheetItem, SceneEntry } from './scene-items.js';

/** Undefined: nothing is laid yet. */
export const nestScene = (stages: Stages, course: NestCourse | undefined): SceneEntry[] => {
  const { tub } = stages;
  if (!course) return [note('no-nest', NOT_YET, tub.at)];
  const { best, first } = course;
  if (best.sheets.length + best.unplaced.length === 0) return [note('nothing-to-nest', NOTHING, tub.at)];
  const places = new Map(stages.parts().map((part) => [part.name, partAt(tub, part)]));
  return [
    stateEntry(course),
    ...layoutEntries(best, 'now', places),
    ...layoutEntries(first, 'first', places),
    ...best.unplaced.map((left) => unplacedNote(tub, left, places)),
  ];
};

const unplacedNote = (
  { sheets }: Tub,
  { flat, count, reason }: Unplaced,
  places: ReadonlyMap<string, SourceId>,
): SceneEntry => {
  const sheet = sheets[flat.sheet];
  const remedy =
    reason === 'no stock of this sheet'
      ? `the shop states no stock of ${sheetWords(sheet)}, as in \`stock ${sheet.material} ${drawnLength(sheet.thickness)} mm 1220 by 2440\``
      : reason;
  return note(`unplaced:${flat.name}`, `${count} × \`${flat.name}\` is on no sheet: ${remedy}`, places.get(flat.name));
};

export const pieceKey = ({ flat, copy }: Placement): string => `piece:${flat.name}/${copy + 1}`;

const NOT_YET = 'The pieces are being laid on the sheets of the shop';
const NOTHING = 'Nothing to lay on a sheet yet: no part has a flat pattern that can be cut';

type Layout = NestSheetItem['layout'];

const layoutEntries = (nest: Nest, layout: Layout, places: ReadonlyMap<string, SourceId>): SceneEntry[] => {
  const left = leftBlanksOf(nest.sheets).map(
    ({ size: [along, across], count }) => `${count} × ${drawnLength(along)} × ${drawnLength(across)} mm`,
  );
  return nest.sheets.flatMap((sheet, i) => {
    const key = `${layout === 'now' ? '' : 'first-'}sheet:${i + 1}`;
    return [
      { key, at: undefined, item: sheetItem(sheet, i + 1, layout, left) },
      ...sheet.placed.map((placement): SceneEntry => {
        return {
          key: `${layout === 'now' ? '' : 'first-'}${pieceKey(placement)}`,
          at: places.get(placement.flat.name),
          item: pieceItem(placement, key, i + 1, layout),
        };
      }),
    ];
  });
};

const sheetItem = (sheet: NestSheet, number: number, layout: Layout, leftBlanks: readonly string[]): NestSheetItem => {
  const offcut = offcutOf(sheet);
  const [length, width] = sheet.size;
  const size = `${drawnLength(length)} × ${drawnLength(width)} mm`;
  const used = `${plain(100 * utilisationOf(sheet), 1)} % used`;
  const told = toldOffcutOf(sheet).size;
  const left = told
    ? [`to state it as stock: \`${remnantText(sheet, told)}\``, `left whole ${told[0]} × ${told[1]} mm`]
    : ['nothing of use is left whole'];
  const sheared = shearWords(sheet, (mm) => String(drawnLength(mm)), 'mm');
  return {
    kind: 'nest-sheet',
    layout,
    title: `Sheet ${number}: ${sheet.isRemnant ? 'remnant' : 'blank'} ${size}, ${sheet.placed.length} pieces, ${used}`,
    number,
    size: [drawnLength(length), drawnLength(width)],
    usedLength: drawnLength(sheet.usedLength),
    leftWhole: offcut && [
      drawnLength(offcut.corner[0]),
      drawnLength(offcut.corner[1]),
      drawnLength(length),
      drawnLength(width),
    ],
    told: {
      what: `Sheet ${number}`,
      facts: [
        `${sheet.material}, ${drawnLength(sheet.thickness)} mm`,
        `${sheet.isRemnant ? 'remnant' : 'blank'} ${size}, no. ${sheet.number} of its size, rolled along x`,
        ...(sheared ? [sheared] : []),
        ...(sheared && leftBlanks.length > 0 ? [`whole blanks left of sheared sheets: ${leftBlanks.join(', ')}`] : []),
        `${sheet.placed.length} pieces`,
        used,
        ...left,
      ],
    },
  };
};

const pieceItem = (placement: Placement, sheet: string, number: number, layout: Layout): NestPieceItem => {
  const { flat, copy, turn } = placement;
  const lay = (contour: Parameters<typeof mapContour>[0]): NestPieceItem['outline'] =>
    drawnContour(mapContour(contour, (point) => placePoint(placement, point)));
  return {
    kind: 'nest-piece',
    layout,
    sheet,
    name: flat.name,
    isPinned: placement.isPinned === true,
    outline: lay(flat.outline),
    holes: flat.holes.map(({ contour }) => lay(contour)),
    told: {
      what: flat.quantity > 1 ? `Piece ${flat.name}, ${copy + 1} of ${flat.quantity}` : `Piece ${flat.name}`,
      facts: [
        `on sheet ${number}`,
        `turned ${plain(drawnDegrees(turn), 1)} deg`,
        ...(placement.isPinned ? ['pinned'] : []),
      ],
    },
  };
};

const stateEntry = (course: NestCourse): SceneEntry => ({
  key: 'nest-state',
  at: undefined,
  item: {
    kind: 'nest-state',
    state: course.state,
    done: drawnLength(course.done),
    text: STATE[course.state],
    saving: savingWords(course),
    told: undefined,
  },
});

const STATE: Readonly<Record<NestCourse['state'], string>> = {
  laying: 'Laying pieces',
  moving: 'Moving pieces closer',
  stopped: 'Stopped, this is the best so far',
  done: 'Done',
  earlier: 'Of an earlier text',
};

/** What moving the pieces has brought, against how they were first laid. */
const savingWords = ({ first, best }: NestCourse): string => {
  const [before, after] = [first, best].map(({ sheets }) => ({ sheets: sheets.length, spent: spentArea(sheets) }));
  const share = before.spent === 0 ? 0 : 1 - after.spent / before.spent;
  const told = ({ sheets, spent }: typeof before): string =>
    `${sheets} ${sheets === 1 ? 'sheet' : 'sheets'}, ${plain(spent / 1e6, 3)} m²`;
  return share > 0 || after.sheets < before.sheets
    ? `first ${told(before)}; now ${told(after)}: ${plain(100 * share, 1)} % less`
    : told(after);
};
