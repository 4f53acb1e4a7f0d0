import { textTable } from './text-table.js';
import { toText } from './table.js';
import { CREASE_COLUMNS, POOL_COLUMNS, SLOPE_COLUMNS, type WaterReport } from './water-rows.js';

const number = (value: number | null, digits: number): string => (value === null ? '' : value.toFixed(digits));

/** The water for a terminal: tables with a line of text before each. */
export const waterText = (water: WaterReport): string =>
  (
    [
      ['', holdsText(water)],
      ['', fallsText(water)],
      [
        'Slopes',
        toText(
          SLOPE_COLUMNS,
          water.slopes.filter(({ gets_wet }) => gets_wet),
        ),
      ],
      ['Creases', toText(CREASE_COLUMNS, water.creases)],
      ['Pools', toText(POOL_COLUMNS, water.pools)],
      ['Inflows', inflowsTable(water)],
      ['Outlets', outletsTable(water)],
      ['', outText(water)],
      ['Tanks', tanksTable(water)],
    ] as const
  )
    .filter(([, text]) => text !== '')
    .map(([heading, text]) => (heading === '' ? text : `${heading}:\n${text}`))
    .join('\n');

const fallsText = ({ overflow }: WaterReport): string =>
  overflow && overflow.falls_on.length > 0
    ? `Overflow falls on ${overflow.falls_on.map(({ name }) => name).join(', ')}.`
    : '';

const inflowsTable = ({ flows }: WaterReport): string =>
  textTable(
    ['Inflow', 'L/min', 'Ends', 'Share %'],
    flows.flatMap(({ inflow, ends }) =>
      ends.map((end) => [
        inflow,
        number(end.rate_L_min, 2),
        end.name === null ? end.kind : `${end.kind} ${end.name}`,
        number(end.share_percent, 1),
      ]),
    ),
  );

const outletsTable = ({ outlets }: WaterReport): string =>
  textTable(
    ['Outlet', 'Inflow L/min', 'Head mm', 'Takes L/min', 'To the rim mm'],
    outlets.map((row) => [
      row.name,
      number(row.inflow_L_min, 2),
      number(row.head_mm, 1),
      number(row.capacity_L_min, 1),
      number(row.margin_mm, 1),
    ]),
  );

const outText = ({ flows, holdup, holdup_L }: WaterReport): string =>
  flows.length > 0
    ? `${number(holdup_L, 2)} L is out of the tank while it runs; ${number(holdup.drain_back_L, 2)} L comes back when it stops.`
    : '';

const tanksTable = ({ tanks }: WaterReport): string =>
  textTable(
    ['Tank', 'Holds L', 'Needs L', 'Left while running L'],
    tanks.map((row) => [
      row.name,
      number(row.capacity_L, 2),
      number(row.needed_L, 2),
      number(row.left_while_running_L, 2),
    ]),
  );

const holdsText = ({ capacity_L, overflow, liquid }: WaterReport): string =>
  overflow === null || capacity_L === null
    ? ''
    : `Plugged it holds ${capacity_L.toFixed(2)} L of ${liquid.name} to ${overflow.level_mm.toFixed(1)} mm, and runs over at ${overflow.panels.join(', ')}.`;
