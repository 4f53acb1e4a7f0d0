/** Every tank of a tub, and all that runs into it. */
import type { Inflow as InflowModel, Tank as TankModel } from '../../../analysis/model/tub.js';
import type { Inflow, Tank } from '../../generated/ast.js';
import type { Indices } from '../indices.js';
import type { Lowering } from '../lowering.js';
import { inflowOf, tankOf } from './liquid.js';
import type { PumpContext } from './pumps.js';

export const inflowsIn = (
  lowering: Lowering,
  nodes: readonly Inflow[],
  indices: Indices,
  context: PumpContext,
): readonly InflowModel[] => {
  const taken = new Set<string>();
  return nodes.flatMap((node) => inflowOf(lowering, node, indices, taken, context) ?? []);
};

export const tanksIn = (
  lowering: Lowering,
  nodes: readonly Tank[],
  indices: Indices,
): { readonly tanks: readonly TankModel[]; readonly tankIndices: ReadonlyMap<Tank, number> } => {
  const tanks: TankModel[] = [];
  const tankIndices = new Map<Tank, number>();
  for (const node of nodes) {
    const tank = tankOf(lowering, node, indices);
    if (tank) tankIndices.set(node, tanks.push(tank) - 1);
  }
  return { tanks, tankIndices };
};
