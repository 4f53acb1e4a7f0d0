/** A sheet a quarter turned, clockwise: what reaches least far across it then reaches least far along it. */
import { normalTurn } from '../making/grain-turns.js';
import type { Rack, Shear } from '../making/blanks.js';
import type { NestSheet, Placement } from './nest.js';

const QUARTER = Math.PI / 2;

/** A sheet of the rack that is laid on the cutter a quarter turned. */
export const turnedRack = (rack: Rack): Rack => ({
  ...rack,
  size: [rack.size[1], rack.size[0]],
  ways: rack.ways.map(turnedShear),
});

export const turnedShear = ({ lengths, widths }: Shear): Shear => ({ lengths: widths, widths: lengths });

/** (x, y) of the sheet goes to (y, length - x). */
export const turnedSheet = (sheet: NestSheet): NestSheet => {
  const [length, width] = sheet.size;
  return {
    ...sheet,
    size: [width, length],
    usedLength: sheet.usedWidth,
    usedWidth: sheet.usedLength,
    placed: sheet.placed.map(({ turn, offset, ...rest }): Placement => ({
      ...rest,
      turn: normalTurn(turn - QUARTER),
      offset: [offset[1], length - offset[0]],
    })),
  };
};

/** The placements of a turned sheet on the sheet as it was; `length`: of that. */
export const turnedBack = (placed: readonly Placement[], length: number): Placement[] =>
  placed.map(({ turn, offset, ...rest }): Placement => ({
    ...rest,
    turn: normalTurn(turn + QUARTER),
    offset: [length - offset[1], offset[0]],
  }));

/** Turns of a piece on a turned sheet. */
export const turnsOnTurned = (turns: readonly number[]): number[] => turns.map((turn) => normalTurn(turn - QUARTER));
