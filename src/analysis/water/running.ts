/** What runs in use, and what is out of the tanks for it. */
import { memo } from '../cache/memo.js';
import type { Outlet, OutletIndex, Tub } from '../model/tub.js';
import type { Shape } from '../shape/shape.js';
import { atWorkOf, drainageAtWork, groundAtWork, passagesOf, type AtWork, type AtWorkInput } from './at-work.js';
import type { Basin } from './capacity.js';
import {
  chambersAtWork,
  standingAtWork,
  type ChamberAtWork,
  type Standing as StandingThen,
  type StandingInput,
} from './chambers-at-work.js';
import type { Chamber } from './chambers.js';
import type { Drainage } from './flow/drainage.js';
import { runningWater, type Films } from './flow/hold-up.js';
import type { LiquidData } from './flow/liquids.js';
import { holdUpOf, type HoldUp } from './out-of-tank.js';
import type { OutletState } from './outlet/outlets.js';
import { balanceWith } from './outlet/tank-share.js';
import { ratesThatAgree } from './pump/agree.js';
import { buildSurface, type Surface } from './surface/surface.js';
import type { Ground } from './network/site.js';
import { whenBlocked } from './when-blocked.js';

export interface Working {
  readonly outlets: readonly OutletState[];
  readonly holdUp: HoldUp;
}

export interface Running {
  readonly followedOn: () => Drainage;
  readonly atWork: () => AtWork;
  readonly films: () => Films;
  readonly holdUp: () => HoldUp;
  readonly chambersAtWork: () => readonly ChamberAtWork[];
  readonly workingWith: (blocked: ReadonlyMap<OutletIndex, number>) => Working;
  readonly blocked: () => AtWork | undefined;
}

export interface RunningInput {
  readonly liquid: LiquidData;
  readonly film: number;
  readonly surface: () => Surface;
  readonly open: () => Drainage;
  readonly plugged: () => Drainage;
  readonly basins: () => readonly Basin[];
  readonly chambers: () => readonly Chamber[];
}

/** Pumps bring what they do with their tanks as low as these stand while it runs. */
export const runningIn = (tub: Tub, shape: Shape, input: RunningInput): Running => {
  const { surface, open, basins, chambers, plugged, liquid, film } = input;
  const hasPassages = memo(() => passagesOf(tub, surface()).size > 0);
  const tight = memo(() => (hasPassages() ? buildSurface(tub, shape, true) : surface()));
  const followedOn = memo(() => (hasPassages() ? drainageAtWork(tub, tight()) : open()));
  const common = memo(() => ({ surface: surface(), plugged: plugged(), liquid, film, bends: shape.bends }));
  const ground = memo(() => groundAtWork({ ...common(), tub, drainage: followedOn() }));
  const runAs = (as: Tub): Run => runOf(as, { followedOn, common, ground, open });
  const run = memo(() => {
    const agreed = ratesThatAgree(tub, liquid.viscosityCst, (as) => {
      const { atWork, holdUp } = runAs(as);
      const states = { outlets: () => atWork().outlets };
      return as.tanks.map((tank) => balanceWith(as, states, tank, holdUp()).leftWhileRunning);
    });
    return runAs(agreed);
  });
  return {
    followedOn,
    atWork: () => run().atWork(),
    films: () => run().films(),
    holdUp: () => run().holdUp(),
    workingWith: (shares) => run().workingWith(shares),
    chambersAtWork: memo(() => run().chambersIn(chambers())),
    blocked: memo(() => whenBlocked({ ...common(), tub: run().tub, tight: tight(), basins: basins() })),
  };
};

interface Run extends Pick<Running, 'atWork' | 'films' | 'holdUp' | 'workingWith'> {
  readonly tub: Tub;
  readonly chambersIn: (chambers: readonly Chamber[]) => readonly ChamberAtWork[];
}

interface RunSite {
  readonly followedOn: () => Drainage;
  readonly common: () => Omit<AtWorkInput, 'tub' | 'drainage' | 'before' | 'ground'>;
  readonly ground: () => Ground;
  readonly open: () => Drainage;
}

const runOf = (tub: Tub, { followedOn, common, ground, open }: RunSite): Run => {
  const atWork = memo(() => atWorkOf({ ...common(), tub, drainage: followedOn(), ground: ground() }));
  const routed = memo(() => atWork().flows.flatMap((flow) => flow.routed ?? []));
  const films = memo(() => runningWater(tub, followedOn().net, routed(), common().liquid));
  const behind = (as: Tub, work: AtWork): StandingInput => ({
    tub: as,
    surface: followedOn().net.surface,
    work: work.work,
    own: common().surface,
    open: open(),
  });
  const standingNow = memo(() => standingAtWork(behind(tub, atWork())));
  const outWith = (work: AtWork, standingThen: readonly StandingThen[]): HoldUp =>
    holdUpOf({
      net: followedOn().net,
      films: films(),
      through: routed().map(({ through }) => through),
      standing: standingThen,
      lowest: work.work.regions.lowest,
    });
  return {
    tub,
    atWork,
    films,
    holdUp: memo(() => outWith(atWork(), standingNow())),
    chambersIn: (chambers) => chambersAtWork(chambers, behind(tub, atWork()), standingNow()),
    workingWith: (shares) => {
      const as = { ...tub, outlets: tub.outlets.map((each, i) => withBlocked(each, shares.get(i))) };
      const work = atWorkOf({ ...common(), tub: as, drainage: followedOn(), before: atWork().work });
      return { outlets: work.outlets, holdUp: outWith(work, standingAtWork(behind(as, work))) };
    },
  };
};

const withBlocked = (outlet: Outlet, blocked: number | undefined): Outlet =>
  outlet.strainer && blocked !== undefined ? { ...outlet, strainer: { ...outlet.strainer, blocked } } : outlet;
