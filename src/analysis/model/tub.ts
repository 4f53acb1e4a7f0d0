/**
 * The vocabulary of the project: one tub as its builder states it, evaluated to plain numbers.
 *
 * Lengths are mm, angles rad, points are in the tub's frame (x right, y back, z up); any other unit is in the name.
 * The value is immutable JSON. It may be faulty in every way a builder can be wrong: analysis reports, never throws.
 */
import type { Clear } from './around/clear.js';
import type { Opening, Outlet } from './opening.js';
import type { Group } from './around/group.js';
import type { Panel, Rim, StatedBend, Strip } from './panel.js';
import type { MadePart } from './made.js';
import type { Parameter } from './parameter.js';
import type { Marked } from './marked.js';
import type { Pin } from './pin.js';
import type { SourceId } from './place.js';
import type { TapedNet } from './around/taped.js';
import type { FaceJoint, Seam } from './seam.js';
import type { Sheet } from './shop/sheet.js';
import type { Shop } from './shop/shop.js';
import type { Stand } from './around/stand.js';
import type { Thing } from './around/thing.js';
import type { DrainPath, Inflow, Level, Liquid, Tank, Week, Zone } from './use.js';
import type { Accept, Aim } from './wish.js';

export type * from './around/clear.js';
export type * from './around/group.js';
export type * from './made.js';
export type * from './opening.js';
export type * from './panel.js';
export type * from './parameter.js';
export type * from './marked.js';
export type * from './pin.js';
export type * from './place.js';
export type * from './seam.js';
export type * from './shop/sheet.js';
export type * from './shop/shop.js';
export type * from './around/stand.js';
export type * from './around/taped.js';
export type * from './around/thing.js';
export type * from './use.js';
export type * from './wish.js';

export interface Tub {
  readonly name: string;
  readonly at: SourceId;
  readonly parameters: readonly Parameter[];
  readonly sheets: readonly Sheet[];
  readonly panels: readonly Panel[];
  readonly strips: readonly Strip[];
  /** Things that stand there already, as other files have them; none unless given. */
  readonly things?: readonly Thing[];
  /** Of a tub as made its panels as they were drawn: what met there belongs together. */
  readonly drawn?: readonly Panel[];
  /** What is not simply of the tub; none unless given. */
  readonly groups?: readonly Group[];
  /** Room that must stay between them; none unless given. */
  readonly clears?: readonly Clear[];
  readonly bends: readonly StatedBend[];
  readonly seams: readonly Seam[];
  /** Faces bolted flat on one another; none unless given. */
  readonly faceJoints?: readonly FaceJoint[];
  readonly rims: readonly Rim[];
  readonly outlets: readonly Outlet[];
  readonly openings: readonly Opening[];
  readonly level: Level | undefined;
  /** How all places of this tub were turned, as it is set up leaning; undefined: it stands as it is built. */
  readonly stands?: Stand | undefined;
  readonly liquid: Liquid | undefined;
  readonly inflows: readonly Inflow[];
  readonly paths: readonly DrainPath[];
  readonly tanks: readonly Tank[];
  /** Undefined: none is stated. */
  readonly week?: Week | undefined;
  readonly dryZones: readonly Zone[];
  readonly keepouts: readonly Zone[];
  /** Pieces that stay where they are on the nest; none unless given. */
  readonly pins?: readonly Pin[];
  /** On which side pieces are marked; where none is given, the one on which bend lines are seen. */
  readonly marks?: readonly Marked[];
  /** Places that were measured; none unless given. */
  readonly taped?: readonly TapedNet[];
  /** What was read of parts that are cut already; none unless given. Everything else is as drawn. */
  readonly made?: readonly MadePart[];
  readonly accepts: readonly Accept[];
  /** Undefined when no shop is named: the documented default shop is meant. */
  readonly shop: Shop | undefined;
  /** What free values are worked out for. */
  readonly aim: Aim | undefined;
}
