/** Grades of metal that a builder can name, and in what they differ from the one that is taken where none is named. */
import type { Material } from '../model/tub.js';

/** A number of the material with where it comes from. */
export interface Property {
  readonly value: number;
  readonly source: string;
}

/** Smallest inside radius in thicknesses, by [up to mm of thickness]; beyond the last row as that. */
export interface RadiusMultiples {
  readonly rows: readonly (readonly [upTo: number, multiple: number])[];
  readonly source: string;
}

export interface Grade {
  readonly densityKgM3?: Property;
  readonly youngsModulusMPa?: Property;
  readonly yieldMPa?: Property;
  readonly tensileMPa?: Property;
  readonly radius?: RadiusMultiples;
}

const property = (value: number, source: string): Property => ({ value, source });

const MANUAL = 'recommended minimum bend radii for 90 deg cold bends, Aluminum Design Manual Part VII (2005) table 3-1';

/** mm of 1/32, 1/16, 1/8 and 1/4 in: thicknesses of the table's columns. */
const COLUMNS = [25.4 / 32, 25.4 / 16, 25.4 / 8, 25.4 / 4];

const multiples = (alloy: string, ...rows: readonly number[]): RadiusMultiples => ({
  rows: rows.map((multiple, i) => [COLUMNS[i], multiple] as const),
  source: `${MANUAL}, ${alloy}`,
});

/** A cell that the sources at hand do not have. */
const fromMemory = ({ rows, source }: RadiusMultiples, cells: string): RadiusMultiples => ({
  rows,
  source: `${source}; ${cells} from memory`,
});

const strength = (yieldMPa: number, yieldSource: string, tensileMPa: number, tensileSource: string): Grade => ({
  yieldMPa: property(yieldMPa, yieldSource),
  tensileMPa: property(tensileMPa, tensileSource),
});

const S235 = strength(
  235,
  'EN 10025: S235 at least 235 MPa, from memory',
  510,
  'EN 10025: S235 360 to 510 MPa, upper end, from memory',
);
const S355 = strength(
  355,
  'EN 10025: S355 at least 355 MPa, from memory',
  630,
  'EN 10025: S355 470 to 630 MPa, upper end, from memory',
);

const OF_3003 = { densityKgM3: property(2730, 'handbook value for 3003, from memory') };
const OF_6061 = {
  densityKgM3: property(2700, 'handbook value for 6061, from memory'),
  youngsModulusMPa: property(68_900, 'handbook value for 6061, from memory'),
};

/** By material and name; the first of each material is taken where none is named, and has the material's own properties. */
export const grades: Readonly<Record<Material, Readonly<Record<string, Grade>>>> = {
  steel: {
    DC01: {},
    DC03: strength(
      240,
      'EN 10130: DC03 at most 240 MPa, from memory',
      370,
      'EN 10130: DC03 270 to 370 MPa, upper end, from memory',
    ),
    DC04: strength(
      210,
      'EN 10130: DC04 at most 210 MPa, from memory',
      370,
      'EN 10130 / EN 10139 tables: DC04 270 to 370 MPa, upper end',
    ),
    S235: S235,
    S235JR: S235,
    S355: S355,
    S355J2: S355,
    S355MC: S355,
  },
  galvanized: {
    DX51D: {},
    DX52D: strength(
      300,
      'EN 10346: DX52D 140 to 300 MPa, from memory',
      420,
      'EN 10346: DX52D 270 to 420 MPa, upper end, from memory',
    ),
    DX53D: strength(
      260,
      'EN 10346: DX53D 140 to 260 MPa, from memory',
      380,
      'EN 10346: DX53D 270 to 380 MPa, upper end, from memory',
    ),
  },
  stainless: {
    '304': {},
    '304L': {},
    '316': { densityKgM3: property(7980, 'handbook value for 316, from memory') },
    '316L': { densityKgM3: property(7980, 'handbook value for 316, from memory') },
  },
  aluminium: {
    '5052-H32': { radius: multiples('5052-H32', 0, 1, 1.5, 1.5) },
    '5052-O': {
      radius: fromMemory(multiples('5052-O', 0, 0, 0.5, 1), '1/4 in'),
      yieldMPa: property(90, 'handbook value for 5052-O, from memory'),
      tensileMPa: property(215, '5052-O 170 to 215 MPa, upper end, from memory'),
    },
    '5052-H34': {
      radius: fromMemory(multiples('5052-H34', 1, 1.5, 2, 2.5), '1/4 in'),
      yieldMPa: property(215, 'handbook value for 5052-H34, from memory'),
      tensileMPa: property(285, '5052-H34 235 to 285 MPa, upper end, from memory'),
    },
    '3003-H14': {
      ...OF_3003,
      radius: fromMemory(multiples('3003-H14', 0, 0, 1, 1.5), '1/8 in'),
      yieldMPa: property(145, 'handbook value for 3003-H14, from memory'),
      tensileMPa: property(180, '3003-H14 140 to 180 MPa, upper end, from memory'),
    },
    '6061-O': {
      ...OF_6061,
      radius: fromMemory(multiples('6061-O', 0, 0, 1, 1), '1/4 in'),
      yieldMPa: property(55, 'handbook value for 6061-O, from memory'),
      tensileMPa: property(150, '6061-O at most 150 MPa, from memory'),
    },
    '6061-T4': {
      ...OF_6061,
      radius: fromMemory(multiples('6061-T4', 0, 1, 1.5, 2.5), '1/4 in'),
      yieldMPa: property(145, 'handbook value for 6061-T4, from memory'),
      tensileMPa: property(240, 'handbook value for 6061-T4, from memory'),
    },
    '6061-T6': {
      ...OF_6061,
      radius: fromMemory(multiples('6061-T6', 1, 1.5, 2.5, 3.5), '1/16 and 1/4 in'),
      yieldMPa: property(276, 'handbook value for 6061-T6, from memory'),
      tensileMPa: property(310, '6061-T6 290 to 310 MPa, upper end, from memory'),
    },
  },
  copper: {},
  brass: {},
};

export const gradesOf = (material: Material): readonly string[] => Object.keys(grades[material]);
