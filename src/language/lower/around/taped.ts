import {
  survey,
  type OpenPoint,
  type Sight,
  type Surveyed,
  type SurveyPoint,
} from '../../../analysis/geometry/fitting/survey.js';
import { NOISE } from '../../../analysis/geometry/tolerance.js';
import { distance, type Vec3 } from '../../../analysis/geometry/vec.js';
import { TAPE_WITHIN } from '../../../analysis/model/shop/default-shop.js';
import { DOUBTFUL } from '../../../analysis/model/tolerance.js';
import type { TapedNet } from '../../../analysis/model/tub.js';
import { asRead, inMm } from '../../../analysis/model/wording.js';
import {
  isPoint,
  isTaped,
  isTapedLength,
  type Let,
  type Point,
  type Taped,
  type TapedLength,
  type TapedLine,
  type TubFile,
} from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { asLength, asPoint, listed, POSITIVE, rounded } from '../values/coerce.js';

type Node = Let | Point;
type SightNode = TapedLength | TapedLine;

/** The net of one file: its points, those that are told about last known from what was measured. */
interface Net {
  readonly file: TubFile;
  readonly nodes: readonly Node[];
  readonly points: readonly SurveyPoint[];
  readonly sightNodes: readonly SightNode[];
  readonly sights: readonly Sight[];
  /** ± mm. */
  readonly within: number;
  readonly surveyed: Surveyed | undefined;
}

/** Where a point is that is only told about: by the measures of its file, else where it was told to be. */
export const placeNear = (lowering: Lowering, point: Point): Vec3 | undefined => {
  const file = lowering.files.find((each) => each.statements?.includes(point));
  const about = aboutOf(lowering, point);
  const net = file && netOf(lowering, file);
  const index = net?.nodes.indexOf(point) ?? -1;
  if (index >= 0) return net?.surveyed?.points[index].place ?? about;
  lowering.reports.add(
    'taped/open',
    lowering.idOf(point),
    `Point \`${point.name}\` is told about, and nothing is measured to it; it needs lengths in \`taped\`, or \`=\` where it is known`,
    { about: [point.name], values: { measures_count: 0 } },
  );
  return about;
};

const aboutOf = (lowering: Lowering, point: Point): Vec3 | undefined =>
  lowering.keep(about, point, () => asPoint(lowering, point.about, `Point \`${point.name}\``));

const about = Symbol('about where points are');

/** What was taped, file by file, with what the text has wrong of it. */
export const tapedOf = (lowering: Lowering): TapedNet[] =>
  lowering.files.flatMap((file) => {
    const [first] = (file.statements ?? []).filter(isTaped);
    if (!first) return [];
    const net = netOf(lowering, file);
    const surveyed = net?.surveyed;
    if (!surveyed) return [];
    return [
      {
        at: lowering.idOf(first, 'word'),
        freedom: surveyed.freedom,
        points: net.nodes.flatMap((node, i) =>
          net.points[i].isFixed ? [] : [{ name: node.name, at: lowering.idOf(node), ...placeOf(surveyed, i) }],
        ),
        sights: net.sightNodes.map((node, i) => ({
          name: nameOf(node),
          at: lowering.idOf(node),
          kind: net.sights[i].kind,
          length: lengthIn(net.sights[i]),
          residual: surveyed.sights[i].residual,
          standardised: surveyed.sights[i].standardised,
        })),
      },
    ];
  });

const placeOf = ({ points }: Surveyed, i: number): { readonly place: Vec3; readonly deviations: Vec3 } => ({
  place: points[i].place,
  deviations: points[i].deviations,
});

const lengthIn = (sight: Sight): number => (sight.kind === 'length' ? sight.length : 0);

const nameOf = ({ from, to }: SightNode): string => `${from?.$refText ?? '?'} ${to?.$refText ?? '?'}`;

/** Worked out once; a point of it that is made from another is told as a round. */
const netOf = (lowering: Lowering, file: TubFile): Net | undefined => {
  const [first] = (file.statements ?? []).filter(isTaped);
  return first && lowering.once(first, 'taped', () => measuredNet(lowering, file));
};

const measuredNet = (lowering: Lowering, file: TubFile): Net => {
  const blocks = (file.statements ?? []).filter(isTaped);
  const sightNodes = blocks.flatMap((block) => listed(lowering, block.sights, 'A measure'));
  const nodes: Node[] = [];
  const points: SurveyPoint[] = [];
  const indexOf = (node: Node | undefined): number | undefined => {
    if (!node) return undefined;
    const known = nodes.indexOf(node);
    if (known >= 0) return known;
    const isAbout = isPoint(node) && node.about !== undefined && file.statements.includes(node);
    const place = isAbout ? aboutOf(lowering, node) : fixedPlace(lowering, node);
    if (!place) return undefined;
    points.push({ place, isFixed: !isAbout });
    return nodes.push(node) - 1;
  };
  const kept: SightNode[] = [];
  const sights: Sight[] = [];
  for (const node of sightNodes) {
    const sight = sightOf(lowering, node, indexOf);
    if (!sight) continue;
    kept.push(node);
    sights.push(sight);
  }
  const net = { file, nodes, points, sightNodes: kept, sights, within: withinOf(lowering, blocks) };
  return { ...net, surveyed: adjusted(lowering, net) };
};

const fixedPlace = (lowering: Lowering, node: Node): Vec3 | undefined => {
  const value = lowering.solve.valueOf(lowering, node);
  return value?.kind === 'point' ? value.value : undefined;
};

const sightOf = (
  lowering: Lowering,
  node: SightNode,
  indexOf: (node: Node | undefined) => number | undefined,
): Sight | undefined => {
  const length = isTapedLength(node)
    ? asLength(lowering, node.length, `Length \`${nameOf(node)}\``, POSITIVE)
    : undefined;
  const [from, to] = [indexOf(node.from?.ref), indexOf(node.to?.ref)];
  for (const end of ['from', 'to'] as const) {
    const target = node[end]?.ref;
    if (target && indexOf(target) === undefined && lowering.solve.valueOf(lowering, target)?.kind === 'number')
      lowering.reports.add(
        'unit/wrong',
        lowering.idOf(node, end),
        `\`${node[end]!.$refText}\` is no point; a measure needs two`,
      );
  }
  if (from === undefined || to === undefined) return undefined;
  if (from === to) {
    lowering.reports.add(
      'text/wrong-kind',
      lowering.idOf(node, 'to'),
      `\`${node.to!.$refText}\` is the same point twice; a measure needs two`,
    );
    return undefined;
  }
  if (!isTapedLength(node)) return node.kind ? { kind: node.kind, from, to } : undefined;
  return length === undefined ? undefined : { kind: 'length', from, to, length };
};

const withinOf = (lowering: Lowering, blocks: readonly Taped[]): number => {
  const all = blocks.flatMap((block) => lowering.only(block, 'within', block.within) ?? []);
  const stated = all.flatMap((each) => asLength(lowering, each, 'How far a tape is off (`within`)', POSITIVE) ?? []);
  return stated.length === 0 ? TAPE_WITHIN : Math.max(...stated);
};

/** Told once, where it is adjusted. */
const adjusted = (lowering: Lowering, net: Omit<Net, 'surveyed'>): Surveyed | undefined => {
  const { points, sights, within } = net;
  if (points.every(({ isFixed }) => isFixed) && sights.length === 0) return undefined;
  const outcome = survey({ points, sights, deviation: within / Math.sqrt(3) });
  if ('open' in outcome) return tellOpen(lowering, net, outcome.open);
  if ('apart' in outcome) return tellApart(lowering, net, outcome.apart.sight, outcome.apart.residual);
  const { surveyed } = outcome;
  tellWorst(lowering, net, surveyed);
  surveyed.points.forEach(({ place, other }, i) => {
    if (other) tellOther(lowering, net, i, [place, other]);
  });
  return surveyed;
};

const WAYS = ['to the right or left (x)', 'to the back or front (y)', 'up or down (z)'] as const;

const tellOpen = (lowering: Lowering, net: Omit<Net, 'surveyed'>, { point, axis, isOnLine }: OpenPoint): undefined => {
  const { name } = net.nodes[point];
  const has = net.sights.filter(({ from, to }) => from === point || to === point).length;
  const next = isOnLine
    ? 'the points that it is taped from lie on one line; it needs a length from a point beside that line'
    : axis === 2
      ? 'it needs one more measure, such as `level` to a point of known height'
      : 'it needs one more measure, such as a length from a third point';
  lowering.reports.add(
    'taped/open',
    lowering.idOf(net.nodes[point]),
    `Point \`${name}\` has ${has} measures, which leave it free to move ${WAYS[axis]}: ${next}`,
    { about: [name], values: { measures_count: has } },
  );
  return undefined;
};

/** Share by which measures that check one another alone differ by round-off and the bow of their circles. */
const NO_WORSE = 0.02;

/** The measure that fits worst: where nothing checks it because all is used up, the lengths do not meet. */
const tellWorst = (lowering: Lowering, net: Omit<Net, 'surveyed'>, { sights, freedom }: Surveyed): void => {
  const size = (i: number): number => (freedom > 0 ? Math.abs(sights[i].standardised) : Math.abs(sights[i].residual));
  const worst = sights.reduce((most, _, i) => (size(i) > size(most) ? i : most), 0);
  const found = sights[worst];
  if (!found) return;
  const sight = net.sights[worst];
  if (freedom <= 0 && Math.abs(found.residual) > net.within * (1 + NOISE)) {
    tellApart(
      lowering,
      net,
      worst,
      sights.reduce((sum, { residual }) => sum + Math.abs(residual), 0),
    );
  } else if (freedom > 0 && Math.abs(found.standardised) > DOUBTFUL) {
    const byOthers = lengthByOthers(net, worst);
    const offOthers = sight.kind === 'length' && byOthers !== undefined ? sight.length - byOthers : found.offOthers;
    const needs = sight.kind === 'length' ? `; these make it ${inMm(sight.length - offOthers)}` : '';
    const alike = sights.flatMap((_, i) => (i !== worst && size(i) > size(worst) * (1 - NO_WORSE) ? [i] : []));
    const others = countedOnce(alike.map((i) => toldShortly(net, i)));
    const next =
      alike.length === 0
        ? 'measure it again first'
        : `nothing tells it from ${others}, which fit as badly: any one of these ${alike.length + 1} may be wrong, so measure them all again`;
    lowering.reports.add(
      'taped/doubtful',
      lowering.idOf(net.sightNodes[worst]),
      `${toldSight(net, worst)} and misses what all others say by ${inMm(Math.abs(offOthers))}, ${rounded(Math.abs(found.standardised))} times what it is worth${needs}; ${next}`,
      { about: [], values: { off_mm: Math.abs(offOthers), standardised: Math.abs(found.standardised) } },
    );
  }
};

/** The length that all other measures give, worked out anew without it; undefined where they leave it open. */
const lengthByOthers = ({ points, sights, within }: Omit<Net, 'surveyed'>, i: number): number | undefined => {
  const others = sights.filter((_, k) => k !== i);
  const outcome = survey({ points, sights: others, deviation: within / Math.sqrt(3) });
  if (!('surveyed' in outcome)) return undefined;
  const { from, to } = sights[i];
  return distance(outcome.surveyed.points[from].place, outcome.surveyed.points[to].place);
};

/** One name may stand for several measures: taped again, or taped and levelled. */
const toldShortly = ({ sightNodes, sights }: Omit<Net, 'surveyed'>, i: number): string => {
  const sight = sights[i];
  return `\`${nameOf(sightNodes[i])}\` (${sight.kind === 'length' ? asRead(sight.length) : sight.kind})`;
};

/** What is told alike once, with how often it was measured. */
const countedOnce = (all: readonly string[]): string =>
  [...new Set(all)]
    .map((told) => {
      const count = all.filter((each) => each === told).length;
      return count === 1 ? told : `${told}, ${count} times`;
    })
    .join(', ');

const toldSight = ({ sightNodes, sights }: Omit<Net, 'surveyed'>, i: number): string => {
  const [told, sight] = [`\`${nameOf(sightNodes[i])}\``, sights[i]];
  return sight.kind === 'length'
    ? `${told} is taped as ${asRead(sight.length)}`
    : `${told} is said to be ${sight.kind}`;
};

const tellApart = (lowering: Lowering, net: Omit<Net, 'surveyed'>, i: number, residual: number): undefined => {
  lowering.reports.add(
    'taped/apart',
    lowering.idOf(net.sightNodes[i]),
    `${toldSight(net, i)}, and what else was measured of these points leaves ${inMm(Math.abs(residual))} between them: they do not meet; one of the measures is wrong`,
    { about: [], values: { apart_mm: Math.abs(residual), within_mm: net.within } },
  );
  return undefined;
};

const tellOther = (
  lowering: Lowering,
  net: Omit<Net, 'surveyed'>,
  i: number,
  [place, other]: readonly [Vec3, Vec3],
): void => {
  const { name } = net.nodes[i];
  const about = net.points[i].place;
  if (2 * distance(about, place) < distance(about, other)) return;
  lowering.reports.add(
    'taped/two-places',
    lowering.idOf(net.nodes[i]),
    `Point \`${name}\` is taken at (${place.map((each) => rounded(each)).join(', ')}), nearer to where it is told about; at (${other.map((each) => rounded(each)).join(', ')}) it fits as well; one more measure decides`,
    { about: [name], values: { between_mm: distance(place, other) } },
  );
};
