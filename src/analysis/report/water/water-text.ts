import type { TextUnits } from '../../model/in-inches.js';
import { toText, type Column } from '../table.js';
import { SPLASH_COLUMNS } from './splashes.js';
import { PUBLISHED_HEAD } from '../../water/outlet/weir.js';
import {
  OUTLET_COLUMNS,
  PUMP_COLUMNS,
  TANK_COLUMNS,
  type JetRow,
  type OutletRow,
  type PipeRow,
} from './outlet-rows.js';
import {
  BOW_COLUMNS,
  CHAMBER_COLUMNS,
  CREASE_COLUMNS,
  FLOW_END_COLUMNS,
  flowEnds,
  POOL_COLUMNS,
  SLOPE_COLUMNS,
  type ChamberRow,
  type ScreenRow,
  type WaterReport,
} from './water-rows.js';
import { fixed } from '../../model/wording.js';

const number = (value: number | null, digits: number): string => (value === null ? '' : fixed(value, digits));

/** The water for a terminal: tables with a line of text before each. */
export const waterText = (water: WaterReport, units: TextUnits = 'mm'): string => {
  const table: Table = (columns, rows) => toText(columns, rows, units);
  return (
    [
      ['', standsText(water)],
      ['', holdsText(water)],
      ['', fallsText(water)],
      ['', drainsText(water)],
      ['Chambers', chambersText(water, table)],
      ['', water.screens.map(screenText).join('\n')],
      [
        'Slopes',
        table(
          SLOPE_COLUMNS,
          water.slopes.filter(({ gets_wet }) => gets_wet),
        ),
      ],
      ['Creases', table(CREASE_COLUMNS, water.creases)],
      ['Pools', table(POOL_COLUMNS, water.pools)],
      ['Inflows', table(FLOW_END_COLUMNS, flowEnds(water))],
      ['Outlets', table(OUTLET_COLUMNS, water.outlets)],
      ['', water.outlets.flatMap(outletLines).join('\n')],
      ['', outText(water)],
      ['Tanks', table(TANK_COLUMNS, water.tanks)],
      ['Pumps', pumpsText(water, table)],
      ['Splash', splashText(water, table)],
      ['Walls under the liquid', bowsText(water, table)],
    ] as const
  )
    .filter(([, text]) => text !== '')
    .map(([heading, text]) => (heading === '' ? text : `${heading}:\n${text}`))
    .join('\n');
};

/** A table in the units of the text. */
type Table = <Row>(columns: readonly Column<Row>[], rows: readonly Row[]) => string;

const standsText = ({ stands }: WaterReport): string =>
  stands
    ? `It stands tilted ${fixed(stands.tilted_deg, 2)} deg down ${stands.down}; heights and places are told as it stands.`
    : '';

/** One chamber is told in what the tub holds. */
const drainsText = ({ chambers }: WaterReport): string => {
  const [first, second] = chambers;
  return first && !second && first.drains_in_min !== null
    ? `Full, it drains to a film in ${fixed(first.drains_in_min, 1)} min.`
    : '';
};

const chambersText = ({ chambers }: WaterReport, table: Table): string =>
  chambers.length > 1
    ? [table(CHAMBER_COLUMNS, chambers), headText(chambers)].filter((text) => text !== '').join('\n')
    : '';

/** What a head over an edge is taken from, and that a low one is outside of it. */
const headText = (chambers: readonly ChamberRow[]): string => {
  const heads = chambers.flatMap(({ head_mm }) => (head_mm ? [head_mm] : []));
  if (heads.length === 0) return '';
  const law =
    'The head over an edge is that of a thin crest, Q = 2/3 0.62 b sqrt(2 g) h^1.5, drowned by Villemonte (within 5 %), through an opening 0.61 A sqrt(2 g h)';
  return heads.every((head) => head >= PUBLISHED_HEAD)
    ? `${law}.`
    : `${law}, published for heads of ${PUBLISHED_HEAD} mm and more: a lower one may be off by a tenth, and a film clings.`;
};

const screenText = (row: ScreenRow): string =>
  `Through the strainer of ${row.name} run ${fixed(row.flow_L_min, 2)} L/min: the water stands at ${fixed(row.before_mm, 1)} mm before it${row.behind_mm === null ? '' : `, ${fixed(row.behind_mm, 1)} mm behind`}; it opens ${fixed(row.opens_mm, 2)} mm, ${fixed(row.open_share_percent, 0)} % of it${row.blocked_percent > 0 ? `, ${fixed(row.blocked_percent, 0)} % blocked` : ''}.`;

const splashText = ({ splashes }: WaterReport, table: Table): string =>
  splashes.length === 0
    ? ''
    : `${table(SPLASH_COLUMNS, splashes)}\nHeights over where it lands; drops leave with half the speed at most (rule of thumb, no source), and the wall is the one with least to spare.`;

/** How far it bows, and what that makes of what it holds. */
const bowsText = ({ bows, capacity_L }: WaterReport, table: Table): string => {
  if (bows.length === 0) return '';
  const room = (key: 'room_at_least_mL' | 'room_at_most_mL'): string =>
    (bows.reduce((sum, row) => sum + row[key], 0) / 1000).toFixed(2);
  const law =
    'Full, each as the rectangle around its widest bay, least with edges that do not turn, most with edges that do: thin plates by their energy (Timoshenko, Woinowsky-Krieger)';
  const beyond = bows.every(({ is_linear }) => is_linear)
    ? ''
    : '; more than half the sheet is a linear estimate and too much, as the sheet stretches as well';
  const holds =
    capacity_L === null
      ? ''
      : ` The tub makes room for ${room('room_at_least_mL')} to ${room('room_at_most_mL')} L more.`;
  return `${table(BOW_COLUMNS, bows)}\n${law}${beyond}. A floor that lies on something bows less.${holds}`;
};

const pumpsText = ({ pumps }: WaterReport, table: Table): string =>
  pumps.length === 0
    ? ''
    : [
        table(PUMP_COLUMNS, pumps),
        'Least: tank at its lowest, threaded bends, a hose that takes 1.37 times what a smooth pipe does (charts of makers: 1.13 to 1.37). Most: tank at rest, the hose as stated.',
        'Keep plugs and motors dry, feed them through ground-fault protection, and leave wiring to who is licensed for it.',
      ].join('\n');

/** What the table does not hold: an overflow with the others shut, and how far the head over an edge may be off. */
const outletLines = (row: OutletRow): readonly string[] => {
  const { name, is_overflow, others_shut: shut, outlet_head_mm: head, head_least_mm: least, head_most_mm: most } = row;
  const margin = shut === null || shut.margin_mm === null ? '' : `, ${fixed(shut.margin_mm, 1)} mm below the rim`;
  const under = shut === null || shut.head_mm === null ? '' : ` under ${fixed(shut.head_mm, 1)} mm${margin}`;
  return [
    ...jetLines(name, row.jet),
    ...pipeLines(name, row.pipe),
    ...(is_overflow && shut
      ? [`With the other outlets shut ${name} takes ${fixed(shut.inflow_L_min, 2)} L/min${under}.`]
      : []),
    ...(head !== null && least !== null && most !== null
      ? [
          `The head over ${name}, ${fixed(head, 1)} mm, lies between ${fixed(least, 1)} and ${fixed(most, 1)} mm by what is published of thin plates${head < PUBLISHED_HEAD ? `, whose heads start at ${PUBLISHED_HEAD} mm: below that a film clings` : ''}.`,
        ]
      : []),
  ];
};

const pipeLines = (name: string, pipe: PipeRow | null): readonly string[] => {
  if (!pipe) return [];
  const { bore_mm, with_air_L_min, full_L_min, depth_mm, speed_mm_s, limits } = pipe;
  const full = full_L_min === null ? '' : ` and ${fixed(full_L_min, 1)} L/min full`;
  const runs =
    depth_mm === null
      ? `it runs full, at ${fixed((speed_mm_s ?? 0) / 1000, 2)} m/s`
      : `it runs ${fixed(depth_mm, 1)} mm deep`;
  return [
    `The pipe of ${fixed(bore_mm, 1)} mm below ${name} takes ${fixed(with_air_L_min, 1)} L/min with air in it${full}; ${runs}. The ${limits} limits.`,
  ];
};

/** A stream of its own keeps to its width or spreads, which nothing that is published tells of thin sheets on metal. */
const spreadText = ({ speed_mm_s, speed_spread_mm_s }: JetRow): string =>
  speed_spread_mm_s < speed_mm_s
    ? ` (${fixed(speed_spread_mm_s / 1000, 2)} m/s if it spreads over all of the edge)`
    : '';

const jetLines = (name: string, jet: JetRow | null): readonly string[] =>
  jet
    ? [
        `Over ${name} the water runs ${fixed(jet.depth_mm, 1)} mm deep (${fixed(jet.depth_least_mm, 1)} to ${fixed(jet.depth_most_mm, 1)} by the two sources) and ${fixed(jet.width_mm, 0)} mm wide, at ${fixed(jet.speed_mm_s / 1000, 2)} m/s${spreadText(jet)} and ${fixed(jet.down_deg, 0)} deg down.`,
        `${fixed(jet.falls_mm, 0)} mm below it comes down ${fixed(jet.throw_mm, 0)} mm out${jet.into === null ? '' : `, at the rim of ${jet.into}`}; with all inflows coming this way ${fixed(jet.throw_most_mm, 0)} mm, and straight down as it starts and stops.`,
        ...(jet.leap_throw_mm === null
          ? []
          : [
              `It is fast enough to leap off the last bend: then it comes down ${fixed(jet.leap_throw_mm, 0)} mm out from there.`,
            ]),
      ]
    : [];

const fallsText = ({ overflow }: WaterReport): string =>
  overflow && overflow.falls_on.length > 0
    ? `Overflow falls on ${overflow.falls_on.map(({ name }) => name).join(', ')}.`
    : '';

const outText = ({ flows, holdup, holdup_L }: WaterReport): string =>
  flows.length > 0
    ? `${number(holdup_L, 2)} L is out of the tank while it runs; ${number(holdup.drain_back_L, 2)} L comes back when it stops.`
    : '';

const holdsText = ({ capacity_L, overflow, liquid, holds, outlets }: WaterReport): string => {
  if (overflow === null || capacity_L === null) return '';
  const parts = holds.map(({ level_mm, volume_L }) => `${fixed(volume_L, 2)} L to ${fixed(level_mm, 1)} mm`);
  const held =
    parts.length > 1
      ? `${fixed(capacity_L, 2)} L of ${liquid.name}: ${parts.join(', ')}; the first`
      : `${fixed(capacity_L, 2)} L of ${liquid.name} to ${fixed(overflow.level_mm, 1)} mm, and`;
  const into = overflow.into === null ? '' : ` into ${overflow.into}`;
  const notches = outlets.some(({ form }) => form === 'notch' || form === 'vee') ? ', its notches open,' : '';
  return `Plugged${notches} it holds ${held} runs over at ${overflow.panels.join(', ')}${into}.`;
};
