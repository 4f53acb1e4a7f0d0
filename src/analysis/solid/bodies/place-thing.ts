/** Where a thing of another file stands in the tub's frame. */
import { add, scale, type Vec3 } from '../../geometry/vec.js';
import type { ThingMesh } from '../../model/around/thing.js';

export interface ThingPlace {
  /** mm in one unit of the file. */
  readonly unit: number;
  /** About the file's own axes, one after the other, right-handed. */
  readonly turns: readonly { readonly axis: 'x' | 'y' | 'z'; readonly angle: number }[];
  readonly at: Vec3;
}

export const placeThing = (mesh: ThingMesh, place: ThingPlace): ThingMesh => ({
  ...mesh,
  positions: mesh.positions.map((point) => placePoint(point, place)),
});

export const placePoint = (point: Vec3, place: ThingPlace): Vec3 =>
  add(placeDirection(scale(point, place.unit), place), place.at);

export const placeDirection = (way: Vec3, { turns }: ThingPlace): Vec3 =>
  turns.reduce((turned, { axis, angle }) => turn(turned, AXES[axis], angle), way);

/** The other two axes, in the order in which a turn goes from one to the next. */
const AXES = { x: [1, 2], y: [2, 0], z: [0, 1] } as const;

const turn = (point: Vec3, [i, j]: readonly [number, number], angle: number): Vec3 => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const turned: [number, number, number] = [...point];
  turned[i] = c * point[i] - s * point[j];
  turned[j] = s * point[i] + c * point[j];
  return turned;
};

/** The longest side of its box, in its own unit. */
export const longestSideOf = ({ positions }: ThingMesh): number => {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const point of positions) {
    for (let k = 0; k < 3; k++) {
      low[k] = Math.min(low[k], point[k]);
      high[k] = Math.max(high[k], point[k]);
    }
  }
  return Math.max(...high.map((most, k) => most - low[k]));
};
