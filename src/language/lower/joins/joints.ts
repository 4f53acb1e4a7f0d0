import { SAME_POINT } from '../../../analysis/geometry/tolerance.js';
import type {
  EdgeRef,
  Hem as HemModel,
  Rim as RimModel,
  Seam as SeamModel,
  SeamMember,
  SeamStyle,
  StatedBend,
  Tabs as TabsModel,
} from '../../../analysis/model/tub.js';
import {
  isStrip,
  type Bend,
  type Flange,
  type Hem,
  type Ref,
  type Rim,
  type Seam,
  type Strip,
  type Tabs,
} from '../../generated/ast.js';
import type { Indices } from '../indices.js';
import type { Lowering } from '../lowering.js';
import { edgeOf, namesEdge, type NamedEdge } from '../panels/edges.js';
import { isPanelNode, nameOf, reportWrongKind, targetOf, textOf } from '../references.js';
import { memberNamed } from './seam-members.js';
import { fastenersOf } from './fastener-rows.js';
import { asDimension, asLength, asNumber, NOT_NEGATIVE, POSITIVE } from '../values/coerce.js';

interface BendOptions {
  readonly $type: string;
  readonly radius?: Bend['radius'];
  readonly k?: Bend['k'];
}

const bendOptions = (
  lowering: Lowering,
  node: Bend | Flange | Strip['legs'][number],
  name: string,
): Pick<StatedBend, 'radius' | 'kFactor'> => ({
  radius: asLength(
    lowering,
    lowering.only(node, 'radius', (node as BendOptions).radius),
    `Radius of ${name}`,
    NOT_NEGATIVE,
  ),
  kFactor: asNumber(lowering, lowering.only(node, 'k', (node as BendOptions).k), `K of ${name}`, {
    above: 0,
    atMost: 1,
  }),
});

/** The bends between the legs of a strip; a leg's `radius` and `k` are those of the bend at its start. */
export const stripBends = (lowering: Lowering, strip: Strip, indices: Indices): StatedBend[] =>
  strip.legs.slice(1).flatMap((leg, i) => {
    const [before, after] = [indices.panelOf(strip.legs[i]), indices.panelOf(leg)];
    const options = bendOptions(lowering, leg, `the bend before leg \`${leg.name}\``);
    if (before === undefined || after === undefined || indices.roleOf(before) === 'existing') return [];
    return [
      {
        name: `${nameOf(strip.legs[i])} ${nameOf(leg)}`,
        at: lowering.idOf(leg),
        panels: [before, after],
        ...options,
        origin: 'strip',
      },
    ];
  });

export const flangeBend = (lowering: Lowering, flange: Flange, indices: Indices): StatedBend | undefined => {
  const options = bendOptions(lowering, flange, `flange \`${flange.name}\``);
  const own = indices.panelOf(flange);
  const root = own === undefined ? undefined : edgeOf(lowering, flange.edge);
  const parent = root && indices.panelOf(root.node);
  if (own === undefined || parent === undefined) return undefined;
  if (!mayBend(lowering, flange, indices, [parent, own])) return undefined;
  return {
    name: `${nameOf(root!.node)} ${nameOf(flange)}`,
    at: lowering.idOf(flange),
    panels: [parent, own],
    ...options,
    origin: 'flange',
  };
};

export const statedBend = (lowering: Lowering, bend: Bend, indices: Indices): StatedBend | undefined => {
  const [first, second] = [indices.panelAt(bend.first), indices.panelAt(bend.second)];
  const options = bendOptions(lowering, bend, 'the bend');
  if (first === undefined || second === undefined) return undefined;
  if (first === second) {
    lowering.reports.add(
      'text/wrong-kind',
      lowering.idOf(bend.second),
      `\`${textOf(bend.second)}\` is the same panel twice; a bend needs two`,
    );
    return undefined;
  }
  if (!mayBend(lowering, bend, indices, [first, second])) return undefined;
  return {
    name: `${indices.panelName(first)} ${indices.panelName(second)}`,
    at: lowering.idOf(bend),
    panels: [first, second],
    ...options,
    origin: 'statement',
  };
};

/** Existing things are bent already; what belongs to two of them is not one piece. */
const mayBend = (
  lowering: Lowering,
  node: Bend | Flange,
  indices: Indices,
  [first, second]: readonly [number, number],
): boolean => {
  if (indices.bodyOf(first) === indices.bodyOf(second)) return indices.roleOf(first) !== 'existing';
  lowering.reports.add(
    'group/not-joined',
    lowering.idOf(node),
    `\`${indices.panelName(first)}\` and \`${indices.panelName(second)}\` belong to different things, so they cannot be one piece; they need a seam`,
    { about: [indices.panelName(first), indices.panelName(second)] },
  );
  return false;
};

/** A seam between things that are not of one purpose; what cannot be is reported, and the seam is left out. */
const maySeam = (lowering: Lowering, seam: Seam, indices: Indices, members: readonly SeamMember[]): boolean => {
  const panels = members.map((member) => member.panels[0]);
  const [a, b] = members.map(({ name }) => `\`${name}\``);
  const roles = panels.map(indices.roleOf);
  const about = members.map(({ name }) => name);
  if (roles.includes('existing')) {
    lowering.reports.add(
      'group/not-joined',
      lowering.idOf(seam),
      `${roles[0] === 'existing' ? a : b} stands there already and is not made, so a seam to it is not planned; fix the tub to it in another way`,
      { about },
    );
    return false;
  }
  const isFast =
    seam.weld.length + seam.solder.length + seam.rivets.length + seam.spots.length + seam.sealant.length > 0;
  if (isFast && roles.includes('removable') && indices.bodyOf(panels[0]) !== indices.bodyOf(panels[1])) {
    lowering.reports.add(
      'group/not-removable',
      lowering.idOf(seam),
      `${roles[0] === 'removable' ? a : b} is to come out, and this seam holds it to ${roles[0] === 'removable' ? b : a} for good; one of the two needs to go`,
      { about },
    );
    return false;
  }
  return true;
};

const edgeRef = (lowering: Lowering, ref: Ref, edge: NamedEdge | undefined, indices: Indices): EdgeRef | undefined => {
  const panel = edge && indices.panelOf(edge.node);
  return panel === undefined ? undefined : { panel, edge: edge!.edge, at: lowering.idOf(ref) };
};

export const rimOf = (lowering: Lowering, rim: Rim, indices: Indices): RimModel | undefined => {
  const edge = rim.edge && edgeRef(lowering, rim.edge, edgeOf(lowering, rim.edge), indices);
  const hem = rim.hem && hemOf(lowering, rim.hem);
  return edge && { at: lowering.idOf(rim), edge, hem };
};

const hemOf = (lowering: Lowering, hem: Hem): HemModel | undefined => {
  const length = asLength(lowering, hem.length, 'Length of the hem', POSITIVE);
  const gap = asLength(lowering, lowering.only(hem, 'gap', hem.gap), 'Gap of the hem', POSITIVE);
  const turned = lowering.only(hem, 'turned', hem.turned) ?? 'dry';
  if (length === undefined || hem.kind === undefined) return undefined;
  if (hem.kind === 'open' && hem.gap.length === 0) {
    lowering.reports.add(
      'rim/no-gap',
      lowering.idOf(hem),
      'An open hem states no gap; it needs one such as `gap 2 mm`',
    );
  }
  return { kind: hem.kind, length, gap: hem.kind === 'open' ? (gap ?? 0) : 0, turned };
};

export const seamOf = (lowering: Lowering, seam: Seam, indices: Indices): SeamModel | undefined => {
  const [extra] = seam.more;
  if (extra) {
    lowering.reports.add(
      'text/wrong-kind',
      lowering.idOf(extra),
      `\`${textOf(extra)}\` is a third part of this seam, and only faces that are bolted flat on one (\`bolted\`, \`gasket\`) may be several; it needs a seam of its own`,
    );
  }
  const [first, second] = [memberOf(lowering, seam.first, indices), memberOf(lowering, seam.second, indices)];
  const name = 'the seam';
  const options = {
    style: styleOf(lowering, seam),
    weld: lowering.only(seam, 'weld', seam.weld),
    sealant: asLength(lowering, lowering.only(seam, 'sealant', seam.sealant), `Sealant of ${name}`, POSITIVE),
    solder: lowering.only(seam, 'solder', seam.solder) !== undefined,
    ...fastenersOf(lowering, seam),
    tabs: tabsOf(lowering, seam, lowering.only(seam, 'tabs', seam.tabs)),
    spots: asNumber(lowering, lowering.only(seam, 'spots', seam.spots), `Spots of ${name}`, {
      atLeast: 1,
      whole: true,
      limit: 'spots',
    }),
    passage: lowering.only(seam, 'passage', seam.passage, 'open') !== undefined || undefined,
    clampAtMostN: asDimension(
      lowering,
      lowering.only(seam, 'clamp', seam.clamp, 'clamp at most'),
      'force',
      `Clamp of ${name}`,
      POSITIVE,
    ),
    gapAtMost: asLength(lowering, lowering.only(seam, 'gap', seam.gap, 'gap at most'), `Gap of ${name}`, NOT_NEGATIVE),
  };
  if (!first || !second || !maySeam(lowering, seam, indices, [first, second])) return undefined;
  return { name: `${first.name} ${second.name}`, at: lowering.idOf(seam), members: [first, second], ...options };
};

const styleOf = (lowering: Lowering, seam: Seam): SeamStyle => {
  const lap = lowering.only(seam, 'lap', seam.lap);
  const style = lowering.only(seam, 'style', seam.style, 'corner or over');
  const by = asLength(lowering, lap?.by, 'Lap of the seam', { above: SAME_POINT });
  const under = memberNamed(lowering, seam, lap?.under, 'Laps on');
  if (lap && style) {
    lowering.reports.add(
      'text/stated-twice',
      lowering.idOf(lap),
      `The seam states \`lap\` and \`${style}\`; it needs one of them`,
    );
  }
  if (by !== undefined) return { kind: 'lap', by, lapping: under === 0 ? 1 : 0 };
  return { kind: style ?? 'corner' };
};

export const memberOf = (lowering: Lowering, ref: Ref | undefined, indices: Indices): SeamMember | undefined => {
  const target = targetOf(ref);
  if (!ref || !target) return undefined;
  const at = lowering.idOf(ref);
  if (isStrip(target) && !(ref.edge === 'start' || ref.edge === 'end')) {
    const panels = target.legs.flatMap((leg) => indices.panelOf(leg) ?? []);
    return panels.length === 0 ? undefined : { name: textOf(ref), at, panels, edge: undefined };
  }
  if (!isStrip(target) && !isPanelNode(target))
    return reportWrongKind(lowering, ref, 'a panel, a strip or an edge of one');
  if (!namesEdge(ref)) {
    const panel = indices.panelAt(ref);
    return panel === undefined ? undefined : { name: indices.panelName(panel), at, panels: [panel], edge: undefined };
  }
  const edge = edgeRef(lowering, ref, edgeOf(lowering, ref), indices);
  return edge && { name: textOf(ref), at, panels: [edge.panel], edge };
};

const tabsOf = (lowering: Lowering, seam: Seam, tabs: Tabs | undefined): TabsModel | undefined => {
  if (!tabs) return undefined;
  const on = tabs.loose ? 'loose' : memberNamed(lowering, seam, tabs.on, 'Tabs on');
  const wide = asLength(lowering, tabs.wide, 'Width of the tabs', POSITIVE);
  const deep = asLength(lowering, tabs.deep, 'Depth of the tabs', POSITIVE);
  const every = asLength(lowering, tabs.every, 'Pitch of the tabs', POSITIVE);
  const inset = asLength(lowering, lowering.only(tabs, 'inset', tabs.inset), 'Inset of the tabs', NOT_NEGATIVE) ?? 0;
  const margin = asLength(lowering, lowering.only(tabs, 'margin', tabs.margin), 'Margin of the tabs', NOT_NEGATIVE);
  if (on === undefined || wide === undefined || deep === undefined || every === undefined) return undefined;
  return { at: lowering.idOf(tabs), on, wide, deep, every, inset, margin };
};
