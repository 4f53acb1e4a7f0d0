import type { Liquid } from '../../model/tub.js';

export interface LiquidData {
  readonly viscosityCst: number;
  readonly densityKgM3: number;
  readonly source: string;
}

/** Liquids known by name. */
export const liquidPresets: Readonly<Record<string, LiquidData>> = {
  water: {
    viscosityCst: 1.004,
    densityKgM3: 998.2,
    source: 'water at 20 °C, handbook values, from memory',
  },
  coolant: {
    viscosityCst: 1.2,
    densityKgM3: 1000,
    source: 'water-mixed cutting fluid of a few per cent, common practice, no source',
  },
  oil: {
    viscosityCst: 22,
    densityKgM3: 870,
    source: 'viscosity grade 22 at 40 °C (ISO 3448 midpoint, from memory); density common practice, no source',
  },
  brine: {
    viscosityCst: 1.6,
    densityKgM3: 1150,
    source: 'about 20 % sodium chloride at 20 °C, from memory',
  },
};

/** Water at 20 °C when the tub names no liquid. Numbers of the text are the text's, whatever the liquid is called. */
export const liquidOf = (liquid: Liquid | undefined): LiquidData & { readonly name: string } =>
  liquid === undefined
    ? { name: 'water', ...liquidPresets.water }
    : { ...liquid, source: isPreset(liquid) ? liquidPresets[liquid.name].source : 'as stated' };

const isPreset = ({ name, viscosityCst, densityKgM3 }: Liquid): boolean =>
  Object.hasOwn(liquidPresets, name) &&
  liquidPresets[name].viscosityCst === viscosityCst &&
  liquidPresets[name].densityKgM3 === densityKgM3;
