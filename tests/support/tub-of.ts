import { emptyTub } from '../../src/analysis/model/empty-tub.js';
import type { Vec3 } from '../../src/analysis/geometry/vec.js';
import type { Outlet, Panel, Sheet, StatedBend, Tub } from '../../src/analysis/model/tub.js';

export interface TubSketch extends Partial<Omit<Tub, 'panels' | 'bends'>> {
  /** Panels by name: their corners on the wet face. */
  readonly panels: Readonly<Record<string, readonly Vec3[]>>;
  /** Pairs of panel names joined by a bend. */
  readonly bends?: readonly (readonly [string, string])[];
}

export const sheet18: Sheet = {
  name: 'skin',
  at: 1,
  material: 'stainless',
  thickness: 1.2,
  gauge: undefined,
  radius: 1.2,
  kFactor: undefined,
  coupon: undefined,
  grain: 'any',
};

/** A Tub from corners alone, for tests of the analysis that need no text. Source ids count from 100 for panels. */
export const tubOf = (sketch: TubSketch): Tub => {
  const names = Object.keys(sketch.panels);
  const panels = names.map((name, i): Panel => ({
    name,
    at: 100 + i,
    sheet: 0,
    corners: sketch.panels[name],
    cornerNames: sketch.panels[name].map(() => undefined),
    cornerAts: sketch.panels[name].map(() => 100 + i),
    edgeNames: {},
    kind: { kind: 'points' },
    facing: undefined,
  }));
  const indexes = new Map(names.map((name, i) => [name, i]));
  const indexOf = (name: string): number => indexes.get(name) ?? -1;
  const bends = (sketch.bends ?? []).map(([a, b], i): StatedBend => ({
    name: `${a} ${b}`,
    at: 1000 + i,
    panels: [indexOf(a), indexOf(b)],
    radius: undefined,
    kFactor: undefined,
    origin: 'statement',
  }));
  return {
    ...emptyTub(0),
    name: 'test tub',
    sheets: [sheet18],
    ...sketch,
    panels,
    bends,
  };
};

/** `tub` with a flush round outlet in the panel of that index. */
export const withOutlet = (
  tub: Tub,
  panel: number,
  center: Vec3,
  diameter: number,
  rest: Partial<Outlet> = {},
): Tub => {
  const name = rest.name ?? `drain${tub.outlets.length + 1}`;
  const at = 2000 + tub.outlets.length;
  return {
    ...tub,
    openings: [
      ...tub.openings,
      { name, at, panel, use: 'outlet', shape: { kind: 'round', center, diameter }, fastener: undefined },
    ],
    outlets: [
      ...tub.outlets,
      {
        name,
        at,
        panel,
        center,
        diameter,
        lip: 0,
        raised: 0,
        strainer: undefined,
        opening: tub.openings.length,
        ...rest,
      },
    ],
  };
};
