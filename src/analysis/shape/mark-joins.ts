import type { Seam, SeamMember, SourceId, Tub } from '../model/tub.js';
import type { PlacedBend } from './find-bends.js';
import { gapBetweenAll } from '../geometry/gap-between.js';
import { lerp } from '../geometry/vec.js';
import { OFF_PLANE } from '../model/tolerance.js';
import { indexFaces } from './face-index.js';
import { footOn } from './feet.js';
import type { Face, FaceIndex, Foot, ShapeFault, Stretch } from './shape.js';

/** What takes a stretch. */
export type Marks = Pick<Stretch, 'bend' | 'seams' | 'rim' | 'feet'>;

interface Draft extends Marks {
  bend: number | undefined;
  rim: number | undefined;
  readonly seams: number[];
  feet?: Foot[];
  readonly takings: Taking[];
}

interface Taken {
  readonly mark: Draft;
  /** An earlier statement has joined the stretch to one of the same panels. */
  readonly isJoined: boolean;
}

/** A statement that takes a stretch; no partners: all of it, whoever lies along it. */
interface Taking {
  readonly at: SourceId;
  readonly partners: readonly FaceIndex[];
}

/**
 * Which bend, seams and rim take each stretch; stretches that nothing takes have no marks. Two statements for one stretch are a
 * fault, unless they join it to different panels: a baffle may be welded along a bend. A joint that is stated again stays
 * with the statement that came first, so that nothing is tabbed, welded or counted twice.
 */
export const markJoins = (
  tub: Tub,
  faces: readonly Face[],
  placed: readonly PlacedBend[],
): { readonly marks: ReadonlyMap<Stretch, Marks>; readonly faults: readonly ShapeFault[] } => {
  const faults: ShapeFault[] = [];
  const marks = new Map<Stretch, Draft>();
  const reported = new Set<string>();
  const report = (stretch: Stretch, at: SourceId, other: SourceId): void => {
    const key = `${at} ${other}`;
    if (reported.has(key)) return;
    reported.add(key);
    faults.push({ kind: 'edge-used-twice', at, other, panel: stretch.face });
  };
  const take = (stretch: Stretch, at: SourceId, partners: readonly FaceIndex[]): Taken => {
    let mark = marks.get(stretch);
    if (!mark) marks.set(stretch, (mark = { bend: undefined, rim: undefined, seams: [], takings: [] }));
    const other = mark.takings.find((taking) => isSameJoint(taking.partners, partners));
    mark.takings.push({ at, partners });
    if (other && other.at !== at) report(stretch, at, other.at);
    return { mark, isJoined: other !== undefined };
  };
  for (const { bend, taken } of placed) {
    for (const [side, stretches] of taken.entries()) {
      for (const stretch of stretches) {
        take(stretch, bend.at, [bend.faces[1 - side]]).mark.bend = bend.index;
      }
    }
  }
  tub.rims.forEach((rim, index) => {
    const face = faces[rim.edge.panel];
    if (!face?.usable) return;
    for (const stretch of face.stretches[face.panelEdge.indexOf(rim.edge.edge)] ?? []) {
      if (stretch.mates.length > 0 && marks.get(stretch)?.bend === undefined) continue;
      const { mark } = take(stretch, rim.at, []);
      if (mark.bend === undefined) mark.rim ??= index;
    }
  });
  tub.seams.forEach((seam, index) => {
    const taken = seamStretches(tub, seam, faces);
    if (taken.length === 0) faults.push(...seamWithoutEdge(tub, faces, index));
    for (const { stretch, partners, foot } of taken) {
      const { mark, isJoined } = take(stretch, seam.at, partners);
      if (isJoined) continue;
      mark.seams.push(index);
      if (foot) mark.feet = [...(mark.feet ?? []), foot];
    }
  });
  return { marks, faults };
};

const isSameJoint = (partners: readonly FaceIndex[], others: readonly FaceIndex[]): boolean =>
  partners.length === 0 || others.length === 0 || partners.some((partner) => others.includes(partner));

interface Seamed {
  readonly stretch: Stretch;
  /** Faces of the other member along it. */
  readonly partners: readonly FaceIndex[];
  /** Set where it stands on a face of the other member. */
  readonly foot?: Foot;
}

/** Stretches of both members that lie along the other member or stand on it. */
const seamStretches = (tub: Tub, seam: Seam, faces: readonly Face[]): readonly Seamed[] => {
  const [a, b] = seam.members;
  return [...edgesTogether(seam, faces), ...standingOn(tub, faces, a, b), ...standingOn(tub, faces, b, a)];
};

/** Stretches of one member that no edge lies along and that stand on a face of the other. */
const standingOn = (tub: Tub, faces: readonly Face[], standing: SeamMember, under: SeamMember): readonly Seamed[] => {
  if (under.edge) return [];
  const grounds = under.panels.flatMap((panel) => (faces[panel]?.usable ? [faces[panel]] : []));
  const near = indexFaces(grounds);
  return standing.panels.flatMap((panel) => {
    const face = faces[panel];
    if (!face?.usable) return [];
    return stretchesOf(standing, face)
      .filter(({ mates }) => !mates.some((mate) => under.panels.includes(mate.face)))
      .flatMap((stretch): readonly Seamed[] => {
        const middle = lerp(stretch.start, stretch.end, 0.5);
        for (const index of near.near(middle, OFF_PLANE)) {
          if (index === panel) continue;
          const thickness = tub.sheets[tub.panels[index].sheet]?.thickness ?? 0;
          const foot = footOn(face, stretch, faces[index], thickness);
          if (foot) return [{ stretch, partners: [index], foot }];
        }
        return [];
      });
  });
};

const stretchesOf = ({ edge }: SeamMember, face: Face): readonly Stretch[] =>
  edge ? (face.stretches[face.panelEdge.indexOf(edge.edge)] ?? []) : face.stretches.flat();

/** Stretches of both members that lie along the other member; none when the first has none. */
const edgesTogether = ({ members }: Seam, faces: readonly Face[]): readonly Seamed[] => {
  const [first, second] = [new Set(members[0].panels), new Set(members[1].panels)];
  const own = stretchesAlong(members[0], faces, second);
  if (own.length === 0) return [];
  const isJoined = (face: FaceIndex, mate: FaceIndex): boolean =>
    (first.has(face) && second.has(mate)) || (second.has(face) && first.has(mate));
  return [...own, ...stretchesAlong(members[1], faces, first)].map((stretch) => ({
    stretch,
    partners: stretch.mates.map(({ face }) => face).filter((mate) => isJoined(stretch.face, mate)),
  }));
};

const stretchesAlong = (
  member: SeamMember,
  faces: readonly Face[],
  others: ReadonlySet<FaceIndex>,
): readonly Stretch[] => {
  const found: Stretch[] = [];
  for (const panel of member.panels) {
    const face = faces[panel];
    if (!face?.usable) continue;
    for (const stretch of stretchesOf(member, face))
      if (stretch.mates.some((mate) => others.has(mate.face))) found.push(stretch);
  }
  return found;
};

const seamWithoutEdge = (tub: Tub, faces: readonly Face[], seam: number): readonly ShapeFault[] => {
  const [a, b] = tub.seams[seam].members.map((member) => member.panels.map((p) => faces[p]).filter((f) => f?.usable));
  if (a.length === 0 || b.length === 0) return [];
  return [{ kind: 'seam-no-shared-edge', seam, nearest: gapBetweenAll(a, b) }];
};
