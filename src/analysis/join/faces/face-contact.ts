/** Two panels of which one face lies on the other. Types only; `face-contacts.ts` makes them. */
import type { Vec3 } from '../../geometry/vec.js';
import type { FaceIndex } from '../../shape/shape.js';
import type { FastenerPlace } from '../fasteners/fastener-places.js';

export interface FaceContact {
  /** Index into `Tub.faceJoints`. */
  readonly joint: number;
  readonly faces: readonly [FaceIndex, FaceIndex];
  /** Out of the first panel's skin, towards the second. */
  readonly way: Vec3;
  /** rad. How far the faces are from parallel. */
  readonly turned: number;
  /** Between the skins, least and most over the contact, mm; negative: in one another. */
  readonly apart: readonly [number, number];
  /** What the gasket asks between them, mm. */
  readonly needs: number;
  /** Bands of contact, of the flat metal of both. */
  readonly bands: readonly ContactBand[];
  readonly places: readonly FastenerPlace[];
}

export interface ContactBand {
  /** Corners, on the first panel's skin. */
  readonly corners: readonly Vec3[];
  readonly width: number;
  readonly length: number;
  /** Between neighbouring screws; undefined: none are stated. */
  readonly share: number | undefined;
}
