import { Raycaster, Vector3, type Intersection } from 'three';
import type { Place } from '../around/marks.js';
import type { Bodies } from './bodies.js';
import { keyOf } from './felt.js';
import type { V3 } from './piece.js';
import { rayThrough, type PointerPlace } from './pointer.js';
import type { Section } from './section.js';
import type { Viewpoint } from './viewpoint.js';

/** What is seen of the bodies from a viewpoint, and where. */
export class Sight {
  constructor(
    private readonly picture: HTMLElement,
    private readonly bodies: Bodies,
    private readonly viewpoint: Viewpoint,
    private readonly section: Section,
  ) {}

  /** Of a place in space on the picture; undefined behind the eye. */
  placeOf(point: V3): Place | undefined {
    const at = new Vector3(...point).project(this.viewpoint.camera);
    const { clientWidth, clientHeight } = this.picture;
    return at.z > 1 ? undefined : [((at.x + 1) / 2) * clientWidth, ((1 - at.y) / 2) * clientHeight];
  }

  keyAt(at: PointerPlace): string | undefined {
    const hit = this.hitAt(at);
    return hit && keyOf(hit.object, hit.faceIndex ?? 0);
  }

  /** The corner next to the pointer, or the place under it; undefined beside the bodies. */
  pointAt(at: PointerPlace): V3 | undefined {
    const hit = this.hitAt(at);
    if (!hit) return undefined;
    const box = this.picture.getBoundingClientRect();
    const corner = this.bodies.cornerNear(hit.object, hit.faceIndex ?? 0, (point) => {
      const place = this.placeOf(point);
      return place ? Math.hypot(place[0] - at.clientX + box.left, place[1] - at.clientY + box.top) : Infinity;
    });
    return corner ?? hit.point.toArray();
  }

  /** Does anything but water stand in front of it? */
  isHidden(point: V3): boolean {
    const from = new Vector3(...point);
    const towards = new Vector3(...this.viewpoint.towardsEye(point));
    const { radius } = this.bodies;
    const far = this.viewpoint.sight === 'parallel' ? 4 * radius : this.viewpoint.camera.position.distanceTo(from);
    const ray = new Raycaster(from, towards, radius * 0.01, far);
    return ray.intersectObjects(this.bodies.obstacles(), false).length > 0;
  }

  private hitAt(at: PointerPlace): Intersection | undefined {
    return rayThrough(at, this.picture, this.viewpoint.camera)
      .intersectObjects(this.bodies.surfaces(), false)
      .find(({ point }) => this.section.leaves(point));
  }
}
