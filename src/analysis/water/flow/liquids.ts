import type { Liquid } from '../../model/tub.js';

export interface LiquidData {
  readonly viscosityCst: number;
  readonly densityKgM3: number;
  /** Against air. */
  readonly surfaceTensionMNM: number;
  /** At which it stands on bare sheet: what it wets well lies thin. */
  readonly contactAngleDeg: number;
  readonly source: string;
  /** Of surface tension and contact angle. */
  readonly wettingSource: string;
}

/**
 * Water on stainless steel ground with grit 320: 65.9 deg, standard error 11.7. Foods 10 (2021) 611, table 2. The lower end is
 * taken: less is put down to surface tension. Other sheet as stainless.
 */
const WATER_ON_STEEL = 54;
const WATER_ON_STEEL_SOURCE = 'contact angle on ground stainless 65.9 ± 11.7 deg (Foods 10 (2021) 611), lower end';

/** Mineral oil, and what is taken of a liquid that states nothing: the least film of those known. */
const OIL = {
  surfaceTensionMNM: 30,
  contactAngleDeg: 20,
  wettingSource: 'mineral oil on metal, common practice, no source',
} as const;

/** Liquids known by name. */
export const liquidPresets: Readonly<Record<string, LiquidData>> = {
  water: {
    viscosityCst: 1.004,
    densityKgM3: 998.2,
    surfaceTensionMNM: 72.75,
    contactAngleDeg: WATER_ON_STEEL,
    source: 'water at 20 °C, handbook values, from memory',
    wettingSource: `tension of water at 20 °C, handbook value, from memory; ${WATER_ON_STEEL_SOURCE}`,
  },
  coolant: {
    viscosityCst: 1.2,
    densityKgM3: 1000,
    surfaceTensionMNM: 38,
    contactAngleDeg: 30,
    source: 'water-mixed cutting fluid of a few per cent, common practice, no source',
    wettingSource: 'emulsion with wetting agents, common practice, no source',
  },
  oil: {
    viscosityCst: 22,
    densityKgM3: 870,
    surfaceTensionMNM: OIL.surfaceTensionMNM,
    contactAngleDeg: OIL.contactAngleDeg,
    source: 'viscosity grade 22 at 40 °C (ISO 3448 midpoint, from memory); density common practice, no source',
    wettingSource: OIL.wettingSource,
  },
  brine: {
    viscosityCst: 1.6,
    densityKgM3: 1150,
    surfaceTensionMNM: 79,
    contactAngleDeg: WATER_ON_STEEL,
    source: 'about 20 % sodium chloride at 20 °C, from memory',
    wettingSource: `tension of 20 % sodium chloride, from memory; ${WATER_ON_STEEL_SOURCE}`,
  },
};

/** Water at 20 °C when the tub names no liquid. Numbers of the text are the text's, whatever the liquid is called. */
export const liquidOf = (liquid: Liquid | undefined): LiquidData & { readonly name: string } =>
  liquid === undefined
    ? { name: 'water', ...liquidPresets.water }
    : { ...liquid, ...wettingOf(liquid), source: isPreset(liquid) ? liquidPresets[liquid.name].source : 'as stated' };

/** As stated; else that of the liquid of that name; else as oil, whose film is the thinnest. */
const wettingOf = ({
  name,
  surfaceTensionMNM,
  contactAngleDeg,
}: Liquid): Pick<LiquidData, 'surfaceTensionMNM' | 'contactAngleDeg' | 'wettingSource'> => {
  const known = Object.hasOwn(liquidPresets, name) ? liquidPresets[name] : OIL;
  return {
    surfaceTensionMNM: surfaceTensionMNM ?? known.surfaceTensionMNM,
    contactAngleDeg: contactAngleDeg ?? known.contactAngleDeg,
    wettingSource: surfaceTensionMNM !== undefined && contactAngleDeg !== undefined ? 'as stated' : known.wettingSource,
  };
};

const isPreset = ({ name, viscosityCst, densityKgM3 }: Liquid): boolean =>
  Object.hasOwn(liquidPresets, name) &&
  liquidPresets[name].viscosityCst === viscosityCst &&
  liquidPresets[name].densityKgM3 === densityKgM3;
