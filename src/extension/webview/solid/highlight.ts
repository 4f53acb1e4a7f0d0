import {
  BufferAttribute,
  BufferGeometry,
  Color,
  DoubleSide,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
} from 'three';
import type { Bodies } from './bodies.js';
import { clearGroup } from './meshes.js';

/** Shows chosen pieces: their faces tinted, their edges seen through all that is in front. */
export class Highlight {
  readonly root = new Group();

  show(keys: readonly string[], bodies: Bodies, chosen: string): void {
    clearGroup(this.root);
    const color = new Color(chosen);
    for (const { piece, at } of keys.flatMap((key) => bodies.find(key))) {
      const [faces, edges] = [new BufferGeometry(), new BufferGeometry()];
      faces.setAttribute('position', new BufferAttribute(new Float32Array(piece.positions), 3));
      edges.setAttribute('position', new BufferAttribute(new Float32Array(piece.lines), 3));
      const glow = new Mesh(
        faces,
        new MeshBasicMaterial({ color, transparent: true, opacity: 0.45, side: DoubleSide, depthWrite: false }),
      );
      const rim = new LineSegments(edges, new LineBasicMaterial({ color, depthTest: false }));
      // Of what is nothing but edges, a tint would lie over all that it holds.
      for (const object of piece.polygons.length === 0 ? [rim] : [glow, rim]) {
        object.position.copy(at);
        object.renderOrder = 2;
        this.root.add(object);
      }
    }
  }
}
