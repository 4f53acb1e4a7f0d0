/** Edges of a tub that came out otherwise that met as drawn: a little apart now, they are one seam with a gap, and no two free edges. */
import { distance, dot, lerp, subtract, type Vec3 } from '../../geometry/vec.js';
import { READING_FAR_OFF } from '../../model/tolerance.js';
import type { Contacts, EdgeContact, EdgeStretch } from './edge-contacts.js';

type Loops = readonly (readonly Vec3[])[];

interface Met {
  readonly loops: Loops;
  readonly contacts: Contacts;
}

/**
 * Contacts as made, those of edges that came apart as they were drawn. An edge that meets what it did not meet as drawn stays as it is.
 * Loops are those of the same panels, edge for edge. Cost: O(n) in stretches.
 */
export const tiedContacts = (made: Met, drawn: Met): Contacts => {
  const ties = tiesOf(made, drawn);
  if (ties.size === 0) return made.contacts;
  return made.contacts.map((edges, loop) =>
    edges.map((stretches, edge) => {
      const isTied = (mate: EdgeContact): boolean => ties.has(keyOf({ loop, edge }, mate)) || meets(stretches, mate);
      if (!drawn.contacts[loop][edge]?.some(({ mates }) => mates.some((mate) => ties.has(keyOf({ loop, edge }, mate)))))
        return stretches;
      return asDrawn({ made: made.loops[loop], drawn: drawn.loops[loop] }, edge, drawn.contacts[loop][edge]).map(
        (stretch) => ({ ...stretch, mates: stretch.mates.filter(isTied) }),
      );
    }),
  );
};

type EdgeOf = Pick<EdgeContact, 'loop' | 'edge'>;

const keyOf = (a: EdgeOf, b: EdgeOf): string => {
  const [p, q] = a.loop < b.loop ? [a, b] : [b, a];
  return `${p.loop} ${p.edge} ${q.loop} ${q.edge}`;
};

const meets = (stretches: readonly EdgeStretch[], { loop, edge }: EdgeOf): boolean =>
  stretches.some(({ mates }) => mates.some((mate) => mate.loop === loop && mate.edge === edge));

const tiesOf = (made: Met, drawn: Met): ReadonlySet<string> => {
  const ties = new Set<string>();
  const isTied = (own: EdgeOf, mate: EdgeContact, stretch: EdgeStretch): boolean =>
    !meets(made.contacts[own.loop][own.edge], mate) &&
    [own, mate].every((each) => hasEdge(made, drawn, each) && meetsNoOther(made, drawn, each)) &&
    areNear(made, drawn, { own, mate, stretch });
  drawn.contacts.forEach((edges, loop) =>
    edges.forEach((stretches, edge) => {
      for (const stretch of stretches)
        for (const mate of stretch.mates)
          if (loop < mate.loop && isTied({ loop, edge }, mate, stretch)) ties.add(keyOf({ loop, edge }, mate));
    }),
  );
  return ties;
};

const hasEdge = (made: Met, drawn: Met, { loop }: EdgeOf): boolean =>
  made.loops[loop].length > 0 && made.loops[loop].length === drawn.loops[loop].length;

const meetsNoOther = (made: Met, drawn: Met, { loop, edge }: EdgeOf): boolean =>
  made.contacts[loop][edge].every(({ mates }) => mates.every((mate) => meets(drawn.contacts[loop][edge], mate)));

/** Two panels that meet may each lean by what no good reading is off. */
const TIED = 2 * Math.sin(READING_FAR_OFF);

const areNear = (
  made: Met,
  drawn: Met,
  { own, mate, stretch }: { readonly own: EdgeOf; readonly mate: EdgeOf; readonly stretch: EdgeStretch },
): boolean =>
  [stretch.start, stretch.end].every((point) => {
    const [a, b] = [own, mate].map(({ loop, edge }) =>
      moved({ made: made.loops[loop], drawn: drawn.loops[loop] }, edge, point),
    );
    return distance(a, b) <= TIED * distance(stretch.start, stretch.end);
  });

interface Loop {
  readonly made: readonly Vec3[];
  readonly drawn: readonly Vec3[];
}

const edgeOf = (corners: readonly Vec3[], edge: number): readonly [Vec3, Vec3] => [
  corners[edge],
  corners[(edge + 1) % corners.length],
];

/** A place on an edge as drawn at the same share of it as made. */
const moved = ({ made, drawn }: Loop, edge: number, point: Vec3): Vec3 => {
  const [[a, b], [from, to]] = [edgeOf(drawn, edge), edgeOf(made, edge)];
  const along = subtract(b, a);
  return lerp(from, to, dot(subtract(point, a), along) / dot(along, along));
};

const asDrawn = (loop: Loop, edge: number, stretches: readonly EdgeStretch[]): readonly EdgeStretch[] => {
  const [first] = edgeOf(loop.made, edge);
  return stretches.map(({ start, end, mates }): EdgeStretch => {
    const [p, q] = [moved(loop, edge, start), moved(loop, edge, end)];
    return { from: distance(first, p), to: distance(first, q), start: p, end: q, mates };
  });
};
