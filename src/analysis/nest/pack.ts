/** Lays pieces on blanks one after the other: each where it reaches least far along the blank. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { areaOfContour } from '../geometry/contour.js';
import { memo } from '../cache/memo.js';
import type { Vec2 } from '../geometry/vec.js';
import type { Blank, NestRoom } from '../making/blanks.js';
import type { PinnedPiece } from '../making/pins.js';
import { createField, type Field, type Spot } from './field.js';
import { placePoint, type NestSheet, type Placement, type Unplaced } from './nest.js';
import { stencilOf, swollen, type Stencil } from './stencil.js';

/** A piece that is ready to be laid: its shape in every turn that is allowed. */
export interface NestPiece {
  readonly flat: FlatPattern;
  readonly copy: number;
  readonly area: number;
  /** Made when first asked for. */
  readonly stencils: () => readonly Stencil[];
}

/** What holds for all orders of one material and thickness. */
export interface Packing {
  readonly room: NestRoom;
  readonly cell: number;
  readonly pinned: readonly PinnedPiece[];
}

export interface Packed {
  readonly sheets: readonly NestSheet[];
  readonly unplaced: readonly Unplaced[];
}

/** mm. Cells of a blank: fine beside the web between pieces, coarse enough for a place to be found in milliseconds. */
export const cellFor = (blanks: readonly Blank[]): number =>
  Math.max(1, ...blanks.map(({ size }) => Math.max(...size) / 2000));

/** One piece for each of the flat's quantity; they share their shapes. */
export const piecesOf = (flat: FlatPattern, turns: readonly number[], room: NestRoom, cell: number): NestPiece[] => {
  const stencils = memo(() => {
    const rings = swollen(flat, room.gap / 2);
    return turns.map((turn) => stencilOf(rings, turn, cell));
  });
  const area = metalArea(flat);
  return Array.from({ length: flat.quantity }, (_, copy) => ({ flat, copy, area, stencils }));
};

/** Outline less holes, mm2. */
export const metalArea = (flat: FlatPattern): number =>
  [flat.outline, ...flat.holes.map(({ contour }) => contour)].reduce((sum, contour) => sum + areaOfContour(contour), 0);

interface OpenSheet {
  readonly blank: Blank;
  readonly field: Field;
  readonly placed: Laid[];
}

interface Laid {
  readonly piece: NestPiece;
  readonly stencil: Stencil;
  readonly spot: Spot;
  /** Of a pinned piece: its place, which is on no cell of the field. */
  readonly pinned?: PinnedPiece;
}

/**
 * Packs in the given order round the pinned pieces, remnants first; a new blank is opened by the order of `blanks`. Yields after
 * each piece.
 */
export function* packInOrder(
  pieces: readonly NestPiece[],
  blanks: readonly Blank[],
  { room, cell, pinned }: Packing,
): Generator<void, Packed> {
  const open = openPinned(pinned, blanks, room, cell);
  const unplaced = new Map<FlatPattern, Unplaced>();
  for (const piece of pieces) {
    yield;
    const isLaid = [true, false].some((isRemnant) => {
      if (open.some((sheet) => sheet.blank.isRemnant === isRemnant && layOn(sheet, piece))) return true;
      const of = blanks.filter((blank) => blank.isRemnant === isRemnant);
      const fresh = openFor(piece, of, open, room, cell);
      if (fresh) open.push(fresh);
      return fresh !== undefined;
    });
    if (!isLaid) unplaced.set(piece.flat, leftOver(piece, blanks, room, cell, unplaced.get(piece.flat)));
  }
  const used = open.filter(({ placed }) => placed.length > 0);
  return { sheets: used.map((sheet) => closeSheet(sheet, room, cell)), unplaced: [...unplaced.values()] };
}

/** The blanks that pieces are pinned to, with those before them. */
const openPinned = (
  pinned: readonly PinnedPiece[],
  blanks: readonly Blank[],
  room: NestRoom,
  cell: number,
): OpenSheet[] =>
  blanks.flatMap((blank) => {
    const own = pinned.filter(({ stock }) => stock === blank.stock);
    const count = own.reduce((most, { pin }) => Math.max(most, pin.sheet), 0);
    return Array.from({ length: count }, (_, i): OpenSheet => {
      const sheet: OpenSheet = { blank, field: fieldOf(blank, room, cell), placed: [] };
      for (const piece of own) if (piece.pin.sheet === i + 1) takePinned(sheet, piece, room, cell);
      return sheet;
    });
  });

/** Takes every cell that the piece touches where it lies. */
const takePinned = ({ field, placed }: OpenSheet, pinned: PinnedPiece, room: NestRoom, cell: number): void => {
  const { flat } = pinned;
  const start = fieldStart(room);
  const rings = swollen(flat, room.gap / 2).map((ring) =>
    ring.map((point): Vec2 => {
      const [x, y] = placePoint(pinned, point);
      return [x - start, y - start];
    }),
  );
  const stencil = stencilOf(rings, 0, cell);
  const spot = { column: Math.round(stencil.corner[0] / cell), row: Math.round(stencil.corner[1] / cell) };
  field.take(stencil, spot);
  const piece: NestPiece = { flat, copy: 0, area: metalArea(flat), stencils: () => [stencil] };
  placed.push({ piece, stencil, spot, pinned });
};

/** The piece at its best place on the sheet; false when there is none. */
const layOn = ({ field, placed }: OpenSheet, piece: NestPiece): boolean => {
  let best: { stencil: Stencil; spot: Spot; reach: number } | undefined;
  for (const stencil of piece.stencils()) {
    const spot = field.find(stencil, best?.reach ?? Infinity);
    if (spot) best = { stencil, spot, reach: spot.column + stencil.columns.length };
  }
  if (!best) return false;
  field.take(best.stencil, best.spot);
  placed.push({ piece, stencil: best.stencil, spot: best.spot });
  return true;
};

const openFor = (
  piece: NestPiece,
  blanks: readonly Blank[],
  open: readonly OpenSheet[],
  room: NestRoom,
  cell: number,
): OpenSheet | undefined => {
  for (const blank of blanks) {
    const used = open.filter((sheet) => sheet.blank === blank).length;
    if (used >= (blank.count ?? Infinity)) continue;
    const sheet: OpenSheet = { blank, field: fieldOf(blank, room, cell), placed: [] };
    if (layOn(sheet, piece)) return sheet;
  }
  return undefined;
};

/** A piece is swollen by half the gap on each side, so the field begins that much nearer to the edge. */
const fieldStart = (room: NestRoom): number => room.margin - room.gap / 2;

const fieldOf = ({ size }: Blank, room: NestRoom, cell: number): Field => {
  const [columns, rows] = size.map((side) => Math.max(0, Math.floor((side - 2 * fieldStart(room)) / cell)));
  return createField(columns, rows);
};

const leftOver = (
  piece: NestPiece,
  blanks: readonly Blank[],
  room: NestRoom,
  cell: number,
  known: Unplaced | undefined,
): Unplaced => {
  if (known) return { ...known, count: known.count + 1 };
  const fits = blanks.some((blank) => layOn({ blank, field: fieldOf(blank, room, cell), placed: [] }, piece));
  return { flat: piece.flat, count: 1, reason: fits ? 'stock used up' : 'larger than every blank' };
};

const closeSheet = ({ blank, placed }: OpenSheet, room: NestRoom, cell: number): NestSheet => {
  const start = fieldStart(room);
  const placements = placed.map(({ piece, stencil, spot, pinned }): Placement => {
    const { flat, copy } = piece;
    if (pinned) return { flat, copy, turn: pinned.turn, offset: pinned.offset, isPinned: true };
    return {
      flat,
      copy,
      turn: stencil.turn,
      offset: [start + spot.column * cell - stencil.corner[0], start + spot.row * cell - stencil.corner[1]],
    };
  });
  const reach = Math.max(...placed.map(({ stencil, spot }) => spot.column + stencil.columns.length));
  const height = Math.max(...placed.map(({ stencil, spot }) => spot.row + stencil.rows));
  return {
    material: blank.stock.material,
    thickness: blank.stock.thickness,
    size: blank.size,
    blanksPerSheet: blank.perSheet,
    isRemnant: blank.isRemnant,
    stockSize: [Math.max(...blank.stock.size), Math.min(...blank.stock.size)],
    placed: placements,
    usedArea: placed.reduce((sum, { piece }) => sum + piece.area, 0),
    usedLength: Math.min(blank.size[0], start + reach * cell + room.gap / 2),
    usedWidth: Math.min(blank.size[1], start + height * cell + room.gap / 2),
  };
};
