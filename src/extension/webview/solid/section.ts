import { Plane, Vector3 } from 'three';
import { cut } from './paint/painter.js';
import type { Polygon3, V3 } from './piece.js';

export type Axis = 'x' | 'y' | 'z';

/** A plane across an axis that cuts away what lies beyond it. */
export class Section {
  private readonly plane = new Plane(new Vector3(0, -1, 0), 0);
  private on = false;

  get isOn(): boolean {
    return this.on;
  }

  /** For the graphics card; none when nothing is cut. */
  get planes(): Plane[] {
    return this.on ? [this.plane] : [];
  }

  clear(): void {
    this.on = false;
  }

  /** `at`: where it stands on the axis, mm. */
  put(axis: Axis, at: number): void {
    this.on = true;
    const [x, y, z] = [axis === 'x' ? -1 : 0, axis === 'y' ? 1 : 0, axis === 'z' ? -1 : 0];
    this.plane.setComponents(x, y, z, -(x + y + z) * at);
  }

  leaves(point: Vector3): boolean {
    return !this.on || this.plane.distanceToPoint(point) >= 0;
  }

  /** What it leaves of polygons. */
  applyTo(polygons: readonly Polygon3[]): readonly Polygon3[] {
    if (!this.on) return polygons;
    const { normal, constant } = this.plane;
    const side = (p: V3): number => normal.x * p[0] + normal.y * p[1] + normal.z * p[2] + constant;
    return polygons.map((polygon) => cut(polygon, side)).filter(({ points }) => points.length > 2);
  }
}
