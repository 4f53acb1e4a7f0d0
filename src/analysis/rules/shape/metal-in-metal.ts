import { atPoint, inMm, named } from '../../model/wording.js';
import type { SourceId } from '../../model/place.js';
import type { Tub } from '../../model/tub.js';
import type { RoomTaker } from '../../solid/room/room-takers.js';
import type { Shape } from '../../shape/shape.js';
import type { Rule } from '../rule.js';

export const metalInMetal: Rule = {
  code: 'shape/metal-in-metal',
  severity: 'error',
  *check({ tub, shape, sharedRoom }) {
    for (const { takers, depth, point } of sharedRoom()) {
      const [a, b] = takers.map((taker) => toldOf(tub, shape(), taker));
      yield {
        message: `${capital(a.told)} and ${b.told} take the same room near ${atPoint(point)}, ${inMm(depth, 0)} deep; their metal must be clear`,
        at: b.at,
        about: [b.name, a.name],
        related: [{ at: a.at, message: `${capital(a.told)} lie${a.isOne ? 's' : ''} there as well; ${REMEDY}` }],
        values: { depth_mm: depth, x_mm: point[0], y_mm: point[1], z_mm: point[2] },
        measure: { has: depth, needs: 0, better: 'less' },
      };
    }
  },
};

const REMEDY = 'move or trim one, or cut an opening for it';

interface Told {
  readonly told: string;
  readonly isOne: boolean;
  readonly name: string;
  readonly at: SourceId;
}

const toldOf = (
  { panels, rims, seams, faceJoints = [], outlets, things = [] }: Tub,
  { bends }: Shape,
  taker: RoomTaker,
): Told => {
  if (taker.kind === 'panel') {
    const { name, at } = panels[taker.face];
    return { told: named(name), isOne: true, name, at };
  }
  if (taker.kind === 'bend') {
    const { name, at } = bends[taker.bend];
    return { told: `the bend ${named(name)}`, isOne: true, name, at };
  }
  if (taker.kind === 'hem') {
    const { edge, at } = rims[taker.rim];
    const { name } = panels[edge.panel];
    return { told: `the hem of ${named(name)}`, isOne: true, name, at };
  }
  if (taker.kind === 'thing') {
    const { name, at } = things[taker.thing];
    return { told: named(name), isOne: true, name, at };
  }
  if (taker.kind === 'lip' || taker.kind === 'frame') {
    const { name, at } = outlets[taker.outlet];
    return { told: `the ${taker.kind === 'lip' ? 'lip' : 'strainer frame'} of ${named(name)}`, isOne: true, name, at };
  }
  if (taker.kind === 'fasteners') {
    const { seam, at, fastener, index } = taker.fastener;
    const what = index < seams.length + faceJoints.length ? 'seam ' : '';
    return { told: `the ${fastener.kind}s of ${what}${named(seam)}`, isOne: false, name: seam, at };
  }
  const { name, at, tabs } = seams[taker.seam];
  if (!tabs) return { told: `the lap of seam ${named(name)}`, isOne: true, name, at };
  return { told: `the ${taker.kind} of seam ${named(name)}`, isOne: false, name, at: tabs?.at ?? at };
};

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
