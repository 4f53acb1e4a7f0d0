/** A seam as it is joined. Types only; `joints.ts` makes them. */
import type { Bead } from './seam/bead.js';
import type { FastenerPlace } from './fasteners/fastener-places.js';
import type { Spot } from './tabs/contact.js';
import type { SeamMethod } from './seam/method.js';
import type { OpenGap } from './seam/run-gaps.js';
import type { SeamRun } from './seam/seam-runs.js';
import type { EdgeFit } from './tabs/edge-fit.js';
import type { TabPiece } from './tabs/tab-pieces.js';
import type { PlacedRow } from './tabs/tab-rows.js';

export interface SeamJoint {
  /** Index into `Tub.seams`. */
  readonly seam: number;
  readonly name: string;
  readonly method: SeamMethod;
  readonly length: number;
  readonly runs: readonly RunJoint[];
  /** Widest gap allowed, mm. */
  readonly allowed: number;
  /** Most that a clamp may need to pull, N. */
  readonly clampAtMost: number;
}

export interface RunJoint {
  readonly run: SeamRun;
  readonly gap: RunGap;
  readonly row: PlacedRow | undefined;
  readonly tabs: readonly TabPiece[];
  /** Edges that must be bevelled at the clips or tabs. */
  readonly fits: readonly EdgeFit[];
  readonly spots: readonly Spot[];
  /** Rivets or screws through what lies on one another. */
  readonly fasteners: readonly FastenerPlace[];
  readonly bead: Bead;
}

export interface RunGap extends OpenGap {
  /** What the clips draw together again: at most their inset. */
  readonly drawn: number;
  /** What to expect: nominal and RSS, less what is drawn. */
  readonly expected: number;
  /** How far a clamp pulls the run, so that what closes the seam bridges it; 0: nothing to pull. */
  readonly pull: number;
  /** The clamp's force for that, N; undefined: no clamp shuts it. */
  readonly pullForce: number | undefined;
}
