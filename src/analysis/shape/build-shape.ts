import type { Panel, Tub } from '../model/tub.js';
import { bodyOf } from '../model/around/roles.js';
import { inOneGo } from '../cache/memo-steps.js';
import type { EdgeStretch, Contacts } from './contact/edge-contacts.js';
import { faceFaultOf } from './face-faults.js';
import { findBends } from './find-bends.js';
import { knownContacts } from './contact/known-contacts.js';
import { laidTogether } from './laid/laid-together.js';
import { markJoins, type Marks } from './mark-joins.js';
import { snapPanels } from './contact/snap-corners.js';
import { tiedContacts } from './contact/tied-contacts.js';
import { neighboursFrom, orientPanels, type Neighbours } from './contact/orient.js';
import { partedPastFaces } from './ends-on-face.js';
import { panelFace } from './panel-face.js';
import { placeOpenings } from './place-openings.js';
import type { Face, Shape, ShapeFault, Stretch } from './shape.js';

/**
 * The tub as oriented flat faces with every stretch of every edge accounted for.
 *
 * Never throws for a faulty tub: what is wrong is in `faults`, the rest is built. Faces keep the panels' indices.
 * Cost: O(n log n) in corners. Joins: a stretch knows its mates by geometry, and the bend, seams and rim that name it.
 */
export function* shapeOf(tub: Tub): Generator<void, Shape> {
  const faults: ShapeFault[] = [];
  const loops = tub.panels.map((panel, i) => {
    const fault = faceFaultOf(panel, i);
    if (fault) faults.push(fault);
    return loopOf(panel, i);
  });
  yield;
  const contacts = withTies(tub, loops, knownContacts(tub.name, loops));
  yield;
  const { bent, sure } = surestFirst(tub, contacts);
  const { turn, conflicts } = orientPanels(tub.panels, sure.filter(isWithinBody(tub)), bent, laidPanels(tub));
  for (const { panels, start, end } of conflicts) faults.push({ kind: 'wet-side-conflict', panels, start, end });

  yield;
  const located = partedPastFaces(
    tub,
    tub.panels.map((panel, i) => faceOf(panel, i, turn, contacts)),
  );
  yield;
  const { placed, faults: bendFaults } = findBends(tub, located);
  yield;
  const { onFace, faults: openingFaults } = placeOpenings(tub, located);
  const { marks, faults: joinFaults } = markJoins(tub, located, placed);
  faults.push(...bendFaults, ...openingFaults, ...joinFaults);
  yield;
  const faces = located.map((face, i) => finished(face, onFace[i], marks));
  const lean = tub.stands && { lean: tub.stands };
  return { faces, bends: placed.map(({ bend }) => bend), faults, ...lean };
}

/** The same in one go. */
export const buildShape = (tub: Tub): Shape => inOneGo(shapeOf(tub));

/** What stands beside a thing or lies on it says nothing of its wet side. */
const isWithinBody = (tub: Tub): ((pair: Neighbours) => boolean) => {
  const areLaid = laidTogether(tub);
  return ({ panels: [a, b] }) => (tub.groups === undefined || bodyOf(tub, a) === bodyOf(tub, b)) && !areLaid(a, b);
};

const UNUSABLE: Panel['corners'] = [];
const loopOf = (panel: Panel, index: number): Panel['corners'] =>
  faceFaultOf(panel, index) ? UNUSABLE : panel.corners;

const withTies = ({ name, drawn }: Tub, loops: readonly Panel['corners'][], contacts: Contacts): Contacts => {
  if (!drawn) return contacts;
  const asDrawn = snapPanels(drawn).panels.map(loopOf);
  return tiedContacts({ loops, contacts }, { loops: asDrawn, contacts: knownContacts(`${name}, as planned`, asDrawn) });
};

/** Bends say most surely which sides meet, then seams, then every edge that just two panels share. */
const surestFirst = (
  tub: Tub,
  contacts: Contacts,
): { readonly bent: readonly Neighbours[]; readonly sure: readonly Neighbours[] } => {
  const pair = (a: number, b: number): number => Math.min(a, b) * tub.panels.length + Math.max(a, b);
  const fromBends = among(contacts, new Set(tub.bends.map(({ panels: [a, b] }) => pair(a, b))), pair);
  const laid = laidPanels(tub);
  const seamed = tub.seams.flatMap(({ members: [one, other] }) =>
    one.panels.flatMap((a) => other.panels.flatMap((b) => (laid.has(a) || laid.has(b) ? [pair(a, b)] : []))),
  );
  const fromSeams = seamed.length === 0 ? [] : among(contacts, new Set(seamed), pair);
  return { bent: fromBends, sure: [...fromBends, ...neighboursFrom(contacts), ...fromSeams] };
};

/** Of the pairs that share a stretch those that are asked for. */
const among = (
  contacts: Contacts,
  pairs: ReadonlySet<number>,
  pair: (a: number, b: number) => number,
): readonly Neighbours[] => {
  const found: Neighbours[] = [];
  contacts.forEach((edges, panel) => {
    for (const cuts of edges) {
      for (const { mates, start, end } of cuts) {
        for (const mate of mates) {
          if (mate.loop > panel && pairs.has(pair(panel, mate.loop))) {
            found.push({ panels: [panel, mate.loop], agree: !mate.sameWay, start, end });
          }
        }
      }
    }
  });
  return found;
};

/** Panels of face joints: where two lie flush their edges run along one another's neighbours, and only seams tell which belong together. */
const laidPanels = ({ faceJoints }: Tub): ReadonlySet<number> =>
  new Set(faceJoints?.flatMap(({ members }) => members.flatMap(({ panels }) => panels)));

const NO_OPENINGS: Face['openings'] = [];
const NO_SEAMS: Stretch['seams'] = [];

/** The face without what the builder says of its edges and openings. */
const faceOf = (panel: Panel, index: number, turn: readonly (1 | -1)[], contacts: Contacts): Face => {
  const { name, usable, frame, corners, outline, panelEdge, area } = panelFace(panel, turn[index]);
  const stretches = panelEdge.map((edge, i) =>
    usable ? stretchesOf(index, i, contacts[index][edge], turn, contacts) : [],
  );
  return { panel: index, name, usable, frame, corners, outline, panelEdge, stretches, openings: NO_OPENINGS, area };
};

/** The face with its openings, and the bends, seams and rims of its stretches. */
const finished = (face: Face, openings: Face['openings'], marks: ReadonlyMap<Stretch, Marks>): Face => {
  const isMarked = face.stretches.some((list) => list.some((stretch) => marks.has(stretch)));
  if (!isMarked && openings.length === 0) return face;
  return {
    ...face,
    openings,
    stretches: face.stretches.map((list) => list.map((stretch) => marked(stretch, marks.get(stretch)))),
  };
};

const marked = (stretch: Stretch, mark: Marks | undefined): Stretch =>
  mark
    ? {
        ...stretch,
        bend: mark.bend,
        seams: mark.seams,
        rim: mark.rim,
        ...(mark.feet ? { feet: mark.feet } : undefined),
      }
    : stretch;

const stretchesOf = (
  face: number,
  edge: number,
  cuts: readonly EdgeStretch[],
  turn: readonly (1 | -1)[],
  contacts: Contacts,
): readonly Stretch[] => {
  const isAsDrawn = turn[face] === 1;
  const stretches = cuts.map((cut): Stretch => ({
    face,
    edge,
    start: isAsDrawn ? cut.start : cut.end,
    end: isAsDrawn ? cut.end : cut.start,
    mates: cut.mates.map((mate) => mateOf(cut, mate, turn, contacts)),
    bend: undefined,
    seams: NO_SEAMS,
    rim: undefined,
  }));
  return isAsDrawn ? stretches : stretches.reverse();
};

/** Translates a contact in panel order to the mate's own face order, and finds the stretch by its middle. */
const mateOf = (
  cut: EdgeStretch,
  { loop, edge }: EdgeStretch['mates'][number],
  turn: readonly (1 | -1)[],
  contacts: Contacts,
): Stretch['mates'][number] => {
  const cuts = contacts[loop][edge];
  const n = contacts[loop].length;
  if (cuts.length === 1) return { face: loop, edge: turn[loop] === 1 ? edge : n - 1 - edge, stretch: 0 };
  const middle = (axis: 0 | 1 | 2): number => (cut.start[axis] + cut.end[axis]) / 2;
  const first = cuts[0].start;
  const along = Math.hypot(middle(0) - first[0], middle(1) - first[1], middle(2) - first[2]);
  const found = cuts.findIndex((c) => along < c.to);
  const stretch = found < 0 ? cuts.length - 1 : found;
  return turn[loop] === 1
    ? { face: loop, edge, stretch }
    : { face: loop, edge: n - 1 - edge, stretch: cuts.length - 1 - stretch };
};
