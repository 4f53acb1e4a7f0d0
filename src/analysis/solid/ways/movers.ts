/** What has to come out of its place again: removable things, and what is held by screws alone. */
import { disjointSets } from '../../geometry/disjoint-sets.js';
import type { Part } from '../../fold/flat-pattern.js';
import type { Joints } from '../../join/joints.js';
import { isMade } from '../../model/around/roles.js';
import type { Group, Seam, SourceId, Tub } from '../../model/tub.js';
import type { FaceIndex } from '../../shape/shape.js';

export interface Mover {
  readonly kind: 'removable' | 'bolted';
  readonly name: string;
  readonly at: SourceId;
  /** Indices of the parts that come out as one. */
  readonly parts: readonly number[];
  /** Panels of other things on which it is seated or screwed. */
  readonly seats: readonly FaceIndex[];
}

interface Screwed {
  readonly faces: readonly [FaceIndex, FaceIndex];
}

/**
 * Removable groups each as one; then what is screwed and can come apart: of several things that screws alone hold together the one with
 * the most panels stays, unless they hang on what stands there already.
 */
export const moversOf = (tub: Tub, parts: readonly Part[], joints: Joints): readonly Mover[] => {
  const { paths, seams, faces } = joints;
  const sets = disjointSets(parts.length);
  const screwed: Screwed[] = [];
  const join = (pair: readonly [FaceIndex, FaceIndex], isFast: boolean, isScrewed: boolean): void => {
    const [a, b] = pair.map((face) => paths.partOf(face));
    if (isScrewed) screwed.push({ faces: pair });
    else if (isFast && a !== undefined && b !== undefined) sets.join(a, b);
  };
  for (const { seam, runs } of seams) {
    const isScrewed = comesApart(tub.seams[seam]);
    for (const { run } of runs) join([run.sides[0].face, run.sides[1].face], true, isScrewed);
  }
  for (const contact of faces) {
    const kind = tub.faceJoints?.[contact.joint].fasteners?.kind;
    join(contact.faces, kind === 'rivet', kind === 'screw');
  }
  const removables = joinGroups(tub, parts, sets.join);
  const thingOf = (face: FaceIndex): number | undefined => {
    const part = paths.partOf(face);
    return part === undefined ? undefined : sets.rootOf(part);
  };
  const partsOf = (thing: number): number[] => parts.flatMap((_, part) => (sets.rootOf(part) === thing ? [part] : []));
  const seatsOf = (thing: number): FaceIndex[] =>
    screwed.flatMap(({ faces: [a, b] }) => [
      ...(thingOf(a) === thing && thingOf(b) !== thing ? [b] : []),
      ...(thingOf(b) === thing && thingOf(a) !== thing ? [a] : []),
    ]);
  const taken = new Set<number>();
  const movers = removables.map(({ name, at, seat, part }): Mover => {
    const thing = sets.rootOf(part);
    taken.add(thing);
    const seats = [...(seat === undefined ? [] : [seat]), ...seatsOf(thing)];
    return { kind: 'removable', name, at, parts: partsOf(thing), seats };
  });
  for (const thing of boltedThings(tub, parts.length, screwed, thingOf, partsOf)) {
    if (taken.has(thing)) continue;
    const own = partsOf(thing);
    const { name, faces: panels } = parts[own[0]];
    movers.push({ kind: 'bolted', name, at: tub.panels[panels[0]].at, parts: own, seats: seatsOf(thing) });
  }
  return movers;
};

/** Held by screws and nothing that would have to be cut or drilled out. */
const comesApart = ({ fasteners, weld, solder, spots }: Seam): boolean =>
  fasteners?.kind === 'screw' && weld === undefined && !solder && !spots;

/** All parts of a removable group come out together; one of the parts of each. */
const joinGroups = (
  { groups = [], panels }: Tub,
  parts: readonly Part[],
  join: (a: number, b: number) => void,
): readonly (Pick<Group, 'name' | 'at' | 'seat'> & { readonly part: number })[] =>
  groups.flatMap(({ role, name, at, seat }, group) => {
    if (role !== 'removable') return [];
    const own = parts.flatMap(({ faces }, part) => (panels[faces[0]].group === group ? [part] : []));
    for (const part of own) join(own[0], part);
    return own.length > 0 ? [{ name, at, seat, part: own[0] }] : [];
  });

/** Things that hang together by screws: all of those that hang on what is not made, of others all but the largest. */
const boltedThings = (
  tub: Tub,
  count: number,
  screwed: readonly Screwed[],
  thingOf: (face: FaceIndex) => number | undefined,
  partsOf: (thing: number) => readonly number[],
): readonly number[] => {
  // The last of the sets is what stands there already.
  const clusters = disjointSets(count + 1);
  const things = new Set<number>();
  for (const { faces } of screwed) {
    const [a, b] = faces.map((face) => (isMade(tub, face) ? thingOf(face) : count));
    if (a === undefined || b === undefined || a === b) continue;
    clusters.join(a, b);
    for (const thing of [a, b]) if (thing < count) things.add(thing);
  }
  const fixed = clusters.rootOf(count);
  return [...things]
    .sort((a, b) => a - b)
    .filter((thing) => {
      if (clusters.rootOf(thing) === fixed) return true;
      const others = [...things].filter((other) => clusters.rootOf(other) === clusters.rootOf(thing));
      const largest = others.reduce((most, each) => (partsOf(each).length > partsOf(most).length ? each : most));
      return thing !== largest;
    });
};
