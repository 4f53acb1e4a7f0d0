import { toPlane } from '../geometry/frame.js';
import { areaVector, signedArea } from '../geometry/polygon.js';
import { scale, unit } from '../geometry/vec.js';
import type { Panel, SourceId, Tub } from '../model.js';
import { findEdgeContacts, type Contact } from './edge-contacts.js';
import { faceFaultOf, frameOfPanel } from './face-faults.js';
import { findBends, type PlacedBend } from './find-bends.js';
import { gapBetweenAll } from './gap-between.js';
import { neighboursFrom, orientPanels, type Neighbours } from './orient.js';
import { placeOpenings } from './place-openings.js';
import type { Face, FaceIndex, Shape, ShapeFault, Stretch } from './shape.js';

/**
 * The tub as oriented flat faces with every stretch of every edge accounted for.
 *
 * Never throws for a faulty tub: what is wrong is in `faults`, the rest is built. Faces keep the panels' indices.
 * Cost: O(n log n) in corners. Joins: a stretch knows its mates by geometry, and the bend, seams and rim that name it.
 */
export const buildShape = (tub: Tub): Shape => {
  const faults: ShapeFault[] = [];
  const usable = tub.panels.map((panel, i) => {
    const fault = faceFaultOf(panel, i);
    if (fault) faults.push(fault);
    return fault === undefined;
  });
  const contacts = findEdgeContacts(tub.panels.map((panel, i) => (usable[i] ? panel.corners : [])));
  const { turn, conflicts } = orientPanels(tub.panels, surestFirst(tub, contacts));
  for (const { panels, start, end } of conflicts) faults.push({ kind: 'wet-side-conflict', panels, start, end });

  const bare = tub.panels.map((panel, i) => faceOf(panel, i, usable[i], turn[i], contacts));
  const located = bare.map((face) => ({ ...face, stretches: stretchesOf(face, turn, contacts) }));
  const { placed, faults: bendFaults } = findBends(tub, located);
  const { onFace, faults: openingFaults } = placeOpenings(tub, located);
  const joins = markJoins(tub, located, placed);
  faults.push(...bendFaults, ...openingFaults, ...joins.faults);
  const faces = located.map((face, i) => ({
    ...face,
    openings: onFace[i],
    stretches: face.stretches.map((list) => list.map((stretch) => joins.marked(stretch))),
  }));
  return { faces, bends: placed.map(({ bend }) => bend), faults };
};

/** Bends say most surely which sides meet, then seams, then every edge that just two panels share. */
const surestFirst = (tub: Tub, contacts: readonly (readonly (readonly Contact[])[])[]): readonly Neighbours[] => {
  const certain = neighboursFrom(contacts);
  const pair = (a: number, b: number): number => Math.min(a, b) * tub.panels.length + Math.max(a, b);
  const bent = new Set(tub.bends.map(({ panels: [a, b] }) => pair(a, b)));
  const fromBends: Neighbours[] = [];
  contacts.forEach((edges, panel) => {
    for (const { mates, start, end } of edges.flat()) {
      for (const mate of mates) {
        if (mate.loop > panel && bent.has(pair(panel, mate.loop))) {
          fromBends.push({ panels: [panel, mate.loop], agree: !mate.sameWay, start, end });
        }
      }
    }
  });
  return [...fromBends, ...certain];
};

const faceOf = (
  panel: Panel,
  index: number,
  usable: boolean,
  turn: 1 | -1,
  contacts: readonly (readonly (readonly Contact[])[])[],
): Face => {
  const n = panel.corners.length;
  const order = panel.corners.map((_, i) => (turn === 1 ? i : (n - i) % n));
  const corners = order.map((i) => panel.corners[i]);
  const normal = unit(n < 3 ? [0, 0, 1] : scale(areaVector(panel.corners), turn));
  const frame =
    usable && contacts[index].length > 0
      ? frameOfPanel(corners, normal)
      : ({ origin: corners[0] ?? [0, 0, 0], u: [1, 0, 0], v: [0, 1, 0], normal: [0, 0, 1] } as const);
  const outline = corners.map((corner) => toPlane(frame, corner));
  return {
    panel: index,
    name: panel.name,
    usable,
    frame,
    corners,
    outline,
    panelEdge: order.map((_, i) => (turn === 1 ? i : n - 1 - i)),
    stretches: [],
    openings: [],
    area: usable ? Math.abs(signedArea(outline)) : 0,
  };
};

const stretchesOf = (
  face: Face,
  turn: readonly (1 | -1)[],
  contacts: readonly (readonly (readonly Contact[])[])[],
): readonly (readonly Stretch[])[] => {
  if (!face.usable) return face.corners.map(() => []);
  const own = turn[face.panel];
  return face.panelEdge.map((panelEdge, edge) => {
    const cuts = contacts[face.panel][panelEdge];
    const ordered = own === 1 ? cuts : [...cuts].reverse();
    return ordered.map((cut): Stretch => ({
      face: face.panel,
      edge,
      start: own === 1 ? cut.start : cut.end,
      end: own === 1 ? cut.end : cut.start,
      mates: cut.mates.map((mate) => mateOf(cut, mate, turn, contacts)),
      bend: undefined,
      seams: [],
      rim: undefined,
    }));
  });
};

/** Translates a contact in panel order to the mate's own face order, and finds the stretch by its middle. */
const mateOf = (
  cut: Contact,
  { loop, edge }: Contact['mates'][number],
  turn: readonly (1 | -1)[],
  contacts: readonly (readonly (readonly Contact[])[])[],
): Stretch['mates'][number] => {
  const cuts = contacts[loop][edge];
  const middle = (axis: 0 | 1 | 2): number => (cut.start[axis] + cut.end[axis]) / 2;
  const first = cuts[0].start;
  const along = Math.hypot(middle(0) - first[0], middle(1) - first[1], middle(2) - first[2]);
  const found = cuts.findIndex((c) => along < c.to);
  const stretch = found < 0 ? cuts.length - 1 : found;
  const n = contacts[loop].length;
  return turn[loop] === 1
    ? { face: loop, edge, stretch }
    : { face: loop, edge: n - 1 - edge, stretch: cuts.length - 1 - stretch };
};

interface Joins {
  readonly marked: (stretch: Stretch) => Stretch;
  readonly faults: readonly ShapeFault[];
}

/**
 * Which bend, seams and rim take each stretch. Two statements for one stretch are a fault, unless they join it to different
 * panels: a baffle may be welded along a bend.
 */
const markJoins = (tub: Tub, faces: readonly Face[], placed: readonly PlacedBend[]): Joins => {
  const faults: ShapeFault[] = [];
  const bendOf = new Map<Stretch, number>();
  const seamsOf = new Map<Stretch, number[]>();
  const rimOf = new Map<Stretch, number>();
  const takenAt = new Map<Stretch, { readonly at: SourceId; readonly partners: readonly FaceIndex[] }[]>();
  const reported = new Set<string>();
  /** No partners: the whole stretch, whoever lies along it. */
  const take = (stretch: Stretch, at: SourceId, partners: readonly FaceIndex[]): void => {
    const before = takenAt.get(stretch) ?? [];
    takenAt.set(stretch, [...before, { at, partners }]);
    const other = before.find(
      (t) =>
        t.partners.length === 0 || partners.length === 0 || t.partners.some((partner) => partners.includes(partner)),
    );
    if (!other || other.at === at) return;
    const key = `${at} ${other.at}`;
    if (reported.has(key)) return;
    reported.add(key);
    faults.push({ kind: 'edge-used-twice', at, other: other.at, panel: stretch.face });
  };
  for (const { bend, taken } of placed) {
    for (const stretch of taken.flat()) {
      const partner = bend.faces[0] === stretch.face ? bend.faces[1] : bend.faces[0];
      take(stretch, bend.at, [partner]);
      bendOf.set(stretch, bend.index);
    }
  }
  tub.rims.forEach((rim, index) => {
    const face = faces[rim.edge.panel];
    if (!face?.usable) return;
    for (const stretch of face.stretches[face.panelEdge.indexOf(rim.edge.edge)] ?? []) {
      if (stretch.mates.length > 0 && !bendOf.has(stretch)) continue;
      take(stretch, rim.at, []);
      if (!rimOf.has(stretch) && !bendOf.has(stretch)) rimOf.set(stretch, index);
    }
  });
  tub.seams.forEach((seam, index) => {
    const taken = seamStretches(tub, faces, index);
    if (taken.length === 0) {
      faults.push(...seamWithoutEdge(tub, faces, index));
      return;
    }
    const [first, second] = seam.members.map(({ panels }) => new Set(panels));
    for (const stretch of taken) {
      const partners = stretch.mates.filter(
        ({ face }) => (first.has(stretch.face) && second.has(face)) || (second.has(stretch.face) && first.has(face)),
      );
      const joined = partners.map(({ face }) => face);
      take(stretch, seam.at, joined);
      const list = seamsOf.get(stretch);
      if (list) list.push(index);
      else seamsOf.set(stretch, [index]);
    }
  });
  const marked = (stretch: Stretch): Stretch => {
    const [bend, seams, rim] = [bendOf.get(stretch), seamsOf.get(stretch), rimOf.get(stretch)];
    return bend === undefined && !seams && rim === undefined ? stretch : { ...stretch, bend, seams: seams ?? [], rim };
  };
  return { marked, faults };
};

/** Stretches of both members that lie along the other member. */
const seamStretches = (tub: Tub, faces: readonly Face[], index: number): Stretch[] => {
  const { members } = tub.seams[index];
  const sets = members.map((member) => new Set(member.panels));
  const ofMember = (which: 0 | 1): Stretch[] => {
    const other = sets[1 - which];
    return members[which].panels.flatMap((panel) => {
      const face = faces[panel];
      if (!face?.usable) return [];
      const edge = members[which].edge;
      const edges = edge ? [face.stretches[face.panelEdge.indexOf(edge.edge)] ?? []] : face.stretches;
      return edges.flat().filter((stretch) => stretch.mates.some((mate) => other.has(mate.face)));
    });
  };
  const first = ofMember(0);
  return first.length === 0 ? [] : [...first, ...ofMember(1)];
};

const seamWithoutEdge = (tub: Tub, faces: readonly Face[], seam: number): readonly ShapeFault[] => {
  const [a, b] = tub.seams[seam].members.map((member) => member.panels.map((p) => faces[p]).filter((f) => f?.usable));
  if (a.length === 0 || b.length === 0) return [];
  return [{ kind: 'seam-no-shared-edge', seam, nearest: gapBetweenAll(a, b) }];
};
