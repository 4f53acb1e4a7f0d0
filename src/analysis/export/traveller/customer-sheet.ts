/** One page for the customer: what it is, how large, what it holds and weighs, and what has to be there for it. */
import { reportChecks } from '../../report/making/checks.js';
import { reportHardware } from '../../report/joining/hardware.js';
import { reportTubMass } from '../../report/mass.js';
import { reportWater } from '../../report/water/water.js';
import { reportDegrees } from '../../report/numbers.js';
import type { Weir } from '../../model/tub.js';
import type { Stages } from '../../stages/stages.js';
import type { ExportOptions } from '../exporter.js';
import { templatesOf, type Template } from '../flat/template.js';
import type { Block, Fact, Traveller } from './layout/block.js';
import { foldedFigure, sceneryOf } from './figures/folded-figure.js';
import { CONTENT_WIDTH } from './layout/lay-block.js';
import { unitsOf, type Units } from './layout/units.js';

export const customerSheetOf = (stages: Stages, options: ExportOptions): Traveller => {
  const units = unitsOf(options.units);
  const told: Told = { stages, units, water: reportWater(stages) };
  const head = (text: string): Block => ({ kind: 'text', weight: 'bold', text });
  return {
    title: 'Sheet for the customer',
    tub: stages.tub.name,
    paper: options.paper,
    sections: [
      {
        key: 'sheet',
        title: stages.tub.name,
        starts: 'sheet',
        blocks: [
          { kind: 'figure', figure: foldedFigure(sceneryOf(stages.folded()), 'above', [CONTENT_WIDTH, 74]) },
          { kind: 'facts', rows: [...sizeFacts(told), ...holdFacts(told)] },
          head('What has to be there'),
          { kind: 'facts', rows: needFacts(told) },
          {
            kind: 'text',
            text: 'Edges can cut: handle it with gloves. Electrical things near it are for a licensed electrician, the drain and the supply for licensed plumbing; local codes go before anything printed here.',
          },
        ],
      },
    ],
  };
};

interface Told {
  readonly stages: Stages;
  readonly units: Units;
  readonly water: ReturnType<typeof reportWater>;
}

/** Wide, deep, high over the metal. */
export const overallFacts = (stages: Stages, units: Units): Fact[] => {
  const { overall } = reportChecks(stages);
  if (!overall) return [];
  const sides = [overall.width_mm, overall.depth_mm, overall.height_mm].map(units.length);
  const name = `Outside${stages.tub.stands ? ', as it stands' : ''}, wide, deep, high`;
  return [{ name, value: `${sides.join(' x ')} ${units.lengthUnit}` }];
};

const sizeFacts = ({ stages, units }: Told): Fact[] => {
  const used = new Set(stages.parts().map(({ sheet }) => sheet));
  const sheets = stages.tub.sheets.filter((_, i) => used.has(i));
  return [
    ...overallFacts(stages, units),
    {
      name: 'Made of',
      value: [...new Set(sheets.map(({ material, thickness }) => `${material} ${units.fineOf(thickness)}`))].join(', '),
    },
  ];
};

const holdFacts = ({ stages, units, water }: Told): Fact[] => {
  const mass = reportTubMass(stages);
  const { capacity_L, overflow, liquid } = water;
  const { overall } = reportChecks(stages);
  return [
    ...(capacity_L === null
      ? []
      : [{ name: 'Holds, plugged', value: `${units.volumeOf(capacity_L * 1e6)} of ${liquid.name}` }]),
    ...(overflow && overall
      ? [
          {
            name: 'Runs over at',
            value: `${units.lengthOf(overflow.level_mm - overall.lowest_mm)} above its lowest place`,
          },
        ]
      : []),
    { name: 'Mass, empty', value: units.massOf(mass.empty_kg) },
    ...(mass.removable_kg > 0 ? [{ name: 'Mass of what lifts out', value: units.massOf(mass.removable_kg) }] : []),
    ...(mass.support_kg > 0 ? [{ name: 'Mass of its stand', value: units.massOf(mass.support_kg) }] : []),
    ...(capacity_L === null
      ? []
      : [
          {
            name: 'Mass, full to where it runs over',
            value: units.massOf(mass.empty_kg + mass.removable_kg + (capacity_L * liquid.density_kg_m3) / 1000),
          },
        ]),
  ];
};

const needFacts = (told: Told): Fact[] => {
  const { stages, units, water } = told;
  const { tub } = stages;
  return [
    ...templatesOf(stages).flatMap((template) => openingFacts(template, units)),
    ...fastenerFacts(told),
    {
      name: 'Stand',
      value: `${water.stands ? `tilted ${water.stands.tilted_deg}\u00b0 down ${water.stands.down}` : 'level'}${water.level_within_deg === 0 ? '' : ` within ${water.level_within_deg}\u00b0`}, and strong enough for the mass above`,
    },
    ...water.flows.map(({ inflow, rate_L_min }) => ({
      name: inflow[0].toUpperCase() + inflow.slice(1),
      value: units.flowOf((rate_L_min * 1e6) / 60),
    })),
    ...tub.outlets.map(({ name, diameter, lip, weir, spout }) => ({
      name: `Outlet ${name}`,
      value: `${spout ? `over an edge ${units.fineOf(spout.length)} long` : openingText(units, diameter, weir)}${lip > 0 ? `, lip ${units.fineOf(lip)} below the sheet` : ''}; open air or a trap as the code asks`,
    })),
    ...water.tanks.map(({ name, needed_L }) => ({
      name: `Tank ${name}`,
      value: `at least ${units.volumeOf(needed_L * 1e6)}`,
    })),
    ...(tub.inflows.length > 0 || tub.tanks.length > 0 || tub.dryZones.length > 0
      ? [{ name: 'Power', value: 'ground-fault (residual-current) protection, drip loops, parts rated for wet places' }]
      : []),
  ];
};

const openingText = (units: Units, diameter: number, weir: Weir | undefined): string => {
  if (!weir) return `opening \u00d8 ${units.fineOf(diameter)}`;
  return weir.kind === 'notch'
    ? `notch ${units.fineOf(weir.width)} wide, open above`
    : `vee of ${reportDegrees(weir.angle)}\u00b0, open above`;
};

const openingFacts = ({ name, cutOut }: Template, units: Units): Fact[] =>
  cutOut.map((ring) => {
    const [wide, high] = [0, 1].map((k) => {
      const values = ring.map((point) => point[k]);
      return Math.max(...values) - Math.min(...values);
    });
    return {
      name: `Opening at ${name}`,
      value: `${units.length(wide)} x ${units.length(high)} ${units.lengthUnit}, by the template`,
    };
  });

const fastenerFacts = ({ stages }: Told): Fact[] => {
  const fasteners = reportHardware(stages).filter(({ kind }) => kind === 'fastener');
  const outside = fasteners.filter(({ where }) => where.some((place) => !place.endsWith(' frame')));
  if (outside.length === 0) return [];
  return [{ name: 'Fastened by', value: outside.map(({ item, count }) => `${count} x ${item}`).join('; ') }];
};
