/**
 * Cautions that fit the job. General ones, from the safety leaflets of the welding, sheet-metal and electrical trades and
 * public accident-prevention bodies; they stand in for no instruction of a maker, no local code and no licensed practice.
 */
import type { Tub } from '../../model/tub.js';
import type { Caution } from './layout/block.js';
import type { Units } from './layout/units.js';

export interface CautionCase {
  readonly tub: Tub;
  readonly units: Units;
  /** kg of the tub filled for its test; undefined when it is not filled. */
  readonly fullMass: number | undefined;
}

interface CautionRule extends Caution {
  readonly fits: (tub: Tub) => boolean;
}

const isWelded = (tub: Tub): boolean => tub.seams.some(({ weld, spots }) => weld !== undefined || (spots ?? 0) > 0);
const isArcWelded = (tub: Tub): boolean => tub.seams.some(({ weld }) => weld !== undefined);
const uses = (tub: Tub, material: string): boolean => tub.sheets.some((sheet) => sheet.material === material);
const hasPressBrake = (tub: Tub): boolean => tub.shop === undefined || tub.shop.pressBrakes.length > 0;

const RULES: readonly CautionRule[] = [
  {
    title: 'Cut edges',
    text: 'Sheared, plasma-cut and punched edges cut skin. Wear cut-resistant gloves to carry parts, take them off near turning tools, deburr every edge, and hem or cover the rims that hands reach.',
    fits: () => true,
  },
  {
    title: 'Brake',
    text: 'Press brakes and folders crush. Keep the maker\u2019s guards and hold-clear distances, support wide parts from the side, and never reach between punch and die.',
    fits: hasPressBrake,
  },
  {
    title: 'Zinc fume',
    text: 'Galvanized sheet gives off zinc oxide fume when welded, cut hot or soldered: it causes metal fume fever. Strip the coating at the joint, extract at the source, and wear a respirator chosen for it.',
    fits: (tub) => uses(tub, 'galvanized'),
  },
  {
    title: 'Stainless fume',
    text: 'Welding and plasma cutting stainless steel can set free hexavalent chromium. Extract at the source and have the exposure assessed. Keep iron dust and iron brushes away from it: they leave rust.',
    fits: (tub) => uses(tub, 'stainless') && isWelded(tub),
  },
  {
    title: 'Arc',
    text: 'The arc burns eyes and skin, also of people passing by. Rated shade, covered skin, screens; clear combustibles, keep an extinguisher and a fire watch.',
    fits: isArcWelded,
  },
  {
    title: 'Solvents near the arc',
    text: 'Chlorinated degreasers near an arc or hot metal can form phosgene. Degrease with something else and let it dry fully. Never weld a closed or formerly solvent-holding vessel without cleaning and venting it.',
    fits: isArcWelded,
  },
  {
    title: 'Spot welder',
    text: 'Electrodes pinch and spit. Eye protection, gloves, no jewellery; people with implants ask their physician before they come near the welder.',
    fits: (tub) => tub.seams.some(({ spots }) => (spots ?? 0) > 0),
  },
  {
    title: 'Solder and flux',
    text: 'Flux fume irritates the lungs and flux residue corrodes. Extract, wash the joint, and use lead-free solder for anything that touches food or drinking water.',
    fits: (tub) => tub.seams.some(({ solder }) => solder),
  },
  {
    title: 'Sealant',
    text: 'Sealants and their primers give off solvent vapour that can burn and harm. Ventilate, keep flames and sparks away until cured, and read the maker\u2019s sheet for the liquid it is to hold.',
    fits: (tub) => tub.seams.some(({ sealant }) => (sealant ?? 0) > 0),
  },
  {
    title: 'Grinding',
    text: 'Sparks travel far. Guard on, face shield, hearing protection, combustibles cleared, fire watch afterwards.',
    fits: isWelded,
  },
  {
    title: 'Electricity near liquid',
    text: 'Pumps, heaters and lamps at a tub need ground-fault (residual-current) protection, drip loops and undamaged cords, and parts rated for wet places. Bond the metal where the code asks for it. Wiring is for a licensed electrician under the local code.',
    fits: (tub) => tub.inflows.length > 0 || tub.tanks.length > 0 || tub.dryZones.length > 0,
  },
  {
    title: 'Drain and waste',
    text: 'Where the outlet or its overflow goes is under local plumbing and waste rules; a supply above the water needs backflow protection. Ask before connecting it.',
    fits: (tub) => tub.outlets.length > 0,
  },
];

/** The cautions of a job; the last one, which defers to those who know, stands under every list. */
export const cautionsFor = ({ tub, units, fullMass }: CautionCase): Caution[] => [
  ...RULES.filter(({ fits }) => fits(tub)).map(({ title, text }) => ({ title, text })),
  ...(fullMass === undefined
    ? []
    : [
        {
          title: 'Weight',
          text: `Filled for its test the tub weighs about ${units.massOf(fullMass)}. Check what it stands on before filling, keep feet and hands from under it, and do not move it full.`,
        },
      ]),
  {
    title: 'These are reminders, not instructions',
    text: 'Local codes, the makers\u2019 instructions and licensed practice go before anything printed here.',
  },
];
