import { zeroBetween } from '../../geometry/numeric/zero-of.js';
import type { Vec3 } from '../../geometry/vec.js';
import type { OutletIndex, Strainer, Tub } from '../../model/tub.js';
import type { Drainage } from '../flow/drainage.js';
import type { InflowFlow } from '../flow/inflows.js';
import type { LiquidData } from '../flow/liquids.js';
import { leastThat } from '../../geometry/numeric/least-that.js';
import { lawOf, type OutletLaw } from './outlet-law.js';
import { NO_OPENING, rimPoints } from '../capacity.js';
import { pipeBelow, pipeState, type PipeBelow, type PipeState } from '../pipe/outlet-pipe.js';
import { fallenFrom, spoutJet, spoutPoints, type SpoutJet } from './spout.js';
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
  /** Of a spout: what of it comes down on the tub again. */
  readonly againMm3S: number;
  /** With its part of what runs over the rim because the outlets do not take it. */
  readonly comesMm3S: number;
  /** Head over the lip under which it would take all of that, mm. */
  readonly headNeeded: number;
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
  readonly flows: readonly InflowFlow[];
  /** Outlets that lie in a hollow and are open. */
  readonly settled: readonly Settled[];
  readonly liquid: LiquidData;
  /** On which they were followed. */
  readonly net: FlowNet;
  readonly bends: readonly Bend[];
}

/** What an outlet takes among all ways of the water. */
export interface Settled {
  readonly outlet: OutletIndex;
  readonly rateMm3S: number;
  /** With its part of what runs over the rim for want of outlets. */
  readonly comesMm3S: number;
  /** Level of the water that it takes from; undefined where none stands over it. */
  readonly level: number | undefined;
  /** The same for outlets that take from one water. */
  readonly group: number;
}

/** States of all outlets that can be reckoned with: those of the network as it has them, the others take what runs to them. */
export const outletsAtWork = (input: OutletInput): readonly OutletState[] =>
  input.tub.outlets.flatMap((_, outlet): readonly OutletState[] => {
    const mouth = mouthOf(input, outlet);
    if (!mouth) return [];
    const settled = ofAllChambers(input.settled.filter((each) => each.outlet === outlet));
    const isBesideSpout =
      settled?.level !== undefined &&
      input.settled.some(
        (other) =>
          other.group === settled.group &&
          other.level !== undefined &&
          input.tub.outlets[other.outlet].spout !== undefined,
      );
    return [stateOf(input, mouth, settled ?? aloneAt(input, outlet), isBesideSpout)];
  });

/** An outlet that takes from several chambers, by the highest of their levels. */
const ofAllChambers = (parts: readonly Settled[]): (Settled & { readonly isParted?: boolean }) | undefined => {
  if (parts.length < 2) return parts.at(0);
  const levelOf = ({ level = -Infinity }: Settled): number => level;
  const highest = parts.reduce((most, part) => (levelOf(part) > levelOf(most) ? part : most));
  return {
    ...highest,
    rateMm3S: parts.reduce((sum, { rateMm3S }) => sum + rateMm3S, 0),
    comesMm3S: parts.reduce((sum, { comesMm3S }) => sum + comesMm3S, 0),
    isParted: true,
  };
};

const aloneAt = (input: OutletInput, outlet: OutletIndex): Settled => {
  const rateMm3S = input.flows
    .flatMap(({ ends }) => ends)
    .reduce(
      (sum, end) => sum + (end.kind === 'outlet' && end.outlet === outlet ? end.rateMm3S : 0),
      fallenFrom(input, outlet),
    );
  return { outlet, rateMm3S, comesMm3S: rateMm3S, level: undefined, group: -1 };
};

/** An outlet that can be reckoned with. */
interface OutletMouth {
  readonly outlet: OutletIndex;
  readonly law: OutletLaw;
  /** Lowest point of its rim. */
  readonly low: number;
  /** Level from which water runs in, mm. */
  readonly lip: number;
  readonly strainer: Strainer | undefined;
  readonly below: PipeBelow | undefined;
  /** What it takes without its pipe. */
  readonly opens: OutletMouth['takes'];
  /** mm3/s that it takes under a head over its lip, strainer and all; never falls with the head. */
  readonly takes: (head: number) => number;
}

/** An outlet by itself: from which level water runs in, and how much it takes there. Undefined where it cannot be reckoned with. */
export const mouthOf = (
  { tub, surface, liquid }: Pick<OutletInput, 'tub' | 'surface' | 'liquid'>,
  outlet: OutletIndex,
): OutletMouth | undefined => {
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
  const opens = keptByHead((head) => capacityUnder(law, strainer, liquid, head));
  // What a pipe takes never falls with the level: where it takes all from the lip on, it need not be worked out.
  const atLip = below?.takes(lip) ?? Infinity;
  const takes = (head: number): number => {
    const free = opens(head);
    return below && free > atLip ? Math.min(free, below.takes(lip + head)) : free;
  };
  return { outlet, law, low, strainer, lip, takes, below, opens };
};

/** The same heads are asked for again and again while levels are worked out. */
const keptByHead = (takes: (head: number) => number): ((head: number) => number) => {
  const known = new Map<number, number>();
  return (head) => {
    const kept = known.get(head);
    if (kept !== undefined) return kept;
    if (known.size >= MOST_KEPT) known.clear();
    const value = takes(head);
    known.set(head, value);
    return value;
  };
};

const MOST_KEPT = 256;

/** mm3/s of outlet and strainer under a head: that over the rim is what is left of it behind the strainer. */
const capacityUnder = (law: OutletLaw, strainer: Strainer | undefined, liquid: LiquidData, head: number): number => {
  if (head <= 0 || !strainer) return law.takes(head);
  const leftOver = (rim: number): number => head - rim - strainerLoss(strainer, law.takes(rim), liquid).head;
  const atRim = leftOver(head);
  return law.takes(atRim >= 0 ? head : zeroBetween(leftOver, [0, head], [head, atRim]));
};

/** The state of an outlet that takes its share; over the edge of a spout beside it a pool does not run over, but out. */
const stateOf = (
  input: OutletInput,
  mouth: OutletMouth,
  { rateMm3S, comesMm3S, level, isParted }: Settled & { readonly isParted?: boolean },
  isBesideSpout: boolean,
): OutletState => {
  const { surface, plugged, flows, liquid, tub } = input;
  const { outlet, low, lip, law, strainer: cloth, takes, below, opens } = mouth;
  const jet = law.kind === 'spout' ? spoutJet(input, outlet, rateMm3S) : undefined;
  // What comes down a face runs over its edge; what stands behind it stands to its level.
  const over = jet && !isBesideSpout && !jet.isCrest ? jet.depth : law.headOf(rateMm3S);
  const strainer = cloth && strainerLoss(cloth, rateMm3S, liquid);
  // Over one that is shut, or that takes from several chambers, the water stands as it does there.
  const isOfChamber = isParted === true || tub.outlets[outlet].shut;
  const stands = isOfChamber && level !== undefined ? Math.max(0, level - lip) : undefined;
  const head = level === Infinity ? Infinity : (stands ?? headFor(mouth, liquid, rateMm3S, over));
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
    againMm3S: fallenFrom(input, outlet),
    comesMm3S,
    headNeeded: comesMm3S > rateMm3S ? headFor(mouth, liquid, comesMm3S) : head,
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
    blockedAt:
      cloth && comesMm3S > 0 && hollow
        ? blockedShareAt(cloth, comesMm3S, liquid, room - law.headOf(comesMm3S))
        : undefined,
    from: quartersOf(flows, tub.outlets[outlet].opening ?? NO_OPENING, rateMm3S > 0),
  };
};

/** Head over its lip under which an outlet takes a flow: over its rim and through its strainer; a pipe that is too small lets the water stand. */
const headFor = (
  { law, strainer, below, takes }: OutletMouth,
  liquid: LiquidData,
  rateMm3S: number,
  over = law.headOf(rateMm3S),
): number => {
  const free = over + (strainer ? strainerLoss(strainer, rateMm3S, liquid).head : 0);
  const isHeld = below && rateMm3S > 0 && takes(free) < rateMm3S;
  return isHeld
    ? Math.max(
        free,
        leastThat(1, (head) => takes(head) >= rateMm3S),
      )
    : free;
};

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
