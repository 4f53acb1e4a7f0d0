import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addScaled,
  cross,
  distance,
  dot,
  lengthOf,
  lerp,
  subtract,
  unit,
  type Vec3,
} from '../../../src/analysis/geometry/vec.js';
import { findEdgeContacts } from '../../../src/analysis/shape/contact/edge-contacts.js';
import { gapBetweenAll, segmentGap } from '../../../src/analysis/geometry/gap-between.js';
import { arbitraryPose, posed, real, type Pose } from '../../support/random/arbitrary-part.js';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { tubOf } from '../../support/tub-of.js';
import { casesOf } from '../../support/cases.js';

/** Every pair of edges of different loops that lie along each other for more than 0.001 mm, compared one by one. */
const touchingPairs = (loops: readonly (readonly Vec3[])[]): string[] => {
  const edges = loops.flatMap((corners, loop) =>
    corners.map((start, edge) => ({ loop, edge, start, end: corners[(edge + 1) % corners.length] })),
  );
  return edges
    .flatMap((p) =>
      edges.flatMap((q) => {
        if (p.loop === q.loop) return [];
        const along = unit(subtract(p.end, p.start));
        const offLine = (point: Vec3): number => lengthOf(cross(subtract(point, p.start), along));
        if (Math.max(offLine(q.start), offLine(q.end)) > 1e-3) return [];
        const [s, t] = [dot(subtract(q.start, p.start), along), dot(subtract(q.end, p.start), along)];
        const shared = Math.min(distance(p.start, p.end), Math.max(s, t)) - Math.max(0, Math.min(s, t));
        return shared > 1e-3 ? [`${p.loop}.${p.edge} ${q.loop}.${q.edge}`] : [];
      }),
    )
    .sort();
};

const foundPairs = (loops: readonly (readonly Vec3[])[]): string[] => {
  const pairs = findEdgeContacts(loops).flatMap((edges, loop) =>
    edges.flatMap((contacts, edge) =>
      contacts.flatMap(({ mates }) => mates.map((mate) => `${loop}.${edge} ${mate.loop}.${mate.edge}`)),
    ),
  );
  return [...new Set(pairs)].sort();
};

/** Triangles around a tip, some with a second one along part of an outer or a radial edge. */
const cone = (angles: readonly number[], parts: readonly number[], pose: Pose): readonly (readonly Vec3[])[] => {
  const rays = angles.reduce<number[]>((sums, angle) => [...sums, (sums[sums.length - 1] ?? 0) + angle], []);
  const at = (i: number): Vec3 => [300 * Math.cos(rays[i]), 300 * Math.sin(rays[i]), 20 * (i % 3)];
  const tip: Vec3 = [0, 0, 100];
  const triangles = rays.slice(1).map((_, i): Vec3[] => [tip, at(i), at(i + 1)]);
  const extra = triangles.flatMap(([, a, b], i): Vec3[][] => {
    const share = parts[i % parts.length];
    if (share < 0.3) return [];
    const [from, to] = share > 0.65 ? [tip, a] : [a, b];
    const [p, q] = [lerp(from, to, share - 0.25), lerp(from, to, share)];
    return [[p, q, addScaled(q, [0, 0, 1], 40 + i)]];
  });
  return [...triangles, ...extra].map((loop) => loop.map((corner) => posed(corner, pose)));
};

const arbitraryCone = fc
  .record({
    angles: fc.array(real(0.004, 0.4), { minLength: 3, maxLength: 30 }),
    parts: fc.array(real(0, 1), { minLength: 1, maxLength: 6 }),
    pose: arbitraryPose,
  })
  .map(({ angles, parts, pose }) => cone(angles, parts, pose));

describe('contacts of edges', () => {
  it('are the same as comparing every edge with every other, in cones of any pose', () => {
    let found = 0;
    fc.assert(
      fc.property(arbitraryCone, (loops) => {
        const pairs = foundPairs(loops);
        found += pairs.length;
        expect(pairs).toEqual(touchingPairs(loops));
      }),
      { seed: 41, numRuns: casesOf(40) },
    );
    expect(found).toBeGreaterThan(500);
  });

  it('are found whichever way an edge runs, also where its mate lies a little astray', () => {
    const loops: Vec3[][] = [];
    fc.assert(
      fc.property(fc.tuple(real(-1, 1), real(-1, 1), real(-1, 1)), real(2, 8), (way, length) => {
        if (lengthOf(way) < 0.1) return;
        const along = unit(way);
        const side = unit(cross(along, [0.3, 0.5, 0.8]));
        const at: Vec3 = [100 * loops.length, 0, 0];
        const end = addScaled(at, along, length);
        loops.push([at, end, addScaled(at, side, 20)]);
        loops.push([addScaled(at, side, 0.0004), addScaled(end, side, -0.0004), addScaled(at, side, -20)]);
      }),
      { seed: 44, numRuns: casesOf(300) },
    );
    const together = loops.flatMap((_, i) => (i % 2 === 0 ? [`${i}.0 ${i + 1}.0`, `${i + 1}.0 ${i}.0`] : []));
    expect(foundPairs(loops)).toEqual(together.sort());
  });

  it('cover every edge from start to end without gap', () => {
    fc.assert(
      fc.property(arbitraryCone, (loops) => {
        findEdgeContacts(loops).forEach((edges, loop) =>
          edges.forEach((contacts, edge) => {
            expect(contacts[0].start).toEqual(loops[loop][edge]);
            expect(contacts[contacts.length - 1].end).toEqual(loops[loop][(edge + 1) % loops[loop].length]);
            contacts.slice(1).forEach((contact, i) => expect(contact.start).toEqual(contacts[i].end));
          }),
        );
      }),
      { seed: 42, numRuns: casesOf(15) },
    );
  });
});

describe('the gap between faces', () => {
  it('is the least over all pairs of edges, however many there are', () => {
    fc.assert(
      fc.property(
        arbitraryPose,
        fc.array(real(0.1, 0.5), { minLength: 12, maxLength: 60 }),
        real(1, 90),
        (pose, angles, off) => {
          const loops = cone(angles, [0], pose);
          const panels = Object.fromEntries(loops.map((corners, i) => [`p${i}`, corners]));
          const other = loops.map((corners) => corners.map((corner) => addScaled(corner, [0.3, 0.2, 0.93], off)));
          const { faces } = buildShape(
            tubOf({ panels: { ...panels, ...Object.fromEntries(other.map((corners, i) => [`q${i}`, corners])) } }),
          );
          const [ones, others] = [faces.slice(0, loops.length), faces.slice(loops.length)];
          const edges = (list: typeof faces) =>
            list.flatMap(({ corners }) => corners.map((c, i) => [c, corners[(i + 1) % corners.length]] as const));
          const least = Math.min(
            ...edges(ones).map((p) => Math.min(...edges(others).map((q) => segmentGap(...p, ...q)))),
          );
          expect(gapBetweenAll(ones, others)).toBeCloseTo(least, 9);
        },
      ),
      { seed: 43, numRuns: casesOf(8) },
    );
  });
});
