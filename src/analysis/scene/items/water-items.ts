/** What the water is drawn from. */
import type { Vec3 } from '../../geometry/vec.js';
import type { Told, ToldItem } from './told-item.js';

/** A panel's wet face, to the sharp corners, with the way the water takes on it. */
export interface WaterFaceItem extends ToldItem {
  readonly kind: 'water-face';
  readonly name: string;
  readonly corners: readonly Vec3[];
  readonly holes: readonly (readonly Vec3[])[];
  readonly normal: Vec3;
  /** Inclination to level, 0..90. */
  readonly slope_deg: number;
  /** Horizontal-most direction downhill along the face; zero when the face is level. */
  readonly downhill: Vec3;
  /** How far it bows under the liquid of the full tub; left out: by too little to tell. */
  readonly bow?: { readonly least_mm: number; readonly most_mm: number };
}

/** Liquid that stays when the outlets are open. */
export interface WaterPoolItem extends ToldItem {
  readonly kind: 'water-pool';
  /** Of the panel that holds most of it. */
  readonly name: string;
  readonly deepest: Vec3;
  readonly surface: readonly (readonly Vec3[])[];
  /** Of the liquid under each corner of the surface, mm. */
  readonly depths: readonly (readonly number[])[];
  /** Where its surface meets the sheet. */
  readonly shore: readonly (readonly [Vec3, Vec3])[];
  readonly depth_mm: number;
}

/** The liquid's surface with every outlet plugged. */
export interface WaterLevelItem extends ToldItem {
  readonly kind: 'water-level';
  readonly surface: readonly (readonly Vec3[])[];
  /** Of the liquid under each corner of the surface, mm. */
  readonly depths: readonly (readonly number[])[];
  readonly shore: readonly (readonly [Vec3, Vec3])[];
  readonly level_mm: number;
  readonly volume_L: number;
}

/** The plugged tub filled a part of the way. */
export interface FillStep {
  readonly level_mm: number;
  readonly volume_L: number;
  readonly surface: readonly (readonly Vec3[])[];
  /** Of the liquid under each corner of the surface, mm. */
  readonly depths: readonly (readonly number[])[];
  readonly shore: readonly (readonly [Vec3, Vec3])[];
}

/** How the plugged tub fills, from below. */
export interface WaterFillItem {
  readonly kind: 'water-fill';
  readonly steps: readonly FillStep[];
  readonly told: undefined;
}

/** A line that the water takes. */
export interface WaterFlowItem {
  readonly kind: 'water-flow';
  readonly name: string;
  readonly points: readonly Vec3[];
  /** What runs along it. */
  readonly rate_L_min: number;
  /** Undefined: it is told with the first line of its inflow. */
  readonly told: Told | undefined;
}

/** An inflow that falls, from where it is let go, and how far around its drops come. */
export interface WaterSplashItem extends ToldItem {
  readonly kind: 'water-splash';
  readonly name: string;
  readonly from: Vec3;
  readonly lands: Vec3;
  readonly ring: readonly Vec3[];
  readonly reaches_mm: number;
}

/** A place that matters: an outlet, the point of first overflow, the lowest open seam, the edge over which a chamber runs. */
export interface WaterSpotItem extends ToldItem {
  readonly kind: 'water-spot';
  readonly spot: 'outlet' | 'overflow' | 'leak' | 'crest';
  readonly name: string;
  readonly point: Vec3;
  readonly text: string;
}
