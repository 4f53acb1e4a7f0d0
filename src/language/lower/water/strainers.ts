/** Strainers over outlets and across cutouts: cloth, plates with holes, bars. */
import type { Fastener, Opening, Strainer as StrainerModel } from '../../../analysis/model/tub.js';
import type { Bolts, Strainer } from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { asLength, asNumber, POSITIVE } from '../values/coerce.js';

/** mm, level and up; undefined: no window. */
export const windowSize = (shape: Opening['shape']): readonly [number, number] | undefined =>
  shape.kind === 'window'
    ? [Math.hypot(shape.to[0] - shape.from[0], shape.to[1] - shape.from[1]), Math.abs(shape.to[2] - shape.from[2])]
    : undefined;

const plateOf = (lowering: Lowering, node: Strainer): StrainerModel['plate'] => {
  const stated = lowering.only(node, 'hole', node.hole);
  if (!stated) return undefined;
  const hole = asLength(lowering, stated, 'Holes of the strainer', POSITIVE);
  const pitch = asLength(lowering, lowering.only(node, 'pitch', node.pitch), 'Pitch of the holes', {
    above: hole ?? 0,
  });
  return hole === undefined || pitch === undefined ? undefined : { hole, pitch };
};

const barsOf = (lowering: Lowering, node: Strainer): StrainerModel['bars'] => {
  const stated = lowering.only(node, 'bar', node.bar);
  if (!stated) return undefined;
  const bar = asLength(lowering, stated, 'Bars of the strainer', POSITIVE);
  const gap = asLength(lowering, lowering.only(node, 'gap', node.gap), 'Gap between the bars', POSITIVE);
  return bar === undefined || gap === undefined ? undefined : { bar, gap };
};

/** `own`: the size of what it lies across, where the text states none. */
export const strainerOf = (
  lowering: Lowering,
  node: Strainer | undefined,
  own?: readonly [number, number],
): StrainerModel | undefined => {
  if (!node) return undefined;
  const size = lowering.only(node, 'size', node.size);
  const width = size ? asLength(lowering, size.width, 'Width of the strainer', POSITIVE) : own?.[0];
  const depth = size ? asLength(lowering, size.depth, 'Depth of the strainer', POSITIVE) : own?.[1];
  const [plate, bars] = [plateOf(lowering, node), barsOf(lowering, node)];
  const mesh = lowering.only(node, 'mesh', node.mesh);
  const aperture = lowering.only(node, 'aperture', node.aperture);
  const isCloth = node.hole.length === 0 && node.bar.length === 0;
  const kinds = [node.mesh.length + node.aperture.length + node.wire.length, node.hole.length, node.bar.length];
  if (kinds.filter((count) => count > 0).length > 1)
    lowering.reports.add(
      'text/stated-twice',
      lowering.idOf(node),
      'A strainer is of wire cloth, of a plate with holes or of bars; two of them are stated, and one needs to go',
    );
  if ((!size && !own) || (isCloth && !mesh && !aperture)) {
    lowering.reports.add(
      'outlet/no-cloth',
      lowering.idOf(node),
      'The strainer says too little; it needs a size and a `mesh` or an `aperture`, such as `mesh 80 size 180 by 80`',
    );
  }
  const meshPerInch = asNumber(lowering, mesh, 'Mesh of the strainer (wires per inch)', { above: 0, limit: 'mesh' });
  const strainer = {
    at: lowering.idOf(node),
    meshPerInch,
    ...(plate ? { plate } : {}),
    ...(bars ? { bars } : {}),
    // Thicker than they are apart, no wires could be woven.
    wire: asLength(lowering, lowering.only(node, 'wire', node.wire), 'Wire of the strainer', {
      above: 0,
      ...(meshPerInch !== undefined && { below: 25.4 / meshPerInch }),
    }),
    aperture: asLength(lowering, aperture, 'Aperture of the strainer', POSITIVE),
    passage: asLength(
      lowering,
      lowering.only(node, 'passage', node.passage),
      'Passage that the strainer protects',
      POSITIVE,
    ),
    bolted: boltsOf(lowering.only(node, 'bolted', node.bolted)),
  };
  const blocked = blockedShare(lowering, node);
  if (width === undefined || depth === undefined || blocked === undefined) return undefined;
  // What is refused is left out: one that nothing is known of would be taken as shut.
  if ((node.hole.length > 0 && !plate) || (node.bar.length > 0 && !bars)) return undefined;
  return { ...strainer, size: [width, depth], blocked };
};

/** Of the open area. A strainer that lets hardly anything through is no strainer: its head would grow beyond any tub. */
const MOST_BLOCKED = 0.95;

/** 0 where the text states none; undefined, and reported, where what it states is refused. */
const blockedShare = (lowering: Lowering, node: Strainer): number | undefined => {
  const stated = lowering.only(node, 'blocked', node.blocked);
  if (!stated) return 0;
  return asNumber(lowering, stated, 'Blocked share of the strainer', { atLeast: 0, atMost: MOST_BLOCKED });
};

const boltsOf = (bolts: Bolts | undefined): Fastener | undefined => {
  const thread = threadOf(bolts?.thread);
  return bolts && thread !== undefined ? { kind: 'screw', thread, sealed: bolts.sealed } : undefined;
};

/** 6 for `M6`. */
export const threadOf = (word: string | undefined): number | undefined => {
  const size = word === undefined ? NaN : Number(word.slice(1));
  return Number.isFinite(size) ? size : undefined;
};
