import type { Vec3 } from '../../../analysis/geometry/vec.js';
import type { Panel as PanelModel, SourceId } from '../../../analysis/model/tub.js';
import type { Flange, Leg, Panel, Side } from '../../generated/ast.js';
import { describePowers, type Powers } from './units.js';

/** A number with its dimension, or a place in space in mm. */
export type Value = NumberValue | PointValue;

export interface NumberValue {
  readonly kind: 'number';
  readonly value: number;
  readonly powers: Powers;
  /** Set while the number has no unit: it becomes a length where one is wanted. */
  readonly bare: Bare | undefined;
}

export interface PointValue {
  readonly kind: 'point';
  readonly value: Vec3;
}

/** A literal without unit, and what its file's `units` makes of it in mm. */
export interface Bare {
  readonly at: SourceId;
  readonly factor: number | undefined;
}

export const numberValue = (value: number, powers: Powers, bare?: Bare): NumberValue => ({
  kind: 'number',
  value,
  powers,
  bare,
});
export const pointValue = (value: Vec3): PointValue => ({ kind: 'point', value });

/** For messages. */
export const describe = (value: Value): string => (value.kind === 'point' ? 'a point' : describePowers(value.powers));

/** The statements that make a panel. */
export type PanelNode = Panel | Leg | Side | Flange;

/** A panel's wet face as the text gives it: the geometric part of the model's `Panel`. */
export type Face = Pick<
  PanelModel,
  'corners' | 'cornerNames' | 'cornerAts' | 'edgeNames' | 'facing' | 'movedBy' | 'isMetalStated'
>;

/** Index of the coordinate that a word of the language means. */
export const AXES = { x: 0, y: 1, z: 2 } as const;
