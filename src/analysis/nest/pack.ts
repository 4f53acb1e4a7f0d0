/** Lays pieces on blanks one after the other: each where it reaches least far along the blank. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { memo } from '../cache/memo.js';
import type { Vec2 } from '../geometry/vec.js';
import { blanksIn, fitsOn, isLeft, shearedFrom, type Blank, type NestRoom, type Rack } from '../making/blanks.js';
import type { PinnedPiece } from '../making/pins.js';
import { boxOf, laidAt, type Contacts, type LaidPiece } from './contact.js';
import { metalArea } from './metal-area.js';
import { createField, type Field } from './field.js';
import { placePoint, type NestSheet, type Unplaced } from './nest.js';
import { roomBetween } from './room-between.js';
import { stencilOf, swollen, type Stencil } from './stencil.js';
import { usedOf } from './tighten/tighten-sheets.js';

/** A piece that is ready to be laid: its shape in every turn that is allowed. */
export interface NestPiece {
  readonly flat: FlatPattern;
  readonly copy: number;
  readonly area: number;
  /** Those that are tried, of those that its grain allows. */
  readonly turns: readonly number[];
  readonly allowed: readonly number[];
  /** Made when first asked for. */
  readonly stencils: () => readonly Stencil[];
}

/** What holds for all orders of one material and thickness. */
export interface Packing {
  readonly room: NestRoom;
  readonly cell: number;
  readonly pinned: readonly PinnedPiece[];
  /** The blanks that they lie on, and those sheared before. */
  readonly opened: readonly Blank[];
  readonly contacts: Contacts;
  /** Places are found between the pieces rather than on cells: slower, and for what fits just so. */
  readonly isExact?: boolean;
}

export interface Packed {
  readonly sheets: readonly NestSheet[];
  readonly unplaced: readonly Unplaced[];
}

/** mm. Cells of a blank: fine beside the web between pieces, coarse enough for a place to be found in milliseconds. */
export const cellFor = (racks: readonly Rack[]): number =>
  Math.max(1, ...racks.map(({ size }) => Math.max(...size) / 2000));

/** One piece for each of the flat's quantity; they share their shapes. */
export const piecesOf = (flat: FlatPattern, turns: readonly number[], room: NestRoom, cell: number): NestPiece[] => {
  const stencils = memo(() => {
    const rings = swollen(flat, room.gap / 2);
    return turns.map((turn) => stencilOf(rings, turn, cell));
  });
  const area = metalArea(flat);
  return Array.from({ length: flat.quantity }, (_, copy) => ({ flat, copy, area, turns, allowed: turns, stencils }));
};

interface OpenSheet extends Blank {
  readonly field: Field;
  readonly placed: Laid[];
}

interface Laid {
  readonly piece: Pick<NestPiece, 'flat' | 'copy' | 'area'>;
  readonly at: LaidPiece;
  readonly isPinned: boolean;
}

/**
 * Packs in the given order round the pinned pieces, remnants first; a new sheet is opened by the order of `racks`, sheared by the
 * first of its ways that holds the piece. Yields after each piece.
 */
export function* packInOrder(
  pieces: readonly NestPiece[],
  racks: readonly Rack[],
  packing: Packing,
): Generator<void, Packed> {
  const open = openPinned(packing);
  const unplaced = new Map<FlatPattern, Unplaced>();
  for (const piece of pieces) {
    yield;
    const isLaid = [true, false].some((isRemnant) => {
      const own = open.filter(({ rack }) => rack.isRemnant === isRemnant);
      // A blank with nothing on it yet is used up last.
      const [used, empty] = [true, false].map((isUsed) => own.filter(({ placed }) => placed.length > 0 === isUsed));
      if ([...used, ...empty].some((sheet) => layOn(sheet, piece, packing))) return true;
      return openFor(
        piece,
        racks.filter((rack) => rack.isRemnant === isRemnant),
        open,
        packing,
      );
    });
    if (!isLaid) unplaced.set(piece.flat, leftOver(piece, racks, packing.room, unplaced.get(piece.flat)));
  }
  const used = open.filter(({ placed }) => placed.length > 0);
  return { sheets: used.map((sheet) => closeSheet(sheet, packing.room)), unplaced: [...unplaced.values()] };
}

/** The sheets that pieces are pinned to, with those before them. */
const openPinned = ({ pinned, opened, room, cell }: Packing): OpenSheet[] =>
  opened.map((blank): OpenSheet => {
    const sheet = openSheet(blank, room, cell);
    for (const piece of pinned) if (piece.blank === blank) takePinned(sheet, piece, room, cell);
    return sheet;
  });

const openSheet = (blank: Blank, room: NestRoom, cell: number): OpenSheet => ({
  ...blank,
  field: fieldOf(blank.size, room, cell),
  placed: [],
});

const takePinned = (sheet: OpenSheet, pinned: PinnedPiece, room: NestRoom, cell: number): void => {
  const { flat, turn, offset } = pinned;
  const at = laidAt(flat, turn, offset);
  takeWhereItLies(sheet, at, room, cell);
  sheet.placed.push({ piece: { flat, copy: 0, area: metalArea(flat) }, at, isPinned: true });
};

/** Takes every cell that the piece touches where it lies. */
const takeWhereItLies = ({ field }: OpenSheet, at: LaidPiece, room: NestRoom, cell: number): void => {
  const start = fieldStart(room);
  const rings = swollen(at.flat, room.gap / 2).map((ring) =>
    ring.map((point): Vec2 => {
      const [x, y] = placePoint(at, point);
      return [x - start, y - start];
    }),
  );
  const stencil = stencilOf(rings, 0, cell);
  field.take(stencil, {
    column: Math.round(stencil.corner[0] / cell),
    row: Math.round(stencil.corner[1] / cell),
  });
};

/** The piece at its best place on the sheet; false when there is none. */
const layOn = (sheet: OpenSheet, piece: NestPiece, packing: Packing): boolean => {
  const { room, cell } = packing;
  const { field, placed } = sheet;
  if (packing.isExact) {
    const others = placed.map(({ at }) => at);
    const at = roomBetween(others, piece, sheet.size, packing);
    if (at) placed.push({ piece, at, isPinned: false });
    return at !== undefined;
  }
  let best: { stencil: Stencil; column: number; row: number; reach: number } | undefined;
  for (const stencil of piece.stencils()) {
    const spot = field.find(stencil, best?.reach ?? Infinity);
    if (spot) best = { stencil, ...spot, reach: spot.column + stencil.columns.length };
  }
  if (!best) return placed.length === 0 && layExactly(sheet, piece, room, cell);
  const { stencil, column, row } = best;
  field.take(stencil, { column, row });
  const start = fieldStart(room);
  const offset: Vec2 = [start + column * cell - stencil.corner[0], start + row * cell - stencil.corner[1]];
  placed.push({ piece, at: laidAt(piece.flat, stencil.turn, offset), isPinned: false });
  return true;
};

/** In the corner of an empty blank: what fits just so fits no cells. */
const layExactly = (sheet: OpenSheet, piece: NestPiece, room: NestRoom, cell: number): boolean => {
  const boxes = piece.turns
    .map((turn) => ({ turn, ...boxOf(piece.flat, turn) }))
    .filter(({ min, max }) => fitsOn([max[0] - min[0], max[1] - min[1]], sheet.size, room));
  if (boxes.length === 0) return false;
  const { turn, min } = boxes.reduce((a, b) => (b.max[0] - b.min[0] < a.max[0] - a.min[0] ? b : a));
  const at = laidAt(piece.flat, turn, [room.margin - min[0], room.margin - min[1]]);
  takeWhereItLies(sheet, at, room, cell);
  sheet.placed.push({ piece, at, isPinned: false });
  return true;
};

/** Shears and opens a sheet for the piece; false: none is left that holds it. */
const openFor = (piece: NestPiece, racks: readonly Rack[], open: OpenSheet[], packing: Packing): boolean => {
  const { room, cell } = packing;
  for (const rack of racks) {
    if (!isLeft(rack, open)) continue;
    for (const way of rack.ways) {
      if (!blanksIn(way).some((size) => holds(piece.flat, piece.turns, size, room))) continue;
      const fresh = shearedFrom(rack, way, open).map((blank) => openSheet(blank, room, cell));
      if (!fresh.some((sheet) => layOn(sheet, piece, packing))) continue;
      open.push(...fresh);
      return true;
    }
  }
  return false;
};

const holds = (flat: FlatPattern, turns: readonly number[], size: Vec2, room: NestRoom): boolean =>
  turns.some((turn) => {
    const { min, max } = boxOf(flat, turn);
    return fitsOn([max[0] - min[0], max[1] - min[1]], size, room);
  });

/** A piece is swollen by half the gap on each side, so the field begins that much nearer to the edge. */
const fieldStart = (room: NestRoom): number => room.margin - room.gap / 2;

const fieldOf = (size: Vec2, room: NestRoom, cell: number): Field => {
  const [columns, rows] = size.map((side) => Math.max(0, Math.floor((side - 2 * fieldStart(room)) / cell)));
  return createField(columns, rows);
};

const leftOver = (piece: NestPiece, racks: readonly Rack[], room: NestRoom, known: Unplaced | undefined): Unplaced => {
  if (known) return { ...known, count: known.count + 1 };
  const { flat, allowed } = piece;
  const fits = racks.flatMap(({ ways }) => ways.flatMap(blanksIn)).some((size) => holds(flat, allowed, size, room));
  return { flat, count: 1, reason: fits ? 'stock used up' : 'larger than every blank' };
};

const closeSheet = ({ rack, shear, size, number, placed }: OpenSheet, room: NestRoom): NestSheet => {
  const placements = placed.map(({ piece: { flat, copy }, at: { turn, offset }, isPinned }) => ({
    flat,
    copy,
    turn,
    offset,
    ...(isPinned && { isPinned }),
  }));
  return {
    material: rack.stock.material,
    thickness: rack.stock.thickness,
    size,
    stockSize: rack.size,
    shear,
    number,
    isRemnant: rack.isRemnant,
    placed: placements,
    usedArea: placed.reduce((sum, { piece }) => sum + piece.area, 0),
    ...usedOf(placements, size, room),
  };
};
