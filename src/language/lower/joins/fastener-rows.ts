import { rivetOf, RIVETS } from '../../../analysis/material/rivets.js';
import { screwOf, SCREWS } from '../../../analysis/material/screws.js';
import type { FastenerRow, Seam as SeamModel } from '../../../analysis/model/tub.js';
import type { Ref, Rivets, Seam, SeamBolts } from '../../generated/ast.js';
import { asLength, POSITIVE } from '../values/coerce.js';
import type { Lowering } from '../lowering.js';
import { textOf } from '../references.js';
import { memberNamed } from './seam-members.js';

/** Rivets or screws of a seam; of both, which is one too many, the rivets. */
export const fastenersOf = (lowering: Lowering, seam: Seam): Pick<SeamModel, 'fasteners'> => {
  const rivets = lowering.only(seam, 'rivets', seam.rivets);
  const bolts = lowering.only(seam, 'bolts', seam.bolts, 'bolted');
  if (rivets && bolts) {
    lowering.reports.add(
      'text/stated-twice',
      lowering.idOf(bolts),
      'The seam states `rivets` and `bolted`; it needs one of them',
    );
  }
  const row = rivets ? rivetsOf(lowering, rivets) : bolts && boltsOf(lowering, seam, bolts);
  return row ? { fasteners: row } : {};
};

const rivetsOf = (lowering: Lowering, rivets: Rivets): FastenerRow | undefined => {
  const every = asLength(lowering, rivets.every, 'Rivet pitch of the seam', POSITIVE);
  const size = asLength(lowering, rivets.diameter, 'Diameter of the rivets', POSITIVE);
  if (size !== undefined && !rivetOf(size)) {
    tellNoSize(lowering, rivets, `rivets of ${size} mm`, `${RIVETS.map(({ diameter }) => diameter).join(', ')} mm`);
    return undefined;
  }
  if (every === undefined || (rivets.diameter && size === undefined)) return undefined;
  return {
    at: lowering.idOf(rivets),
    kind: 'rivet',
    every,
    size,
    headsOn: undefined,
    nutsIn: undefined,
    drilled: rivets.drilled,
  };
};

const boltsOf = (lowering: Lowering, seam: Seam, bolts: SeamBolts): FastenerRow | undefined => {
  const every = asLength(lowering, bolts.every, 'Pitch of the screws', POSITIVE);
  const heads = lowering.only(bolts, 'heads', bolts.heads, 'heads on');
  const nuts = lowering.only(bolts, 'nuts', bolts.nuts, 'rivetnut in');
  const nutsIn = memberNamed(lowering, seam, nuts, 'Rivet nuts in');
  const headsOn = headsOf(lowering, seam, heads, nutsIn);
  const drilled = lowering.only(bolts, 'drilled', bolts.drilled, 'drilled on assembly') !== undefined;
  const thread = Number((bolts.thread ?? '').slice(1));
  const made = SCREWS.filter(({ rivetNut }) => !nuts || rivetNut).map((size) => `M${size.thread}`);
  if (!made.includes(`M${thread}`) || !screwOf(thread)) {
    tellNoSize(lowering, bolts, `${nuts ? 'rivet nuts' : 'screws'} ${bolts.thread}`, made.join(', '));
    return undefined;
  }
  if (every === undefined) return undefined;
  const hexNuts = bolts.hex.length > 0 ? ({ hexNuts: true } as const) : {};
  return { at: lowering.idOf(bolts), kind: 'screw', every, size: thread, headsOn, nutsIn, drilled, ...hexNuts };
};

/** Heads lie opposite the rivet nuts: a screw that goes in from the side of its nut holds nothing. */
const headsOf = (
  lowering: Lowering,
  seam: Seam,
  heads: Ref | undefined,
  nutsIn: 0 | 1 | undefined,
): 0 | 1 | undefined => {
  const opposite = nutsIn === undefined ? undefined : nutsIn === 0 ? 1 : 0;
  const stated = memberNamed(lowering, seam, heads, 'Heads on');
  if (!heads || stated === undefined || stated !== nutsIn) return stated ?? opposite;
  lowering.reports.add(
    'text/wrong-kind',
    lowering.idOf(heads),
    `Heads on \`${textOf(heads)}\` lie on the side of their own rivet nuts; they need to be on the other`,
  );
  return opposite;
};

const tellNoSize = (lowering: Lowering, node: Rivets | SeamBolts, has: string, known: string): void =>
  lowering.reports.add(
    'seam/no-such-size',
    lowering.idOf(node),
    `No sizes are known of ${has}, only of ${known}; the row is left out until it is one of these`,
  );
