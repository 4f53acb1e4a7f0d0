import { memo } from '../cache/memo.js';
import type { Vec3 } from '../geometry/vec.js';
import type { OutletIndex, Tub } from '../model/tub.js';
import type { FaceIndex, Shape } from '../shape/shape.js';
import type { ChamberAtWork } from './chambers-at-work.js';
import { findChambers, type Chamber } from './chambers.js';
import { findBasins, levelVolumeCurve, type Basin, type LevelVolume } from './capacity.js';
import { drainageOf, floodOf, type Drainage } from './flow/drainage.js';
import type { Films } from './flow/hold-up.js';
import { outletAt, type InflowFlow } from './flow/inflows.js';
import type { ScreenAtWork } from './network/water-at-work.js';
import type { HoldUp } from './out-of-tank.js';
import { liquidOf, type LiquidData } from './flow/liquids.js';
import type { OutletState } from './outlet/outlets.js';
import type { AtWork } from './at-work.js';
import { runningIn } from './running.js';
import { overflowFalls, type FallPlace } from './overflow.js';
import { followPath, type PathStep } from './flow/route/paths.js';
import { levelFinder, type LevelAt } from './standing/level-at.js';
import { restingFilm } from './flow/resting-film.js';
import { floodFrom } from './standing/flood.js';
import { findPools, type Pool } from './standing/pools.js';
import { sillsOf } from './outlet/sills.js';
import { creaseSlopes, panelSlopes, type CreaseSlope, type PanelSlope } from './standing/slopes.js';
import { buildSurface, heightsOf, reachedAt, type Surface } from './surface/surface.js';
import { tiltedPools, type TiltedPool } from './tilt.js';

/** mm. A hollow no deeper than this is none: sheet is not flatter (as OFF_PLANE). */
export const POOL_DEPTH = 0.05;

/** All that is known of the water in a tub; every member is computed once, when first asked for. */
export interface Water {
  readonly liquid: LiquidData & { readonly name: string };
  /** Depth to which the liquid rests on level sheet, mm: what stands no deeper is a film, not a pool. */
  readonly film: number;
  /** How far the tub may stand off level, rad. */
  readonly within: number;
  readonly surface: () => Surface;
  /** In use: outlets that are shut then are closed. */
  readonly open: () => Drainage;
  /** Every outlet open, as it is left to drain; the same object where none is shut in use. */
  readonly drained: () => Drainage;
  readonly plugged: () => Drainage;
  /** Level to which water rises over a place before it leaves, outlets plugged; and with every other hole closed as well. */
  readonly levelAt: LevelAt;
  readonly levelIfClosed: LevelAt;
  /** Where the liquid gets to at a corner of a panel that a hem takes off; else the point itself. */
  readonly reachedAt: (face: FaceIndex, point: Vec3) => Vec3;
  readonly panels: () => readonly PanelSlope[];
  readonly creases: () => readonly CreaseSlope[];
  /** Deeper than POOL_DEPTH, all outlets open, tub as drawn. */
  readonly pools: () => readonly Pool[];
  /** The same in use: behind an outlet that is shut then more stands than stays once it is opened. */
  readonly standing: () => readonly Pool[];
  /** Deepest pool of each panel over the tilts within `level`, deeper than a film. */
  readonly tilted: () => readonly TiltedPool[];
  /** Outlets plugged; the main basin first. */
  readonly basins: () => readonly Basin[];
  /** Those that hold more than a film, and the main one, up to a notch where one is lower: no plug shuts it. */
  readonly full: () => readonly Basin[];
  /** Outlets plugged: hollows up to where each runs over into the next or out of the tub, upstream ones first. */
  readonly chambers: () => readonly Chamber[];
  /** The same while the inflows run, in the same order. */
  readonly chambersAtWork: () => readonly ChamberAtWork[];
  /** Strainers across openings of dividers that water runs through. */
  readonly screens: () => readonly ScreenAtWork[];
  /** Level at which the main basin first runs over, mm; undefined without one, Infinity when nothing lets it out. */
  readonly floodLevel: () => number | undefined;
  /** mm3: all basins full; undefined without one, Infinity when nothing lets the water out of the main one. */
  readonly capacity: () => number | undefined;
  /** Of all basins, each as far as it fills. */
  readonly curve: () => readonly LevelVolume[];
  /** Where the overflow of the main basin falls off the sheet. */
  readonly falls: () => readonly FallPlace[];
  /** In use, as the inflows are followed: openings of dividers are taken as sheet, which water runs through by their law. */
  readonly followedOn: () => Drainage;
  readonly flows: () => readonly InflowFlow[];
  readonly films: () => Films;
  readonly outlets: () => readonly OutletState[];
  /** The same with all of them shut or blocked but the overflows; undefined where there is none, or nothing runs in. */
  readonly whenBlocked: () => AtWork | undefined;
  /** What runs with those shares of the strainers of outlets blocked, in place of the stated ones. */
  readonly workingWith: (blocked: ReadonlyMap<OutletIndex, number>) => {
    readonly outlets: readonly OutletState[];
    readonly holdUp: HoldUp;
  };
  readonly paths: () => readonly (readonly PathStep[])[];
  readonly holdUp: () => HoldUp;
  /** Faces that get wet in use: below a flood level, under a flow, or in a declared path. */
  readonly wetted: () => ReadonlySet<FaceIndex>;
  /** Computes what checks of any water ask for, a member a step. */
  readonly inSteps: () => Generator<void, void>;
}

/** The water of a tub. Nothing is computed before it is asked for; each part costs O(n log n) in panels. */
export const waterOf = (tub: Tub, shape: Shape): Water => {
  const liquid = liquidOf(tub.liquid);
  const film = restingFilm(liquid);
  const within = tub.level?.within ?? 0;
  const standing = standingIn(tub, shape, { within, film, liquid });
  const { held, closed, ...asked } = standing;
  const { surface, open, plugged, panels, creases, tilted, basins, full, chambers } = asked;
  const running = runningIn(tub, shape, { liquid, film, surface, open, plugged, basins, chambers });
  const { films, atWork, blocked, followedOn, chambersAtWork, holdUp, workingWith } = running;
  const mainBasin = (): readonly Basin[] => basins().slice(0, 1);
  const flows = (): readonly InflowFlow[] => atWork().flows;
  return {
    liquid,
    film,
    within,
    ...asked,
    levelAt: (face, point) => held()(face, point),
    levelIfClosed: (face, point) => closed()(face, point),
    reachedAt: (face, point) => reachedAt(surface(), face, point),
    floodLevel: () => basins().at(0)?.level,
    capacity: memo(() => (basins().length === 0 ? undefined : full().reduce((sum, { volume }) => sum + volume, 0))),
    curve: memo(() => levelVolumeCurve(surface(), full())),
    falls: memo(() => mainBasin().flatMap((basin) => overflowFalls(plugged(), basin))),
    flows,
    films,
    outlets: () => atWork().outlets,
    whenBlocked: blocked,
    followedOn,
    workingWith,
    chambersAtWork,
    screens: () => atWork().work.screens,
    paths: memo(() => {
      const { net } = open();
      return tub.paths.map((path) => followPath(net, (outlet, end) => outletAt(tub, net, end) === outlet, path));
    }),
    holdUp,
    wetted: memo(() => wettedFaces(tub, basins(), flows())),
    *inSteps(): Generator<void, void> {
      for (const member of [
        surface,
        open,
        plugged,
        held,
        panels,
        creases,
        tilted,
        basins,
        chambers,
        followedOn,
        atWork,
      ]) {
        member();
        yield;
      }
    },
  };
};

/** Where water stands, falls and rises to. */
interface Standing extends Pick<
  Water,
  | 'surface'
  | 'open'
  | 'drained'
  | 'plugged'
  | 'panels'
  | 'creases'
  | 'pools'
  | 'standing'
  | 'tilted'
  | 'basins'
  | 'full'
  | 'chambers'
> {
  readonly held: () => LevelAt;
  readonly closed: () => LevelAt;
}

const standingIn = (
  tub: Tub,
  shape: Shape,
  { within, film, liquid }: Pick<Water, 'within' | 'film' | 'liquid'>,
): Standing => {
  const surface = memo(() => buildSurface(tub, shape));
  const open = memo(() => drainageOf(tub, surface(), 'inUse'));
  const drained = tub.outlets.some(({ shut }) => shut) ? memo(() => drainageOf(tub, surface(), 'open')) : open;
  const plugged = memo(() => drainageOf(tub, surface(), 'plugged'));
  const held = memo(() => levelFinder(surface(), plugged().flood));
  const closed = memo(() => {
    if (!plugged().open.some((isOpen) => isOpen)) return held();
    return levelFinder(surface(), floodOf(tub, surface(), 'closed'));
  });
  const panels = memo(() => panelSlopes(shape, within));
  const creases = memo(() => creaseSlopes(shape, within));
  const pools = memo(() => drained().pools.filter(({ depth }) => depth > POOL_DEPTH));
  const standing = memo(() => open().pools.filter(({ depth }) => depth > POOL_DEPTH));
  const tilted = memo(() =>
    tiltedPools(surface(), drained(), within, panels(), creases()).filter(({ depth }) => depth > film),
  );
  const basins = memo(() => findBasins(tub, surface(), plugged()));
  const full = memo(() =>
    brimful(tub, surface(), { plugged: plugged(), basins: basins(), liquid }).filter(
      ({ level, lowest }, i) => i === 0 || (Number.isFinite(level) && level - lowest[2] > film),
    ),
  );
  const chambers = memo(() => findChambers(tub, surface(), plugged(), film));
  return {
    ...{ surface, open, drained, plugged, held, closed, panels, creases, pools, standing, tilted },
    ...{ basins, full, chambers },
  };
};

interface Brimful {
  readonly plugged: Drainage;
  readonly basins: readonly Basin[];
  readonly liquid: Water['liquid'];
}

/** Basins as far as they fill with every plug in: notches stay open. */
const brimful = (tub: Tub, surface: Surface, { plugged, basins, liquid }: Brimful): readonly Basin[] => {
  const leaks = sillsOf(tub, surface, liquid);
  if (leaks.length === 0) return basins;
  const { open, rises } = plugged;
  const flood = floodFrom({ surface, heights: heightsOf(surface.points), open, rises, leaks });
  return findBasins(tub, surface, { flood, pools: findPools({ surface, points: surface.points, flood, open }) });
};

const wettedFaces = (tub: Tub, basins: readonly Basin[], flows: readonly InflowFlow[]): ReadonlySet<FaceIndex> =>
  new Set([
    ...basins.flatMap(({ faces }) => faces),
    ...flows.flatMap(({ routed }) => [...(routed?.faces ?? [])]),
    ...tub.paths.flatMap(({ stops }) => stops.flatMap((stop) => (stop.kind === 'panel' ? [stop.panel] : []))),
  ]);
