import { toPlane } from '../../geometry/frame.js';
import type { Part } from '../../fold/flat-pattern.js';
import type { Vec2, Vec3 } from '../../geometry/vec.js';
import type { Shape } from '../../shape/shape.js';

/** A face of a part laid flat: `place` maps its own plane onto the paper, seen on the dry side. */
export interface PlacedFace {
  readonly face: number;
  readonly place: (point: Vec2) => Vec2;
}

/** Turn by `cos` and `sin`, then move. */
interface Turn {
  readonly cos: number;
  readonly sin: number;
  readonly by: Vec2;
}

const apply = ({ cos, sin, by }: Turn, [x, y]: Vec2): Vec2 => [cos * x - sin * y + by[0], sin * x + cos * y + by[1]];

/** The turn that lays `from` onto `to`; both are as far apart. */
const turnOnto = (from: readonly [Vec2, Vec2], to: readonly [Vec2, Vec2]): Turn => {
  const [ax, ay] = [from[1][0] - from[0][0], from[1][1] - from[0][1]];
  const [bx, by] = [to[1][0] - to[0][0], to[1][1] - to[0][1]];
  const size = Math.hypot(ax, ay) * Math.hypot(bx, by);
  const [cos, sin] = [(ax * bx + ay * by) / size, (ax * by - ay * bx) / size];
  const moved = apply({ cos, sin, by: [0, 0] }, from[0]);
  return { cos, sin, by: [to[0][0] - moved[0], to[0][1] - moved[1]] };
};

/** All faces of a part, each beside its parent along the sharp line of their bend. O(n). */
export const placeFaces = ({ faces, bends }: Shape, part: Part): PlacedFace[] => {
  const turns = new Map<number, Turn>([[part.faces[0], { cos: 1, sin: 0, by: [0, 0] }]]);
  part.bends.forEach((index, i) => {
    const { faces: pair, start, end } = bends[index];
    const child = part.faces[i + 1];
    const parent = pair[0] === child ? pair[1] : pair[0];
    const turn = turns.get(parent);
    if (!turn) return;
    const lineIn = (face: number): readonly [Vec2, Vec2] => {
      const at = (point: Vec3): Vec2 => toPlane(faces[face].frame, point);
      return [at(start), at(end)];
    };
    const [from, to] = lineIn(parent);
    turns.set(child, turnOnto(lineIn(child), [apply(turn, from), apply(turn, to)]));
  });
  return part.faces.flatMap((face) => {
    const turn = turns.get(face);
    if (!turn) return [];
    const place = (point: Vec2): Vec2 => {
      const [x, y] = apply(turn, point);
      return [-x, y];
    };
    return [{ face, place }];
  });
};
