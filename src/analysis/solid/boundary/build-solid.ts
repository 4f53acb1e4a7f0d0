/** Binds the plates and rolls of a folded part into one closed boundary. */
import type { FoldedPart, Roll, ZoneEnd } from '../../fold/flat-pattern.js';
import { toSpace } from '../../geometry/frame.js';
import { addScaled } from '../../geometry/vec.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import type { Boundary } from './boundary.js';
import { createBuild, type Corner } from './edges.js';
import { plateFaces } from './plate.js';
import { seatRolls, type RingNode, type SeatedRoll } from './rings.js';
import { rollFaces } from './roll.js';

/**
 * The boundary of the folded part in the tub's frame, mm. One closed shell when every roll meets its plates (which
 * `foldFlat` sees to); a roll that meets none on a side is closed there by an end face of its own.
 */
export const boundPart = (folded: FoldedPart): Boundary => {
  const { plates, rolls } = seatRolls(folded);
  const build = createBuild();
  const corners = new Map<RingNode, Corner>();
  for (const { plate, rings } of plates) {
    for (const node of rings.flat()) {
      const dry = toSpace(plate.frame, node.at);
      corners.set(node, {
        dry: build.vertex(dry),
        wet: build.vertex(addScaled(dry, plate.frame.normal, -folded.thickness)),
      });
    }
  }
  for (const roll of rolls) closeFold(roll, corners);
  const cornerOf = (node: RingNode): Corner => corners.get(node) ?? unreachable();
  const faces = [
    ...plates.flatMap((plate) => plateFaces(build, plate, folded.thickness, cornerOf)),
    ...rolls.flatMap((roll) => rollFaces(build, roll, cornerOf)),
  ];
  return { name: folded.name, vertices: build.vertices, edges: build.edges, faces };
};

/**
 * A fold without radius has no inner skin: its two plates meet in a line on the axis, so they share its vertices.
 * Only where the line is the same one for both; else the inner skin stays, as a strip without width.
 */
const closeFold = ({ roll, seats: [parent, child] }: SeatedRoll, corners: Map<RingNode, Corner>): void => {
  if (!parent || !child || !isClosedFold(roll)) return;
  if (parent.nodes.length !== 2 || child.nodes.length !== 2) return;
  const side = roll.wet === 'inside' ? 'wet' : 'dry';
  parent.nodes.forEach((node, i) => {
    const [kept, merged] = [corners.get(node), corners.get(child.nodes[i])];
    if (kept && merged) corners.set(child.nodes[i], { ...merged, [side]: kept[side] });
  });
};

const isClosedFold = (roll: Roll): boolean => roll.innerRadius <= SAME_POINT && [roll.near, roll.far].every(isSquare);

const isSquare = (end: ZoneEnd): boolean => end.length === 2 && Math.abs(end[0].y - end[1].y) <= SAME_POINT;

const unreachable = (): never => {
  throw new Error('a corner of the folded part has no vertex');
};
