import { NOISE } from '../geometry/tolerance.js';
import { isMade } from '../model/around/roles.js';
import type { Tub } from '../model/tub.js';
import type { FaceIndex, Shape } from '../shape/shape.js';
import type { Part } from './flat-pattern.js';

/** Areas that differ by less are equal: a tub moved, turned or mirrored keeps its roots. */
const CLEARLY_LARGER = 1 + NOISE;

/**
 * The pieces to cut: faces joined by bends, each a tree rooted in its largest face (the first of equals).
 * Unusable faces and existing things belong to no part. Order: by the first panel of each part. Cost: O(n) in faces and bends.
 */
export const findParts = (tub: Tub, shape: Shape): readonly Part[] => {
  const bendsAt: number[][] = shape.faces.map(() => []);
  for (const bend of shape.bends) for (const face of bend.faces) bendsAt[face].push(bend.index);
  const seen = shape.faces.map(() => false);
  const parts: Part[] = [];
  shape.faces.forEach((face, first) => {
    if (seen[first] || !face.usable || !isMade(tub, first)) return;
    const members = walk(shape, bendsAt, first).faces;
    for (const member of members) seen[member] = true;
    const root = members.reduce(
      (best, member) => (shape.faces[member].area > shape.faces[best].area * CLEARLY_LARGER ? member : best),
      first,
    );
    const sheet = tub.panels[root].sheet;
    parts.push({
      index: parts.length,
      name: partName(tub, root),
      sheet,
      thickness: tub.sheets[sheet].thickness,
      ...walk(shape, bendsAt, root),
    });
  });
  return parts;
};

const partName = (tub: Tub, root: FaceIndex): string => {
  const { kind, name } = tub.panels[root];
  return kind.kind === 'leg' ? tub.strips[kind.strip].name : name;
};

const walk = (
  shape: Shape,
  bendsAt: readonly (readonly number[])[],
  root: FaceIndex,
): Pick<Part, 'faces' | 'bends'> => {
  const faces = [root];
  const bends: number[] = [];
  const reached = new Set(faces);
  for (const face of faces) {
    for (const bend of bendsAt[face]) {
      const [a, b] = shape.bends[bend].faces;
      const next = a === face ? b : a;
      if (reached.has(next)) continue;
      reached.add(next);
      faces.push(next);
      bends.push(bend);
    }
  }
  return { faces, bends };
};
