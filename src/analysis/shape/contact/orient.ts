import { areaVector, middleOf } from '../../geometry/polygon.js';
import { dot, scale, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import { memo } from '../../cache/memo.js';
import type { Panel, PanelIndex } from '../../model/tub.js';
import { NO_AREA } from '../../geometry/tolerance.js';
import { findEdgeContacts, type Contacts } from './edge-contacts.js';
import { NO_UPWARD_SHARE } from '../../model/tolerance.js';

/** Two panels that share a stretch, and whether their corner orders agree (they run along it in opposite directions). */
export interface Neighbours {
  readonly panels: readonly [PanelIndex, PanelIndex];
  readonly agree: boolean;
  readonly start: Vec3;
  readonly end: Vec3;
}

export interface Orientation {
  /** Per panel: 1 when its corner order is counter-clockwise seen from the wet side, else -1. */
  readonly turn: readonly (1 | -1)[];
  /** Neighbours that cannot both have their wet sides meet. */
  readonly conflicts: readonly Neighbours[];
}

/**
 * Chooses the wet side of every panel. Nobody states a winding: it is carried across shared edges, and each connected
 * piece then takes the sign that makes its upward-projected wet area positive (for a tub, the plan area of its opening).
 * Where that is zero, a panel's own `facing` decides, then the side that looks to the middle of the tub.
 *
 * `neighbours` are taken in the order given: the surest first. Metal that is stated on one side of a panel is so for all that is
 * `bent` of one piece with it. Of a piece with panels that are `laid` on others the upright ones that are not decide first: a frame that
 * is bolted on has flanges that look down, and walls that look to one another. Cost: O(n) in panels and neighbours.
 */
export const orientPanels = (
  panels: readonly Panel[],
  neighbours: readonly Neighbours[],
  bent: readonly Neighbours[] = [],
  laid: ReadonlySet<PanelIndex> = NONE,
): Orientation => {
  const groups = new ParityGroups(panels.length);
  const conflicts = neighbours.filter(({ panels: [a, b], agree }) => !groups.join(a, b, agree ? 1 : -1));
  const normals = panels.map((panel) => (panel.corners.length < 3 ? undefined : areaVector(panel.corners)));
  const upward = new Map<number, { up: number; all: number; members: PanelIndex[] }>();
  panels.forEach((_, i) => {
    const { root, parity } = groups.find(i);
    const normal = normals[i];
    const sum = upward.get(root) ?? { up: 0, all: 0, members: [] };
    sum.members.push(i);
    if (normal) {
      sum.up += parity * normal[2];
      sum.all += Math.hypot(...normal);
    }
    upward.set(root, sum);
  });
  const middle = memo(() => middleOf(panels.flatMap((panel) => panel.corners)));
  const signs = new Map<number, 1 | -1>();
  for (const [root, { up, all, members }] of upward) {
    const inward = inwardVote(members, laid, (i) => scale(normals[i] ?? NO_NORMAL, groups.find(i).parity), panels);
    if (inward !== 0) {
      signs.set(root, inward);
      continue;
    }
    if (Math.abs(up) > NO_UPWARD_SHARE * all) {
      signs.set(root, up > 0 ? 1 : -1);
      continue;
    }
    let vote = 0;
    for (const i of members)
      vote += groups.find(i).parity * dot(normals[i] ?? NO_NORMAL, sideToLookAt(panels[i], middle()));
    signs.set(root, vote < 0 ? -1 : 1);
  }
  const stated = statedSides(panels, normals, bent);
  const turn = panels.map((_, i): 1 | -1 => {
    const side = stated(i);
    if (side !== undefined) return side;
    const { root, parity } = groups.find(i);
    return parity === signs.get(root) ? 1 : -1;
  });
  return { turn, conflicts };
};

const NONE: ReadonlySet<PanelIndex> = new Set();
const NO_NORMAL: Vec3 = [0, 0, 0];

/** Share of the upright area that looks to the middle of its piece, or away, more than the other way. */
const DECIDES = 0.25;

/** 1: the upright panels of a piece that is laid on another look to its middle as they are turned; -1: away; 0: they do not tell. */
const inwardVote = (
  members: readonly PanelIndex[],
  laid: ReadonlySet<PanelIndex>,
  normalOf: (panel: PanelIndex) => Vec3,
  panels: readonly Panel[],
): 1 | -1 | 0 => {
  if (!members.some((i) => laid.has(i))) return 0;
  const middle = middleOf(members.flatMap((i) => panels[i].corners));
  let [vote, all] = [0, 0];
  for (const i of members) {
    const normal = normalOf(i);
    const area = Math.hypot(...normal);
    if (laid.has(i) || area <= NO_AREA || Math.abs(normal[2]) > area / 2) continue;
    vote += dot(normal, unit(subtract(middle, middleOf(panels[i].corners))));
    all += area;
  }
  return all === 0 || Math.abs(vote) < DECIDES * all ? 0 : vote > 0 ? 1 : -1;
};

/** How a panel is turned whose metal, or that of a panel of one piece with it, is stated; undefined: none is. */
const statedSides = (
  panels: readonly Panel[],
  normals: readonly (Vec3 | undefined)[],
  bent: readonly Neighbours[],
): ((panel: PanelIndex) => 1 | -1 | undefined) => {
  const pieces = new ParityGroups(panels.length);
  for (const { panels: [a, b], agree } of bent) pieces.join(a, b, agree ? 1 : -1); // prettier-ignore
  const votes = new Map<number, number>();
  const own = panels.map(({ isMetalStated, facing }, i) =>
    isMetalStated && facing && normals[i] ? dot(facing, normals[i]) : 0,
  );
  own.forEach((side, i) => {
    const { root, parity } = pieces.find(i);
    if (side !== 0) votes.set(root, (votes.get(root) ?? 0) + parity * side);
  });
  return (panel) => {
    const { root, parity } = pieces.find(panel);
    const side = own[panel] || parity * (votes.get(root) ?? 0);
    return side === 0 ? undefined : side > 0 ? 1 : -1;
  };
};

/** A stated facing weighs more than the look to the middle. */
const sideToLookAt = (panel: Panel, middle: Vec3): Vec3 =>
  panel.facing ? scale(panel.facing, 1e6) : unit(subtract(middle, middleOf(panel.corners)));

/** Neighbours from contacts: only stretches that exactly two panels share say anything sure. */
export const neighboursFrom = (contacts: Contacts): Neighbours[] => {
  const found: Neighbours[] = [];
  contacts.forEach((edges, panel) => {
    for (const cuts of edges) {
      for (const { mates, start, end } of cuts) {
        if (mates.length !== 1 || mates[0].loop <= panel) continue;
        found.push({ panels: [panel, mates[0].loop], agree: !mates[0].sameWay, start, end });
      }
    }
  });
  return found;
};

/** Unit normals to the wet side by shared edges alone; undefined for a panel without area. */
export const wetNormals = (panels: readonly Panel[]): readonly (Vec3 | undefined)[] => {
  const { turn } = orientPanels(panels, neighboursFrom(findEdgeContacts(panels.map((panel) => panel.corners))));
  return panels.map((panel, i) => {
    if (panel.corners.length < 3) return undefined;
    const vector = areaVector(panel.corners);
    return Math.hypot(...vector) / 2 > NO_AREA ? unit(scale(vector, turn[i])) : undefined;
  });
};

/** Union-find that also keeps whether a member is turned as its root is. */
class ParityGroups {
  private readonly parent: number[];
  private readonly parity: (1 | -1)[];

  constructor(size: number) {
    this.parent = Array.from({ length: size }, (_, i) => i);
    this.parity = this.parent.map(() => 1);
  }

  find(i: number): { root: number; parity: 1 | -1 } {
    let parity: number = 1;
    let root = i;
    while (this.parent[root] !== root) {
      parity *= this.parity[root];
      root = this.parent[root];
    }
    // Second walk: hang everyone on the root.
    let rest = parity;
    for (let j = i; this.parent[j] !== root && j !== root;) {
      const next = this.parent[j];
      const own = this.parity[j];
      this.parent[j] = root;
      this.parity[j] = rest === 1 ? 1 : -1;
      rest *= own;
      j = next;
    }
    return { root, parity: parity === 1 ? 1 : -1 };
  }

  /** False when both are in one group already with the other parity. */
  join(a: number, b: number, relation: 1 | -1): boolean {
    const p = this.find(a);
    const q = this.find(b);
    if (p.root === q.root) return p.parity * q.parity === relation;
    this.parent[q.root] = p.root;
    this.parity[q.root] = p.parity * q.parity * relation === 1 ? 1 : -1;
    return true;
  }
}
