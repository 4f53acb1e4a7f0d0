/** What a bend plan is. Types only. Lengths mm, angles rad, forces N. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Shop } from '../../model/tub.js';
import type { MachineRef, Setup } from '../bend-fit.js';
import type { Owner } from './metal/body.js';
import type { Progress } from './search.js';
import type { Placement } from './stroke/step.js';
import type { Stop } from './stroke/stop.js';
import type { ToolName } from './stroke/tools.js';

export interface Plan {
  readonly outcome: 'nothing to bend' | 'planned' | 'impossible' | 'not decided';
  /**
   * The search ran to its end: no order has fewer flips and turns, or none exists. False: the budget ended it, so a
   * better order may exist (`planned`) or whether there is one at all is open (`not decided`).
   */
  readonly complete: boolean;
  readonly steps: readonly PlanStep[];
  readonly flips: number;
  readonly turns: number;
  /** What stands in the way when there is no plan: the nearest miss at the farthest that was reached, as far as it was found. */
  readonly blocked: Blocked | undefined;
  /** Changes that free it, each proven by planning again; smallest change of the part first. */
  readonly remedies: readonly Remedy[];
  /** Looks, and how many were allowed. */
  readonly work: number;
  readonly budget: number;
}

export interface PlanStep {
  /** Bends of the flat made in this stroke. */
  readonly bends: readonly number[];
  /** Machine, die, force of the stroke, and the angle under load. */
  readonly setup: Setup;
  /** Widths of the punch or clamp segments to put on, widest first. */
  readonly fingers: readonly number[];
  readonly placement: Placement;
  readonly load: 'front' | 'end';
  /** Face of the sheet that looks up. */
  readonly up: 'dry' | 'wet';
  /** To be done before this step. */
  readonly flip: boolean;
  readonly turn: boolean;
  /** Panel behind the line (on a folding brake: under the clamp), index into the flat's panels. */
  readonly behind: number;
  readonly stop: Stop;
  /** Angle that remains: what the gauge, zeroed on the one panel, reads on the other after release. */
  readonly angle: number;
  readonly length: number;
  /** Metal that is bent over that length: it has gaps between bends that are pressed together. */
  readonly bent: number;
}

export interface Blocked {
  /** Bends of the flat that cannot be made … */
  readonly bends: readonly number[];
  /** … with these made before: as far as any order was found to get. */
  readonly made: readonly number[];
  readonly machine: MachineRef | undefined;
  readonly die: number | undefined;
  readonly obstacle: Obstacle;
}

export type Obstacle =
  | { readonly kind: 'no machine' }
  | { readonly kind: 'flange'; readonly panel: number; readonly has: number; readonly needs: number }
  /** `angle`: of the bend at first touch; `depth`: how far in at the worst. */
  | {
      readonly kind: 'tool';
      readonly tool: ToolName;
      readonly owner: Owner;
      readonly angle: number;
      readonly depth: number;
    }
  | { readonly kind: 'fingers'; readonly owner: Owner | undefined; readonly room: number; readonly needs: number }
  | { readonly kind: 'load'; readonly height: number; readonly opening: number }
  | { readonly kind: 'itself'; readonly owners: readonly [Owner, Owner]; readonly angle: number };

export type Remedy =
  /** Make a leg longer (`by` > 0) or shorter. */
  | { readonly kind: 'leg'; readonly panel: number; readonly by: number }
  /** Cut a flange, or several alike, back by that much at each end of its bend. */
  | { readonly kind: 'trim'; readonly panels: readonly number[]; readonly by: number }
  /** A punch or clamp that reaches so much below its beam. */
  | { readonly kind: 'depth'; readonly machine: MachineRef; readonly depth: number }
  | { readonly kind: 'die'; readonly machine: MachineRef; readonly opening: number }
  | { readonly kind: 'finger'; readonly machine: MachineRef; readonly width: number }
  /** Cut the part there and join the two with a seam. */
  | { readonly kind: 'split'; readonly bends: readonly number[] };

/** Does a changed part in a changed shop have an order at all? Found by planning it. */
export type CanBend = (flat: FlatPattern, shop: Shop) => Generator<Progress, boolean>;
