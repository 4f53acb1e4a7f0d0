import type { Outlet, OutletPipe } from '../../model/tub.js';
import {
  EXIT,
  fullFlow,
  mostPartFull,
  partFullDepth,
  SHARP_ENTRY,
  SMOOTH_PIPE,
  speedIn,
  type Falling,
  type Pipe,
} from './pipe-flow.js';

/** The pipe below an outlet, as the water sees it. */
export interface PipeBelow {
  /** What it takes with the water `level` high over the outlet, mm3/s, full or with air in it, whichever is more. */
  readonly takes: (level: number) => number;
  readonly pipe: Pipe;
  readonly falling: Falling;
  /** Height of its lower end. */
  readonly end: number;
}

/**
 * Full it is driven by all of the height from the water down to its end, less entry, friction and exit; with air in it, it
 * carries what its fall does by Manning. That a full pipe draws more through the outlet than falls into an open one is left out.
 */
export const pipeBelow = (outlet: Outlet, { bore, length, to }: OutletPipe, viscosityCst: number): PipeBelow => {
  const pipe: Pipe = { bore, length, roughness: SMOOTH_PIPE, fittings: SHARP_ENTRY + EXIT };
  const end = to[2];
  const falling: Falling = { bore, fall: Math.min(1, Math.max(0, (outlet.center[2] - end) / length)) };
  const vented = mostPartFull(falling);
  return {
    pipe,
    falling,
    end,
    takes: (level) => (level > end ? Math.max(vented, fullFlow(pipe, level - end, viscosityCst)) : 0),
  };
};

/** A pipe below an outlet at work. */
export interface PipeState {
  /** Which of both takes less with the water at the rim; the outlet where none is known. */
  readonly limits: 'outlet' | 'pipe';
  /** What it takes at most with air in it, and full with the water as it stands, mm3/s. */
  readonly partFullMm3S: number;
  readonly fullMm3S: number;
  /** Depth in it at work, mm; undefined: it runs full. */
  readonly depth: number | undefined;
  /** mm/s, where it runs full. */
  readonly speed: number | undefined;
}

export const pipeState = (
  { pipe, falling, end }: PipeBelow,
  {
    rateMm3S,
    level,
    limits,
  }: { readonly rateMm3S: number; readonly level: number; readonly limits: PipeState['limits'] },
  viscosityCst: number,
): PipeState => {
  const depth = rateMm3S > 0 ? partFullDepth(falling, rateMm3S) : 0;
  return {
    limits,
    partFullMm3S: mostPartFull(falling),
    fullMm3S: Number.isFinite(level) ? fullFlow(pipe, level - end, viscosityCst) : Infinity,
    depth,
    speed: depth === undefined ? speedIn(pipe, rateMm3S) : undefined,
  };
};
