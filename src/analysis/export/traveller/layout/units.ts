/** Numbers as the shop reads them: metric or inch. Rounded once, here. */
import { fixed } from '../../../model/wording.js';

export type UnitSystem = 'metric' | 'inch';

export interface Units {
  readonly system: UnitSystem;
  /** `mm` or `in`, for heads of tables. */
  readonly lengthUnit: string;
  /** `mm` or `inches`, in a sentence. */
  readonly lengthName: string;
  /** Number alone: to 0.1 mm or 0.001 in. */
  readonly length: (mm: number) => string;
  /** Number alone, for thickness, radius and gap: to 0.01 mm or 0.0001 in. */
  readonly fine: (mm: number) => string;
  /** Number alone, for the size of a tool: without needless zeros. */
  readonly tool: (mm: number) => string;
  /** With unit. */
  readonly lengthOf: (mm: number) => string;
  readonly fineOf: (mm: number) => string;
  readonly longOf: (mm: number) => string;
  readonly areaOf: (mm2: number) => string;
  /** For a wet patch: cm2 or in2. */
  readonly smallAreaOf: (mm2: number) => string;
  readonly massOf: (kg: number) => string;
  readonly volumeOf: (mm3: number) => string;
  readonly smallVolumeOf: (mm3: number) => string;
  /** Of a machine. */
  readonly forceOf: (newton: number) => string;
  /** Of a clamp or of water: `N` or `lbf`, for heads of tables, the number alone, and with its unit. */
  readonly pullUnit: string;
  readonly pull: (newton: number) => string;
  readonly pullOf: (newton: number) => string;
  readonly flowOf: (mm3PerS: number) => string;
}

const INCH = 25.4;

/** A sentence whose numbers are metric, in the shop's units. */
export const wordsIn = (units: Units, sentence: string): string =>
  units.system === 'metric'
    ? sentence
    : sentence.replace(METRIC, (_, text: string, unit: string) => inInch[unit](Number(text)));

const METRIC = /(-?\d+(?:\.\d+)?) (mm|L\/min|mL|L|kN|N|kg)(?![\w/])/g;

const inInch: Readonly<Record<string, (value: number) => string>> = {
  mm: (mm) => `${trimmed(mm / INCH, Math.abs(mm) < 2.54 ? 4 : 3)} in`,
  'L/min': (rate) => `${trimmed((rate * 1e6) / GALLON_MM3, 2)} gal/min`,
  mL: (ml) => `${trimmed((ml * 1000) / FLUID_OUNCE_MM3, 2)} fl oz`,
  L: (litres) => `${trimmed((litres * 1e6) / GALLON_MM3, 2)} gal`,
  kN: (kN) => `${trimmed((kN * 1000) / SHORT_TON_N, 2)} ton`,
  N: (newton) => `${trimmed(newton / POUND_FORCE_N, 2)} lbf`,
  kg: (kg) => `${trimmed(kg / POUND_KG, 2)} lb`,
};
const POUND_KG = 0.45359237;
/** Of standard gravity on a pound. */
const POUND_FORCE_N = POUND_KG * 9.80665;
const GALLON_MM3 = 3_785_411.784;
const FLUID_OUNCE_MM3 = GALLON_MM3 / 128;
const SHORT_TON_N = 8896.443230521;

const trimmed = (value: number, places: number): string => String(Number(fixed(value, places)));

export const unitsOf = (system: UnitSystem): Units => (system === 'metric' ? metric : inch);

const metric: Units = {
  system: 'metric',
  lengthUnit: 'mm',
  lengthName: 'mm',
  length: (mm) => fixed(mm, 1),
  fine: (mm) => trimmed(mm, 2),
  tool: (mm) => trimmed(mm, 1),
  lengthOf: (mm) => `${fixed(mm, 1)} mm`,
  fineOf: (mm) => `${trimmed(mm, 2)} mm`,
  longOf: (mm) => `${fixed(mm / 1000, 2)} m`,
  areaOf: (mm2) => `${fixed(mm2 / 1e6, 3)} m\u00b2`,
  smallAreaOf: (mm2) => `${trimmed(mm2 / 100, 2)} cm\u00b2`,
  massOf: (kg) => `${fixed(kg, kg < 10 ? 2 : 1)} kg`,
  volumeOf: (mm3) => `${fixed(mm3 / 1e6, 1)} L`,
  smallVolumeOf: (mm3) => `${fixed(mm3 / 1000, mm3 < 10_000 ? 1 : 0)} mL`,
  forceOf: (newton) => `${fixed(newton / 1000, 1)} kN`,
  pullUnit: 'N',
  pull: (newton) => trimmed(newton, 2),
  pullOf: (newton) => `${trimmed(newton, 2)} N`,
  flowOf: (rate) => `${fixed((rate * 60) / 1e6, 1)} L/min`,
};

const inch: Units = {
  system: 'inch',
  lengthUnit: 'in',
  lengthName: 'inches',
  length: (mm) => fixed(mm / INCH, 3),
  fine: (mm) => fixed(mm / INCH, 4),
  tool: (mm) => trimmed(mm / INCH, 3),
  lengthOf: (mm) => `${fixed(mm / INCH, 3)} in`,
  fineOf: (mm) => `${fixed(mm / INCH, 4)} in`,
  longOf: (mm) => `${fixed(mm / INCH / 12, 2)} ft`,
  areaOf: (mm2) => `${fixed(mm2 / (INCH * 12) ** 2, 2)} ft\u00b2`,
  smallAreaOf: (mm2) => `${trimmed(mm2 / INCH ** 2, 2)} in\u00b2`,
  massOf: (kg) => `${fixed(kg / POUND_KG, kg < 5 ? 2 : 1)} lb`,
  volumeOf: (mm3) => `${fixed(mm3 / GALLON_MM3, 2)} gal`,
  smallVolumeOf: (mm3) => `${fixed(mm3 / FLUID_OUNCE_MM3, 2)} fl oz`,
  forceOf: (newton) => `${fixed(newton / SHORT_TON_N, 2)} ton`,
  pullUnit: 'lbf',
  pull: (newton) => trimmed(newton / POUND_FORCE_N, 2),
  pullOf: (newton) => `${trimmed(newton / POUND_FORCE_N, 2)} lbf`,
  flowOf: (rate) => `${fixed((rate * 60) / GALLON_MM3, 2)} gal/min`,
};

/** Degrees to a tenth, as a gauge reads them; the same in both systems. */
export const gaugeDegrees = (deg: number): string => `${fixed(deg, 1)}\u00b0`;

/** As finely as it is stated, to a hundredth: of tolerances, which a rounding would loosen. */
export const exactDegrees = (deg: number): string => `${trimmed(deg, 2)}\u00b0`;

/** Of an angle in rad, to a tenth. */
export const degreesOf = (angle: number): string => gaugeDegrees((angle * 180) / Math.PI);
