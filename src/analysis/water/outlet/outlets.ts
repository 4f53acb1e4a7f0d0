import type { Vec3 } from '../../geometry/vec.js';
import type { OutletIndex, Strainer, Tub } from '../../model/tub.js';
import type { Drainage } from '../flow/drainage.js';
import type { InflowEnd, InflowFlow } from '../flow/inflows.js';
import type { LiquidData } from '../flow/liquids.js';
import { joinedPools } from './joined-pools.js';
import { shareLevel, type Mouth, type Settled, type Shared } from './one-level.js';
import { leastThat } from '../../geometry/least-that.js';
import { lawOf, type OutletLaw } from './outlet-law.js';
import { NO_OPENING, passPoints, rimPoints } from '../capacity.js';
import { pipeBelow, pipeState, type PipeBelow, type PipeState } from '../pipe/outlet-pipe.js';
import { spoutJet, spoutPoints, type SpoutJet } from './spout.js';
import type { Bend } from '../../shape/shape.js';
import type { FlowNet } from '../flow/flow-net.js';
import { blockedShareAt, strainerLoss, type StrainerLoss } from './strainer.js';
import type { Surface } from '../surface/surface.js';

/** An outlet at work. */
export interface OutletState {
  readonly outlet: OutletIndex;
  readonly form: OutletLaw['kind'];
  /** Lowest point of its rim, on the wet face. */
  readonly lowest: Vec3;
  /** Level at which water starts to run in: over a raised edge, if it has one. */
  readonly lip: number;
  readonly rateMm3S: number;
  /** Head of water over the lip for that rate: outlet and strainer, mm. */
  readonly outletHead: number;
  /** Between which heads that one lies by what is published, mm; undefined where no source says. */
  readonly headBand: readonly [number, number] | undefined;
  readonly strainer: StrainerLoss | undefined;
  /** Of a spout that takes water. */
  readonly jet: SpoutJet | undefined;
  readonly pipe: PipeState | undefined;
  readonly head: number;
  /** Level of the water over it; Infinity when no level is enough. */
  readonly waterLevel: number;
  /** Level at which the tub runs over here, all outlets plugged. */
  readonly floodLevel: number;
  /** Most it takes before the tub runs over; undefined when it lies in no hollow, so that no head builds up. */
  readonly capacityMm3S: number | undefined;
  /** Share of the strainer blocked at which the tub runs over; undefined without strainer, inflow or hollow. */
  readonly blockedAt: number | undefined;
  /** Share of the flow that comes from each quarter of the compass, in plan: it travels from there. */
  readonly from: Readonly<Record<'left' | 'right' | 'front' | 'back' | 'around', number>>;
}

export interface OutletInput {
  readonly tub: Tub;
  readonly surface: Surface;
  readonly plugged: Drainage;
  /** As each outlet by itself gets them. */
  readonly flows: readonly InflowFlow[];
  readonly liquid: LiquidData;
  /** On which they were followed. */
  readonly net: FlowNet;
  readonly bends: readonly Bend[];
}

/** Outlets at work, and the flows as they leave through them. */
export interface AtWork {
  readonly outlets: readonly OutletState[];
  readonly flows: readonly InflowFlow[];
}

export const outletsAtWork = (input: OutletInput): AtWork => {
  const mouths = mouthsOf(input);
  const { settled, groups } = sharedAmong(input, mouths);
  const outlets = mouths.map((mouth, i) => {
    const isBesideSpout = groups.some(
      (group) => group.includes(i) && group.some((j) => mouths[j].law.kind === 'spout'),
    );
    return stateOf(input, mouth, settled[i], isBesideSpout);
  });
  const together = groups.map((group) => group.map((i) => outlets[i]));
  return { outlets, flows: input.flows.map((flow) => divided(flow, together)) };
};

/** An outlet that can be reckoned with. */
interface OutletMouth extends Mouth {
  readonly outlet: OutletIndex;
  readonly law: OutletLaw;
  /** Lowest point of its rim. */
  readonly low: number;
  readonly strainer: Strainer | undefined;
  readonly below: PipeBelow | undefined;
  /** What it takes without its pipe. */
  readonly opens: Mouth['takes'];
}

const mouthsOf = (input: OutletInput): readonly OutletMouth[] =>
  input.tub.outlets.flatMap((_, outlet): readonly OutletMouth[] => {
    const rateMm3S = input.flows
      .flatMap(({ ends }) => ends)
      .reduce((sum, end) => sum + (end.kind === 'outlet' && end.outlet === outlet ? end.rateMm3S : 0), 0);
    const mouth = mouthOf(input, outlet);
    if (!mouth) return [];
    return [{ ...mouth, rateMm3S, ...(input.tub.outlets[outlet].shut ? { takes: () => 0 } : {}) }];
  });

/** An outlet by itself: from which level water runs in, and how much it takes there. Undefined where it cannot be reckoned with. */
export const mouthOf = (
  { tub, surface, liquid }: Pick<OutletInput, 'tub' | 'surface' | 'liquid'>,
  outlet: OutletIndex,
): Omit<OutletMouth, 'rateMm3S'> | undefined => {
  const { opening = NO_OPENING, panel, raised, strainer, spout } = tub.outlets[outlet];
  const rim = spout ? spoutPoints(tub, surface, outlet) : (rimPoints(surface).get(opening) ?? []);
  const face = surface.faces[panel];
  if (rim.length === 0 || !face?.usable) return undefined;
  const low = rim.reduce((least, i) => (surface.points[i][2] < surface.points[least][2] ? i : least));
  const upright = Math.max(0, face.frame.normal[2]);
  const law = lawOf(tub.outlets[outlet], Math.sqrt(Math.max(0, 1 - upright ** 2)));
  const lip = surface.points[low][2] + raised * upright;
  const { pipe } = tub.outlets[outlet];
  const below = pipe && pipeBelow(tub.outlets[outlet], pipe, liquid.viscosityCst);
  const opens = (head: number): number => capacityUnder(law, strainer, liquid, head);
  const takes = below ? (head: number): number => Math.min(opens(head), below.takes(lip + head)) : opens;
  return { outlet, law, low, strainer, lip, takes, below, opens };
};

/** mm3/s of outlet and strainer under a head: that over the rim is what is left of it behind the strainer. */
const capacityUnder = (law: OutletLaw, strainer: Strainer | undefined, liquid: LiquidData, head: number): number => {
  if (head <= 0 || !strainer) return law.takes(head);
  const lossAt = (rate: number): number => strainerLoss(strainer, rate, liquid).head;
  return law.takes(mostThat(head, (rim) => rim + lossAt(law.takes(rim)) <= head));
};

/** Outlets in one hollow of the plugged tub share its water; the others stand for themselves. */
const sharedAmong = ({ surface, plugged }: OutletInput, mouths: readonly OutletMouth[]): Shared => {
  const alone = mouths.map(({ lip, rateMm3S }): Settled => ({ rateMm3S, level: lip }));
  if (mouths.length < 2 || mouths.every(({ rateMm3S }) => rateMm3S <= 0)) return { settled: alone, groups: [] };
  const hasSpout = mouths.some(({ law }) => law.kind === 'spout');
  const pools = plugged.pools.flatMap((pool) => {
    // The edge of a spout is where the pool runs out: it lies beside it, at its level.
    const points = hasSpout ? [...pool.points, ...passPoints(surface, plugged.flood, pool)] : pool.points;
    const own = mouths.filter(({ low }) => points.includes(low));
    if (own.length < 2) return [];
    return joinedPools(
      surface,
      points,
      mouths.map(({ low }) => (own.some((mouth) => mouth.low === low) ? low : -1)),
    );
  });
  return shareLevel(mouths, pools);
};

/** The state of an outlet that takes its share; over the edge of a spout beside it a pool does not run over, but out. */
const stateOf = (
  input: OutletInput,
  mouth: OutletMouth,
  { rateMm3S, level }: Settled,
  isBesideSpout: boolean,
): OutletState => {
  const { surface, plugged, flows, liquid, tub } = input;
  const { outlet, low, lip, law, strainer: cloth, takes, below, opens } = mouth;
  const jet = law.kind === 'spout' ? spoutJet(input, outlet, rateMm3S) : undefined;
  // What comes down a face runs over its edge; what stands behind it stands to its level.
  const over = jet && !isBesideSpout ? jet.depth : law.headOf(rateMm3S);
  const strainer = cloth && strainerLoss(cloth, rateMm3S, liquid);
  const free = over + (strainer?.head ?? 0);
  // A pipe that is too small for the flow lets the water stand until it takes it.
  const held = below && rateMm3S > 0 && takes(free) < rateMm3S ? leastThat(1, (head) => takes(head) >= rateMm3S) : 0;
  const head = level < Infinity ? Math.max(free, held) : Infinity;
  const isOpen = isBesideSpout || law.kind === 'spout';
  const floodLevel = isOpen ? Infinity : Math.max(surface.points[low][2], plugged.flood.level[low]);
  const room = floodLevel - lip;
  const hollow = floodLevel > surface.points[low][2] && Number.isFinite(room);
  return {
    outlet,
    form: law.kind,
    lowest: surface.points[low],
    lip,
    rateMm3S,
    outletHead: over,
    headBand: rateMm3S > 0 ? law.bandOf?.(rateMm3S) : undefined,
    strainer,
    jet,
    pipe:
      below &&
      pipeState(
        below,
        { rateMm3S, level: lip + head, limits: hollow && below.takes(lip + room) < opens(room) ? 'pipe' : 'outlet' },
        liquid.viscosityCst,
      ),
    head,
    waterLevel: lip + head,
    floodLevel,
    capacityMm3S: hollow ? takes(room) : undefined,
    blockedAt: cloth && rateMm3S > 0 && hollow ? blockedShareAt(cloth, rateMm3S, liquid, room - over) : undefined,
    from: quartersOf(flows, tub.outlets[outlet].opening ?? NO_OPENING, rateMm3S > 0),
  };
};

/** The flow with what ends in outlets that share their water divided as they take it. */
const divided = (flow: InflowFlow, groups: readonly (readonly OutletState[])[]): InflowFlow => {
  if (groups.length === 0) return flow;
  const ends = groups.reduce<readonly InflowEnd[]>((known, group) => dividedAmong(known, group), flow.ends);
  return { ...flow, ends: [...ends].sort((p, q) => q.share - p.share) };
};

const dividedAmong = (ends: readonly InflowEnd[], group: readonly OutletState[]): readonly InflowEnd[] => {
  const isOwn = (end: InflowEnd): boolean => end.kind === 'outlet' && group.some(({ outlet }) => outlet === end.outlet);
  const own = ends.filter(isOwn);
  const taken = group.reduce((sum, { rateMm3S }) => sum + rateMm3S, 0);
  if (own.length === 0 || taken <= 0) return ends;
  const sumOf = (pick: (end: InflowEnd) => number): number => own.reduce((sum, end) => sum + pick(end), 0);
  const [share, rate] = [sumOf((end) => end.share), sumOf((end) => end.rateMm3S)];
  const parts = group
    .filter(({ rateMm3S }) => rateMm3S > 0)
    .map(({ outlet, rateMm3S }): InflowEnd => {
      const part = rateMm3S / taken;
      return { kind: 'outlet', outlet, share: share * part, rateMm3S: rate * part };
    });
  return [...ends.filter((end) => !isOwn(end)), ...parts];
};

/** Largest value up to `most` that passes. */
const mostThat = (most: number, passes: (value: number) => boolean): number =>
  passes(most) ? most : most - leastThat(most / 2, (less) => passes(Math.max(0, most - less)));

const quartersOf = (flows: readonly InflowFlow[], opening: number, gets: boolean): OutletState['from'] => {
  const sums = { left: 0, right: 0, front: 0, back: 0, around: 0 };
  let total = 0;
  for (const { routed } of flows) {
    for (const entry of routed?.entries ?? []) {
      if (entry.opening !== opening) continue;
      total += entry.flux;
      if (!entry.travel) sums.around += entry.flux;
      else if (Math.abs(entry.travel[0]) >= Math.abs(entry.travel[1]))
        sums[entry.travel[0] > 0 ? 'left' : 'right'] += entry.flux;
      else sums[entry.travel[1] > 0 ? 'front' : 'back'] += entry.flux;
    }
  }
  if (total === 0) return { ...sums, around: gets ? 1 : 0 };
  const share = (value: number): number => value / total;
  return {
    left: share(sums.left),
    right: share(sums.right),
    front: share(sums.front),
    back: share(sums.back),
    around: share(sums.around),
  };
};
