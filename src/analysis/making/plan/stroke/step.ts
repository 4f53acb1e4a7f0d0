/** One bend at a time: the question, and the answer with what it takes or what is in the way. Lengths mm, angles rad. */
import type { Setup } from '../../bend-fit.js';
import type { FingerSet } from '../../fingers.js';
import type { OperationSet } from '../operations.js';
import type { OwnHit } from './own-collision.js';
import type { ToolHit } from './side-check.js';
import type { Stop } from './stop.js';

/** Where the bend line lies along the machine's bed. */
export type Placement = 'middle' | 'left end' | 'right end';

export interface StepQuestion {
  readonly operation: number;
  /** Operations made before. */
  readonly bent: OperationSet;
  /** Side that lies towards the back gauge; on a folding brake the side that is clamped. 0 parents', 1 children'. */
  readonly back: 0 | 1;
  /** Machine and die to look at first: those of the step beside this one. */
  readonly like?: Setup | undefined;
}

export type Step = GoodStep | BadStep;

/** A bend that clears everything, and how it is made. */
export interface GoodStep {
  readonly ok: true;
  readonly setup: Setup;
  readonly placement: Placement;
  readonly fingers: FingerSet;
  /** The part goes in under the raised punch from the operator's side, or has to be slid in from the end. */
  readonly load: 'front' | 'end';
  readonly stop: Stop;
}

export interface BadStep {
  readonly ok: false;
  readonly setup: Setup | undefined;
  readonly reason: BadReason;
}

export type BadReason =
  | { readonly kind: 'no machine' }
  /** The flat metal beside the line is too short for the die or the clamp. */
  | { readonly kind: 'flange'; readonly side: 0 | 1; readonly has: number; readonly needs: number }
  | { readonly kind: 'tool'; readonly side: 0 | 1; readonly hit: ToolHit }
  /** Standing metal leaves too little room along the line for fingers that cover it. */
  | {
      readonly kind: 'fingers';
      readonly side: 0 | 1;
      readonly room: number;
      readonly needs: number;
      readonly hit: ToolHit | undefined;
    }
  /** The part goes neither under the raised punch nor in from the end. */
  | { readonly kind: 'load'; readonly height: number; readonly opening: number }
  | { readonly kind: 'itself'; readonly hit: OwnHit };
