/**
 * What a sheet of each material is taken to be when the builder names no grade: the grade that is sold for tubs.
 * Every number stands with its source; "from memory" means a well-known handbook value that was recalled, not looked up.
 */
import { memoBy } from '../cache/memo.js';
import type { Material, Metal } from '../model/tub.js';
import { grades, type Grade, type Property, type RadiusMultiples } from './grades.js';

export type { Property } from './grades.js';

export interface MaterialProperties {
  /** The grade that the numbers are for. */
  readonly grade: string;
  readonly densityKgM3: Property;
  readonly youngsModulusMPa: Property;
  readonly poissonsRatio: Property;
  readonly yieldMPa: Property;
  /** Tensile strength to reckon bending forces with: the upper end of what is delivered. */
  readonly tensileMPa: Property;
  /** Smallest radius by thickness and grade alone; of steel it goes by its strength as well and stands in `minimum-radius`. */
  readonly radius?: RadiusMultiples;
}

const property = (value: number, source: string): Property => ({ value, source });

/** One multiple of whatever thickness. */
const anyThickness = (multiple: number, source: string): RadiusMultiples => ({
  rows: [[Infinity, multiple]],
  source: `common practice, no source: ${source}`,
});

const STEEL_DENSITY = property(7850, 'handbook value for carbon steel, from memory');
const STEEL_MODULUS = property(205_000, 'handbook value for carbon steel, from memory');
const STEEL_POISSON = property(0.3, 'handbook value for steel, from memory');

export const materialProperties: Readonly<Record<Material, MaterialProperties>> = {
  steel: {
    grade: 'DC01 cold-rolled, annealed',
    densityKgM3: STEEL_DENSITY,
    youngsModulusMPa: STEEL_MODULUS,
    poissonsRatio: STEEL_POISSON,
    yieldMPa: property(280, 'EN 10130 / EN 10139 tables: yield of DC01 at most 280 MPa'),
    tensileMPa: property(410, 'EN 10130 / EN 10139 tables: DC01 270 to 410 MPa, upper end'),
  },
  galvanized: {
    grade: 'DX51D+Z',
    densityKgM3: property(7850, 'handbook value for galvanized steel, from memory'),
    youngsModulusMPa: STEEL_MODULUS,
    poissonsRatio: STEEL_POISSON,
    yieldMPa: property(280, 'taken as DC01 (EN 10130 / EN 10139 tables); EN 10346 states none for DX51D'),
    tensileMPa: property(500, 'EN 10346: DX51D+Z 270 to 500 MPa, upper end, from memory'),
  },
  stainless: {
    grade: '304, annealed',
    densityKgM3: property(7930, 'handbook value for 304, from memory'),
    youngsModulusMPa: property(193_000, 'handbook value for 304, from memory'),
    poissonsRatio: STEEL_POISSON,
    yieldMPa: property(290, 'typical of annealed 304 sheet (205 is the least), from memory'),
    tensileMPa: property(720, 'EN 10088-2: 1.4301 540 to 750 MPa, near the upper end, from memory'),
    radius: anyThickness(1, 'annealed 304 takes 0.5 to 1.5 thicknesses'),
  },
  aluminium: {
    grade: '5052-H32',
    densityKgM3: property(2680, 'handbook value for 5052, from memory'),
    youngsModulusMPa: property(70_300, 'handbook value for 5052, from memory'),
    poissonsRatio: property(0.33, 'handbook value for 5052, from memory'),
    yieldMPa: property(193, 'handbook value for 5052-H32, from memory'),
    tensileMPa: property(265, '5052-H32 215 to 265 MPa, upper end, from memory'),
  },
  copper: {
    grade: 'C11000, half hard',
    densityKgM3: property(8940, 'handbook value for copper, from memory'),
    youngsModulusMPa: property(117_000, 'handbook value for copper, from memory'),
    poissonsRatio: property(0.34, 'handbook value for copper, from memory'),
    yieldMPa: property(250, 'EN 1652: Cu-ETP R240 180 to 300 MPa, from memory'),
    tensileMPa: property(300, 'EN 1652: Cu-ETP R240 240 to 300 MPa, upper end, from memory'),
    radius: anyThickness(1, 'half-hard copper takes 0 to 1 thickness, upper end'),
  },
  brass: {
    grade: '260 (70/30), quarter to half hard',
    densityKgM3: property(8530, 'handbook value for brass 260, from memory'),
    youngsModulusMPa: property(110_000, 'handbook value for brass 260, from memory'),
    poissonsRatio: property(0.35, 'handbook value for brass 260, from memory'),
    yieldMPa: property(275, 'handbook value for brass 260, quarter hard, from memory'),
    tensileMPa: property(420, 'handbook value for brass 260, half hard, from memory'),
    radius: anyThickness(1, 'quarter to half hard 70/30 brass takes 0 to 1 thickness, upper end'),
  },
};

/**
 * Of a sheet by its material, grade and strength as stated. A grade that is not known is taken at its worst: the strongest and the
 * largest radius of those that are.
 */
export const propertiesOf = ({ material, grade, tensileMPa }: Metal): MaterialProperties => {
  const usual = materialProperties[material];
  const known = Object.entries(grades[material]);
  const [name, own] = known.find(([each]) => each === grade) ?? known[0] ?? [usual.grade, {}];
  const isUnknown = grade !== undefined && name !== grade && known.length > 0;
  const graded = { ...usual, ...(isUnknown ? worstOf(known.map(([, each]) => each)) : own) };
  const named = grade === undefined || name !== grade ? graded : { ...graded, grade };
  const told = isUnknown ? { ...named, grade: `the most careful of ${known.map(([each]) => each).join(', ')}` } : named;
  if (tensileMPa === undefined) return told;
  const radius = grade === undefined ? radiusOfStrength(material, tensileMPa) : told.radius;
  return { ...ofStrength(told, tensileMPa), ...(radius && { radius }) };
};

/** As that of the weakest grade that is as strong; of sheet that is stronger than all of them, of the strongest. */
const radiusOfStrength = (material: Material, tensileMPa: number): RadiusMultiples | undefined => {
  const strengthOf = (grade: Grade): number => (grade.tensileMPa ?? materialProperties[material].tensileMPa).value;
  const sorted = Object.values(grades[material]).sort((a, b) => strengthOf(a) - strengthOf(b));
  return (sorted.find((grade) => strengthOf(grade) >= tensileMPa) ?? sorted.at(-1))?.radius;
};

/** The yield of a stronger sheet is taken as higher in the same measure. */
const ofStrength = (usual: MaterialProperties, tensileMPa: number): MaterialProperties => ({
  ...usual,
  grade: `${plainMPa(tensileMPa)} MPa as stated`,
  tensileMPa: { value: tensileMPa, source: 'as stated' },
  yieldMPa: {
    value: (usual.yieldMPa.value * tensileMPa) / usual.tensileMPa.value,
    source: `${usual.yieldMPa.source}; in the measure of the tensile strength that is stated`,
  },
});

const plainMPa = (value: number): string => String(Math.round(value * 10) / 10);

const worstOf = (all: readonly Grade[]): Grade => {
  const strongest = all.reduce((worst, each) =>
    (each.tensileMPa?.value ?? 0) > (worst.tensileMPa?.value ?? 0) ? each : worst,
  );
  const tightest = all.reduce((worst, each) => (leastOf(each) > leastOf(worst) ? each : worst));
  return { ...strongest, ...(tightest.radius && { radius: tightest.radius }) };
};

const leastOf = ({ radius }: Grade): number => radius?.rows.reduce((sum, [, multiple]) => sum + multiple, 0) ?? 0;

/** What of a sheet's metal bends: alike metals are bent alike. */
export const metalOf = memoBy(({ material, grade, tensileMPa, springbacks }: Metal): Metal => ({
  material,
  ...(grade !== undefined && { grade }),
  ...(tensileMPa !== undefined && { tensileMPa }),
  ...(springbacks !== undefined && { springbacks }),
}));

export const keyOfMetal = ({ material, grade, tensileMPa, springbacks = [] }: Metal): string =>
  [
    material,
    grade ?? '',
    tensileMPa ?? '',
    ...springbacks.map(({ angle, die, within }) => `${angle}/${die ?? ''}/${within ?? ''}`),
  ].join(' ');

/** Mass in kg of a volume in mm3 of that metal. */
export const massOf = (metal: Metal, volumeMm3: number): number =>
  (propertiesOf(metal).densityKgM3.value * volumeMm3) / 1e9;
