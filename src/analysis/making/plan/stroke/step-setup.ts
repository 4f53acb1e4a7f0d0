/** The ways to make one stroke, and the tools of each. Lengths mm, angles rad. */
import type { FlatPattern } from '../../../fold/flat-pattern.js';
import type { Metal, Shop } from '../../../model/tub.js';
import { setupsFor, type Setup, type ShortfallKind } from '../../bend-fit.js';
import type { Operation } from '../operations.js';
import type { StrokeGeometry } from '../metal/motion.js';
import { folderToolsOf, pressToolsOf, type FolderTools, type PressTools } from './tools.js';

/** What rules a machine out for a stroke whatever the order; the flange depends on the order and is looked at there. */
const RULES_OUT: readonly ShortfallKind[] = ['length', 'force', 'capacity', 'angle'];

/** The ways to make one stroke, best first. */
export interface StrokeSetups {
  readonly usual: readonly Setup[];
  /** Dies off the charts, for a flange that is too short for all the usual ones, as the check of a single bend has it. */
  readonly spare: readonly Setup[];
}

/** Machines and dies that can make the stroke at all; dies off the charts are usual only where there is no other. */
export const strokeSetups = (flat: FlatPattern, operation: Operation, shop: Shop, metal: Metal): StrokeSetups => {
  const task = {
    metal,
    thickness: flat.thickness,
    radius: operation.radius,
    angle: operation.angle,
    length: operation.line.length,
    bent: operation.line.bent,
    flanges: [Infinity, Infinity],
  } as const;
  const possible = setupsFor(task, shop).filter(
    ({ shortfalls }) => !shortfalls.some(({ kind }) => RULES_OUT.includes(kind)),
  );
  const isOffChart = ({ shortfalls }: Setup): boolean => shortfalls.some(({ kind }) => kind === 'opening');
  const usual = possible.filter((setup) => !isOffChart(setup));
  return usual.length > 0 ? { usual, spare: possible.filter(isOffChart) } : { usual: possible, spare: [] };
};

export const strokeGeometry = (flat: FlatPattern, operation: Operation, setup: Setup): StrokeGeometry => ({
  thickness: flat.thickness,
  radius: operation.radius,
  kFactor: operation.kFactor,
  allowance: operation.allowance,
  bendTo: setup.bendTo,
});

export interface ToolShelf {
  readonly press: (brake: number, die: number, radius: number) => PressTools;
  readonly folder: (brake: number, radius: number) => FolderTools;
}

/** Tools of the shop for sheet of that thickness, each made once. */
export const toolShelf = (shop: Shop, thickness: number): ToolShelf => {
  const pressed = new Map<string, PressTools>();
  const folded = new Map<string, FolderTools>();
  const once = <T>(shelf: Map<string, T>, key: string, make: () => T): T => {
    const known = shelf.get(key);
    if (known) return known;
    const made = make();
    shelf.set(key, made);
    return made;
  };
  return {
    press: (brake, die, radius) =>
      once(pressed, `${brake}|${die}|${radius}`, () => pressToolsOf(shop.pressBrakes[brake], die, radius)),
    folder: (brake, radius) =>
      once(folded, `${brake}|${radius}`, () => folderToolsOf(shop.foldingBrakes[brake], thickness, radius)),
  };
};
