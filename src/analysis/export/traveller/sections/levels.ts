import { reportChecks } from '../../../report/making/checks.js';
import { reportWater } from '../../../report/water/water.js';
import type { WaterReport } from '../../../report/water/water-rows.js';
import type { PumpRow } from '../../../report/water/outlet-rows.js';
import { reportTubMass, type MassRow } from '../../../report/mass.js';
import type { Block, Cell, Fact, Section } from '../layout/block.js';
import type { Job } from '../job.js';
import { placeText } from '../layout/place-text.js';

const standFacts = ({ stands, level_within_deg }: WaterReport): Fact[] => [
  {
    name: 'Level of the stand',
    value: level_within_deg === 0 ? '0\u00b0: how true it is set is not stated' : `within ${level_within_deg}\u00b0`,
  },
  ...(stands
    ? [
        {
          name: 'Set up leaning',
          value: `${stands.tilted_deg}\u00b0 down ${stands.down}; heights are told as it stands`,
        },
      ]
    : []),
];

/** What stands at which level, and where the weight lies: for who sets the tub up. Places are right, back, up in the tub. */
export const levelSection = (job: Job): Section => {
  const { units, stages } = job;
  const water = reportWater(stages);
  const { overall } = reportChecks(stages);
  const { level_volume, outlets, tanks, overflow } = water;
  const length = (mm: number | null): string => (mm === null ? '-' : units.lengthOf(mm));
  const volume = (litres: number | null): string => (litres === null ? '-' : units.volumeOf(litres * 1e6));
  const levels: Fact[] = [
    ...standFacts(water),
    ...(water.capacity_L === null ? [] : [{ name: 'Holds, plugged', value: volume(water.capacity_L) }]),
    ...(overflow
      ? [{ name: 'Runs over at', value: `${length(overflow.level_mm)}, at ${overflow.panels.join(', ') || 'the rim'}` }]
      : []),
    ...(overall ? [{ name: 'Lowest place of the metal', value: units.fineOf(overall.lowest_mm) }] : []),
    ...(water.leak_level_mm === null ? [] : [{ name: 'Lowest open place', value: length(water.leak_level_mm) }]),
    ...outlets.flatMap(({ name, shut_in_use, water_level_mm, flood_level_mm }) =>
      shut_in_use || (water_level_mm === null && flood_level_mm === null)
        ? []
        : [
            {
              name: `Water at ${name} in use`,
              value: `${length(water_level_mm)}; runs over at ${length(flood_level_mm)}`,
            },
          ],
    ),
    ...water.pumps.map((pump) => pumpFact(job, pump)),
    ...tanks.flatMap(({ name, level_at_rest_mm, level_while_running_mm }) =>
      level_at_rest_mm === null
        ? []
        : [
            {
              name: `Tank ${name}`,
              value: `filled to ${length(level_at_rest_mm)} with the tub dry, ${length(level_while_running_mm)} in use`,
            },
          ],
    ),
  ];
  return {
    key: 'levels',
    title: 'Levels and weight',
    starts: 'follows',
    blocks: [
      { kind: 'facts', rows: [...levels, ...massFacts(job, reportTubMass(stages))] },
      ...(level_volume.length === 0
        ? []
        : [
            { kind: 'text', weight: 'bold', text: 'What it holds at which level' } as const,
            levelTable(job, level_volume),
          ]),
    ],
  };
};

const pumpFact = ({ units }: Job, pump: PumpRow): Fact => {
  const { inflow, flow_L_min, least_L_min, most_L_min, cover_mm, cover_needed_mm } = pump;
  const flow = (perMinute: number): string => units.flowOf((perMinute * 1e6) / 60);
  const cover =
    cover_mm === null ? '' : `; ${units.lengthOf(cover_mm)} of ${units.lengthOf(cover_needed_mm)} over its inlet`;
  return {
    name: `Pump of ${inflow}`,
    value: `${flow(flow_L_min)}, ${flow(least_L_min)} to ${flow(most_L_min)}${cover}`,
  };
};

/** In two columns of levels, the lower half on the left. */
const levelTable = ({ units }: Job, levels: ReturnType<typeof reportWater>['level_volume']): Block => {
  const half = Math.ceil(levels.length / 2);
  const cells = (row: (typeof levels)[number] | undefined): Cell[] =>
    row ? [units.length(row.level_mm), units.volumeOf(row.volume_L * 1e6), units.areaOf(row.area_mm2)] : ['', '', ''];
  const heads = [`Level, ${units.lengthUnit}`, 'In it', 'Surface'];
  return {
    kind: 'table',
    columns: [...heads, ...heads].map((head) => ({ head, align: 'right', share: 1 })),
    rows: levels.slice(0, half).map((row, i) => [...cells(row), ...cells(levels[half + i])]),
  };
};

const massFacts = ({ units }: Job, mass: MassRow): Fact[] => {
  const at = (centre: MassRow['centre_mm']): string =>
    centre === null ? '' : `, centre of mass at ${placeText(units, centre)} ${units.lengthUnit} (right, back, up)`;
  return [
    { name: 'Tub, empty', value: `${units.massOf(mass.empty_kg)}${at(mass.centre_mm)}` },
    ...(mass.full_kg === null
      ? []
      : [{ name: 'Tub, filled for its test', value: `${units.massOf(mass.full_kg)}${at(mass.full_centre_mm)}` }]),
    ...mass.parts.flatMap(({ name, mass_kg, centre_mm }) =>
      mass_kg === null ? [] : [{ name: `Part ${name}`, value: `${units.massOf(mass_kg)}${at(centre_mm)}` }],
    ),
    ...(mass.loose_kg > 0 ? [{ name: 'Clips and frames', value: units.massOf(mass.loose_kg) }] : []),
    ...(mass.fasteners_kg > 0 ? [{ name: 'Rivets and screws', value: units.massOf(mass.fasteners_kg) }] : []),
  ];
};
