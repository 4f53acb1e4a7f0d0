/** Ends of strips that go on outside of the sides which close them. */
import { SAME_POINT } from '../geometry/tolerance.js';
import type { PanelIndex, Tub } from '../model/tub.js';
import type { Shape } from '../shape/shape.js';
import type { EdgeAccount, EdgeEntry } from '../shape/account/edge-account.js';

export interface SidePassed {
  /** The open end of the leg. */
  readonly entry: EdgeEntry;
  /** The panel that closes the strip at this end. */
  readonly side: PanelIndex;
}

/**
 * The open ends of legs that fall away outward from the rim of a strip whose end a side closes: a nose. A lip that goes on level
 * or rises covers nothing, and is left out. Cost: linear in the edges.
 */
export const sidesPassedOf = (tub: Tub, { faces }: Shape, { entries }: EdgeAccount): readonly SidePassed[] => {
  const sides = new Map(
    tub.panels.flatMap(({ kind }, i) => (kind.kind === 'side' ? [[`${kind.strip} ${kind.end}`, i] as const] : [])),
  );
  return entries.flatMap((entry): SidePassed[] => {
    const { face, edge, start, end } = entry.stretch;
    const { kind, edgeNames } = tub.panels[face];
    if (entry.use !== 'free' || kind.kind !== 'leg' || Math.abs(start[2] - end[2]) <= SAME_POINT) return [];
    const which = (['left', 'right'] as const).find((name) => edgeNames[name] === faces[face].panelEdge[edge]);
    const side = which && sides.get(`${kind.strip} ${which}`);
    return side !== undefined && fallsOutward(tub, face) ? [{ entry, side }] : [];
  });
};

/** Away from the other legs. */
const fallsOutward = (tub: Tub, face: PanelIndex): boolean => {
  const { corners, kind } = tub.panels[face];
  if (kind.kind !== 'leg') return false;
  // A leg's corners begin at its start.
  const falls = corners[0][2] - corners[3][2];
  const legs = tub.strips[kind.strip].panels;
  return kind.leg < legs.length / 2 ? falls < -SAME_POINT : falls > SAME_POINT;
};
