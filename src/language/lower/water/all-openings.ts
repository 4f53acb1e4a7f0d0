/** Every opening of a tub, and which of them are outlets. */
import { limits } from '../../../analysis/model/limits.js';
import type { Opening, Outlet as OutletModel, Tub } from '../../../analysis/model/tub.js';
import { isCutout, isHole, isOutlet, isSlot, type Outlet, type Statement } from '../../generated/ast.js';
import type { Indices } from '../indices.js';
import { type Lowering } from '../lowering.js';
import { OpeningNames, openingsOf, outletOf, spoutOf, type OpeningNode } from './openings.js';

/** All openings, and of them the outlets, whose places among these go into `outletIndices`. */
export const openingsIn = (
  lowering: Lowering,
  statements: readonly Statement[],
  indices: Indices,
  outletIndices: Map<Outlet, number>,
): Pick<Tub, 'openings' | 'outlets'> => {
  const openings: Opening[] = [];
  const outlets: OutletModel[] = [];
  const names = new OpeningNames();
  for (const node of statements) {
    if (!isOutlet(node) && !isHole(node) && !isCutout(node) && !isSlot(node)) continue;
    if (isOutlet(node) && node.form === 'spout') {
      const spout = spoutOf(lowering, node, indices);
      if (spout) outletIndices.set(node, outlets.push(spout) - 1);
      else lowering.lacksOutlet = true;
      continue;
    }
    const made = openingsOf(lowering, node, indices, names);
    if (isOutlet(node) && made.length === 0) lowering.lacksOutlet = true;
    if (openings.length + made.length > limits.openings.atMost) {
      reportTooManyOpenings(lowering, node, openings.length + made.length);
      continue;
    }
    if (isOutlet(node) && made.length > 0) {
      const outlet = outletOf(lowering, node, made[0], openings.length);
      if (outlet) {
        outletIndices.set(node, outlets.length);
        outlets.push(outlet);
      }
    }
    openings.push(...made);
  }
  return { openings, outlets };
};

/** Said where it happens first; what is too much is left out. */
const reportTooManyOpenings = (lowering: Lowering, node: OpeningNode, count: number): void => {
  const { atMost, name } = limits.openings;
  lowering.reports.add(
    'value/out-of-range',
    lowering.idOf(node),
    `With this the tub has ${count} openings; it needs at most ${atMost}, the limit of ${name}`,
    { values: { has_count: count, needs_count: atMost } },
  );
};
