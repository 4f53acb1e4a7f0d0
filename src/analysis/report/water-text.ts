import { textTable } from './text-table.js';
import type { WaterReport } from './water.js';

const number = (value: number | null, digits: number): string => (value === null ? '' : value.toFixed(digits));

/** The water for a terminal: tables with a line of text before each. */
export const waterText = (water: WaterReport): string => {
  const { overflow } = water;
  const parts: readonly (readonly [string, string])[] = [
    ['', holdsText(water)],
    [
      '',
      overflow && overflow.falls_on.length > 0
        ? `Overflow falls on ${overflow.falls_on.map(({ name }) => name).join(', ')}.`
        : '',
    ],
    [
      'Slopes',
      textTable(
        ['Panel', 'Fall deg', 'At worst deg', 'Needs deg'],
        water.slopes
          .filter(({ gets_wet }) => gets_wet)
          .map((row) => [
            row.panel,
            number(row.inclination_deg, 2),
            number(row.worst_deg, 2),
            number(row.needed_deg, 2),
          ]),
      ),
    ],
    [
      'Creases',
      textTable(
        ['Crease', 'Fall deg', 'At worst deg', 'Needs deg', 'Length mm'],
        water.creases.map((row) => [
          row.between.join(' '),
          number(row.inclination_deg, 2),
          number(row.worst_deg, 2),
          number(row.needed_deg, 2),
          number(row.length_mm, 1),
        ]),
      ),
    ],
    [
      'Pools',
      textTable(
        ['Panel', 'Depth mm', 'Area cm2', 'Volume mL'],
        water.pools.map((row) => [
          row.panel,
          number(row.depth_mm, 2),
          number(row.area_mm2 / 100, 1),
          number(row.volume_mL, 1),
        ]),
      ),
    ],
    [
      'Inflows',
      textTable(
        ['Inflow', 'L/min', 'Ends', 'Share %'],
        water.flows.flatMap(({ inflow, ends }) =>
          ends.map((end) => [
            inflow,
            number(end.rate_L_min, 2),
            end.name === null ? end.kind : `${end.kind} ${end.name}`,
            number(end.share_percent, 1),
          ]),
        ),
      ),
    ],
    [
      'Outlets',
      textTable(
        ['Outlet', 'Inflow L/min', 'Head mm', 'Takes L/min', 'To the rim mm'],
        water.outlets.map((row) => [
          row.name,
          number(row.inflow_L_min, 2),
          number(row.head_mm, 1),
          number(row.capacity_L_min, 1),
          number(row.margin_mm, 1),
        ]),
      ),
    ],
    [
      '',
      water.flows.length > 0
        ? `${number(water.holdup_L, 2)} L is out of the tank while it runs; ${number(water.holdup.drain_back_L, 2)} L comes back when it stops.`
        : '',
    ],
    [
      'Tanks',
      textTable(
        ['Tank', 'Holds L', 'Needs L', 'Left while running L'],
        water.tanks.map((row) => [
          row.name,
          number(row.capacity_L, 2),
          number(row.needed_L, 2),
          number(row.left_while_running_L, 2),
        ]),
      ),
    ],
  ];
  return parts
    .filter(([, text]) => text !== '')
    .map(([heading, text]) => (heading === '' ? text : `${heading}:\n${text}`))
    .join('\n');
};

const holdsText = ({ capacity_L, overflow, liquid }: WaterReport): string =>
  overflow === null || capacity_L === null
    ? ''
    : `Plugged it holds ${capacity_L.toFixed(2)} L of ${liquid.name} to ${overflow.level_mm.toFixed(1)} mm, and runs over at ${overflow.panels.join(', ')}.`;
