import { left2, lerp, unit, type Vec3 } from '../../geometry/vec.js';
import type { Outlet } from '../../model/tub.js';
import type { Face } from '../../shape/shape.js';
import type { Stages } from '../../stages/stages.js';
import { SAME_DIRECTION, SAME_TURN } from '../../geometry/tolerance.js';
import { fixed, plain, toDeg } from '../../model/wording.js';
import { LEAK_COLUMNS, leakRow } from '../../report/leaks.js';
import { toFacts } from '../../report/table.js';
import { bowRows } from '../../report/water/bows.js';
import { chamberRows } from '../../report/water/chambers.js';
import { outletRows } from '../../report/water/outlets.js';
import { poolRow, slopeRow } from '../../report/water/water.js';
import { OUTLET_COLUMNS } from '../../report/water/outlet-rows.js';
import { BOW_COLUMNS, CHAMBER_COLUMNS, POOL_COLUMNS, SLOPE_COLUMNS } from '../../report/water/water-rows.js';
import type { WallBow } from '../../water/bow/wall-bow.js';
import type { Chamber } from '../../water/chambers.js';
import type { Basin } from '../../water/capacity.js';
import type { PanelSlope } from '../../water/standing/slopes.js';
import type { Water } from '../../water/water.js';
import { drawn3, drawnDegrees, drawnLength, drawnNumber, drawnUnit, note } from '../drawn.js';
import { jetEntries, splashEntries } from './falling-water.js';
import { fillSteps } from './fill-steps.js';
import { flowLine, linesFromWater, startsOn } from './flow-lines.js';
import { drawnSurface, levelSurface } from './level-surface.js';
import { openingRing } from '../joined-scene.js';
import type { SceneEntry } from '../scene-items.js';

/** The wet faces with the way the water takes on each; pools, levels, flows, and the places that matter. */
export const waterScene = (stages: Stages): SceneEntry[] => {
  const faces = stages.wetShape().faces.filter((face) => face.usable);
  if (faces.length === 0)
    return [note('no-faces', 'No wet face yet: the text has no panel that can be used', stages.tub.at)];
  const water = stages.water();
  const slopes = new Map(water.panels().map((slope) => [slope.face, slope]));
  const bows = new Map(stages.bows().map((bow) => [bow.face, bow]));
  return [
    ...faces.map((face) => faceEntry(stages, face, { slope: slopes.get(face.panel), bow: bows.get(face.panel) })),
    ...poolEntries(stages, water),
    ...levelEntries(stages, water),
    ...chamberEntries(stages, water),
    ...flowEntries(stages, water),
    ...outletEntries(stages, water),
    ...jetEntries(stages, water),
    ...splashEntries(stages, water),
    ...leakEntries(stages),
  ];
};

const bowFacts = ({ tub }: Stages, bow: WallBow | undefined): readonly string[] =>
  bow ? toFacts(BOW_COLUMNS, bowRows(tub, [bow])[0]) : [];

const faceEntry = (
  stages: Stages,
  face: Face,
  { slope: panel, bow }: { readonly slope: PanelSlope | undefined; readonly bow: WallBow | undefined },
): SceneEntry => {
  const { normal } = face.frame;
  const slope = Math.atan2(Math.hypot(normal[0], normal[1]), Math.abs(normal[2]));
  // A face that leans over has no fall that is judged.
  const falls = panel
    ? toFacts(SLOPE_COLUMNS, slopeRow(stages.tub, stages.water(), panel))
    : [`Fall ${fixed(toDeg(slope), 2)} deg`];
  return {
    key: `panel:${face.name}`,
    at: stages.tub.panels[face.panel].at,
    item: {
      kind: 'water-face',
      name: face.name,
      corners: face.corners.map(drawn3),
      holes: face.openings.map((opening) => openingRing(face, opening)),
      normal: drawnUnit(normal),
      slope_deg: drawnDegrees(slope),
      ...(bow && { bow: { least_mm: drawnLength(bow.least), most_mm: drawnLength(bow.most ?? bow.least) } }),
      downhill: slope < SAME_DIRECTION ? [0, 0, 0] : drawnUnit(downhillOn(normal)),
      told: { what: `Panel ${face.name}`, facts: [headingWords(normal), ...falls, ...bowFacts(stages, bow)] },
    },
  };
};

const poolEntries = ({ tub }: Stages, water: Water): SceneEntry[] =>
  water.standing().map((pool, index, pools): SceneEntry => {
    const before = pools.slice(0, index).filter(({ face }) => face === pool.face).length;
    const { name, at } = tub.panels[pool.face];
    return {
      key: before === 0 ? `pool:${name}` : `pool:${name} ${before + 1}`,
      at,
      item: {
        kind: 'water-pool',
        name,
        deepest: drawn3(pool.deepest),
        ...drawnSurface([levelSurface(water.surface(), pool.points, pool.level)]),
        depth_mm: drawnLength(pool.depth),
        told: { what: `Pool ${name}`, facts: toFacts(POOL_COLUMNS, poolRow(tub, water, pool)) },
      },
    };
  });

const levelEntries = (stages: Stages, water: Water): SceneEntry[] => {
  const { tub } = stages;
  const [basin] = water.full();
  if (!basin) return [note('no-basin', 'Plugged, this tub holds nothing: water runs off every panel', tub.at)];
  if (!Number.isFinite(basin.level))
    return [note('no-overflow', 'Plugged, nothing lets the water out, so no level can be given', tub.at)];
  const steps = fillSteps(water.surface(), water.full());
  return [
    ...water.full().map((each, i) => levelEntry(stages, water, each, i)),
    ...(steps.length === 0
      ? []
      : [{ key: 'fill', at: undefined, item: { kind: 'water-fill', steps, told: undefined } } as const]),
    ...overflowEntries(stages, basin),
  ];
};

const levelEntry = ({ tub }: Stages, water: Water, basin: Basin, index: number): SceneEntry => {
  return {
    key: index === 0 ? 'level' : `level ${index + 1}`,
    at: tub.level?.at ?? tub.at,
    item: {
      kind: 'water-level',
      ...drawnSurface([levelSurface(water.surface(), basin.pool.points, basin.level)]),
      level_mm: drawnLength(basin.level),
      volume_L: drawnNumber(basin.volume / 1e6),
      told: {
        what: 'Plugged',
        facts: [`holds ${plain(basin.volume / 1e6, 2)} L to ${plain(basin.level, 1)} mm`],
      },
    },
  };
};

const overflowEntries = ({ tub }: Stages, basin: Basin): SceneEntry[] => {
  const runsOver = `runs over at ${plain(basin.level, 1)} mm`;
  return basin.overflow.slice(0, 1).map(({ face, start, end }): SceneEntry => ({
    key: `overflow:${tub.panels[face].name}`,
    at: tub.panels[face].at,
    item: {
      kind: 'water-spot',
      spot: 'overflow',
      name: tub.panels[face].name,
      point: drawn3(lerp(start, end, 0.5)),
      text: runsOver,
      told: { what: 'First overflow', facts: [runsOver, `at panel ${tub.panels[face].name}`] },
    },
  }));
};

/** Where several chambers run over, told at the place where each does. */
const chamberEntries = ({ tub }: Stages, water: Water): SceneEntry[] => {
  const chambers = water.chambers();
  if (chambers.length < 2) return [];
  return chamberRows(tub, water).map((row, i): SceneEntry => {
    const { spill, faces } = chambers[i];
    const into = row.runs_into === null ? 'out of the tub' : `into ${row.runs_into}`;
    return {
      key: row.name,
      at: tub.panels[spill.over ?? faces[0]].at,
      item: {
        kind: 'water-spot',
        spot: 'crest',
        name: row.name,
        point: drawn3(middleOf(water, chambers[i])),
        text: `${row.name} holds ${plain(row.volume_L, 2)} L, then runs ${into} at ${plain(row.level_mm, 1)} mm`,
        told: { what: row.name, facts: toFacts(CHAMBER_COLUMNS, row) },
      },
    };
  });
};

/** A place in the water of a full chamber: the middle of the corners under it. */
const middleOf = (water: Water, { points, level }: Chamber): Vec3 => {
  const places = [...points].map((point) => water.surface().points[point]);
  const mean = (axis: 0 | 1): number => places.reduce((sum, place) => sum + place[axis], 0) / places.length;
  return [mean(0), mean(1), level];
};

const litresPerMinute = (mm3PerS: number): number => (mm3PerS * 60) / 1e6;

/** Lines drawn from a panel that takes an inflow. */
const LINES = 5;

const flowEntries = (stages: Stages, water: Water): SceneEntry[] => {
  const { tub } = stages;
  const { net } = water.followedOn();
  if (tub.inflows.length === 0)
    return [note('no-inflow', 'No inflow is stated, so no flow is drawn; arrows show the fall of each panel', tub.at)];
  return water.flows().flatMap(({ inflow, routed, rateMm3S }): SceneEntry[] => {
    const { name, at, panel, point } = tub.inflows[inflow];
    const face = stages.shape().faces[panel];
    if (!routed || !face.usable) return [];
    const starts = point ? [point] : startsOn(face, left2(net.falls[panel].direction), LINES);
    const over = [...routed.through.keys()].flatMap((flatArea) => linesFromWater(net, flatArea, LINES));
    const lines = [...starts.map((start) => flowLine(net, panel, start)), ...over].filter((line) => line.length > 1);
    const share = litresPerMinute(rateMm3S) / Math.max(1, starts.length);
    return lines.map((line, i): SceneEntry => ({
      key: `flow:${name} ${i + 1}`,
      at,
      item: {
        kind: 'water-flow',
        name,
        points: line.map(drawn3),
        rate_L_min: drawnNumber(share),
        told: i === 0 ? { what: `Flow ${name}`, facts: [`${plain(litresPerMinute(rateMm3S), 2)} L/min`] } : undefined,
      },
    }));
  });
};

const outletEntries = ({ tub }: Stages, water: Water): SceneEntry[] => {
  const rows = outletRows(tub, water);
  return water.outlets().map((state, i): SceneEntry => {
    const outlet: Outlet = tub.outlets[state.outlet];
    const head =
      state.rateMm3S > 0 && Number.isFinite(state.head) ? `, water ${plain(state.head, 1)} mm over its edge` : '';
    return {
      key: `outlet:${outlet.name}`,
      at: outlet.at,
      item: {
        kind: 'water-spot',
        spot: 'outlet',
        name: outlet.name,
        point: drawn3(outlet.center),
        text: outlet.shut ? `${outlet.name}, shut in use` : `${outlet.name}${head}`,
        told: { what: `Outlet ${outlet.name}`, facts: toFacts(OUTLET_COLUMNS, rows[i]) },
      },
    };
  });
};

const leakEntries = (stages: Stages): SceneEntry[] => {
  const { lowest } = stages.watertight();
  if (!lowest) return [];
  const [face] = lowest.faces;
  const { name, at } = stages.tub.panels[face];
  return [
    {
      key: `leak:${name}`,
      at,
      item: {
        kind: 'water-spot',
        spot: 'leak',
        name,
        point: drawn3(lowest.point),
        text: `leaks at ${plain(lowest.height, 1)} mm`,
        told: { what: 'Lowest open place', facts: [lowest.kind, ...toFacts(LEAK_COLUMNS, leakRow(stages, lowest))] },
      },
    },
  ];
};

/** Straight down, projected onto the plane. */
const downhillOn = (normal: Vec3): Vec3 =>
  unit([normal[0] * normal[2], normal[1] * normal[2], normal[2] * normal[2] - 1]);

/** Which way is down, in the words of the language. */
const headingWords = (normal: Vec3): string => {
  const [x, y] = downhillOn(normal);
  const run = Math.hypot(x, y);
  if (Math.abs(normal[0]) < SAME_DIRECTION && Math.abs(normal[1]) < SAME_DIRECTION) return 'level';
  if (run < SAME_TURN) return 'straight down';
  const across = Math.abs(x) > SIDEWAYS * run ? (x > 0 ? 'right' : 'left') : '';
  const along = Math.abs(y) > SIDEWAYS * run ? (y > 0 ? 'back' : 'front') : '';
  return `down to the ${[along, across].filter((word) => word !== '').join(' ')}`;
};

/** Sine of 22.5 deg: a way leans to a side that is nearer than the next eighth of the compass. */
const SIDEWAYS = Math.sin(Math.PI / 8);
