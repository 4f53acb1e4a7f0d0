import type {
  BendReading as BendReadingModel,
  LengthReading,
  MadePart,
  Panel,
  PanelIndex,
  SlopeReading,
  Strip,
  Tub,
} from '../../../analysis/model/tub.js';
import {
  isExistingFile,
  isGroup,
  type BendReading,
  type LegReading,
  type Made,
  type Ref,
} from '../../generated/ast.js';
import type { Indices } from '../indices.js';
import type { Lowering } from '../lowering.js';
import { panelOfPiece } from '../shop/pins.js';
import { reportWrongKind, targetOf, textOf } from '../references.js';
import { asAngle, asLength, asNumber, listed, POSITIVE } from '../values/coerce.js';

/** What the readings are of. */
type Stated = Pick<Tub, 'panels' | 'strips' | 'bends'>;

/** A part of which something is read, while its readings are evaluated. */
interface Reader {
  readonly lowering: Lowering;
  readonly indices: Indices;
  readonly stated: Stated;
  readonly name: string;
  /** Undefined: it is no strip. */
  readonly strip: Strip | undefined;
  /** All panels that bends join to it. */
  readonly part: ReadonlySet<PanelIndex>;
  /** Of all parts, by the panels of the bend. */
  readonly read: Map<string, BendReading>;
}

/** The parts that are cut and what was read of them; a reading that cannot be taken is reported and left out, the others stand. */
export const madePartsOf = (
  lowering: Lowering,
  nodes: readonly Made[],
  indices: Indices,
  stated: Stated,
): MadePart[] => {
  const first = new Map<string, Made>();
  const read = new Map<string, BendReading>();
  return nodes.flatMap((node): MadePart[] => {
    const made = madePart(lowering, node, { indices, stated, read });
    if (!made) return [];
    const { panels, strips } = stated;
    const { kind } = panels[made.panel];
    const key = kind.kind === 'leg' ? `strip ${strips[kind.strip].name}` : panels[made.panel].name;
    const before = first.get(key);
    if (!before) return [(first.set(key, node), made)];
    tellTwice(lowering, lowering.idOf(node), `What was read of \`${made.name}\``, lowering.idOf(before));
    return [];
  });
};

type Reading = Pick<Reader, 'indices' | 'stated' | 'read'>;

const madePart = (lowering: Lowering, node: Made, reading: Reading): MadePart | undefined => {
  const { indices, stated } = reading;
  const target = targetOf(node.part);
  if (target && (isGroup(target) || isExistingFile(target)))
    return reportWrongKind(lowering, node.part, 'a part of sheet');
  const panel = panelOfPiece(node.part, indices);
  if (panel === undefined) return undefined;
  const name = textOf(node.part);
  if (indices.roleOf(panel) === 'existing') return reportWrongKind(lowering, node.part, 'a part that is made');
  const { kind } = stated.panels[panel];
  const reader: Reader = {
    ...reading,
    lowering,
    name,
    part: joinedTo(stated, panel),
    strip: kind.kind === 'leg' ? stated.strips[kind.strip] : undefined,
  };
  const gauge = lowering.only(node, 'gauge', node.gauge, 'gauge within');
  const cutK = asNumber(
    lowering,
    lowering.only(node, 'cutK', node.cutK, 'cut with k'),
    `K that \`${name}\` was cut with`,
    {
      above: 0,
      atMost: 1,
    },
  );
  const tape = lowering.only(node, 'tape', node.tape, 'tape within');
  return {
    at: lowering.idOf(node, 'word'),
    name,
    panel,
    standingOn: node.stand && standAt(reader, node.stand),
    bends: bendReadings(reader, listed(lowering, node.bends, 'A bend that is read')),
    ...legReadings(reader, listed(lowering, node.legs, 'A panel that is read')),
    mayCorrect: lowering.only(node, 'correct', node.correct, 'may correct') !== undefined,
    ...(cutK !== undefined && { cutK }),
    gaugeWithin: gauge && asAngle(lowering, gauge, `Gauge of \`${name}\``, { atLeast: 0, below: 45 }),
    tapeWithin: tape && asLength(lowering, tape, `Tape of \`${name}\``, { atLeast: 0 }),
  };
};

/** The panels of parts that were cut with a K of their own know it: all that is drawn of them goes by it. */
export const asCut = (
  { panels, bends }: Pick<Stated, 'panels' | 'bends'>,
  made: readonly MadePart[],
): readonly Panel[] => {
  const known = new Map<PanelIndex, number>();
  for (const { panel, cutK } of made)
    if (cutK !== undefined) joinedTo({ bends }, panel).forEach((each) => known.set(each, cutK));
  if (known.size === 0) return panels;
  return panels.map((panel, i) => (known.has(i) ? { ...panel, cutK: known.get(i) } : panel));
};

const joinedTo = ({ bends }: Pick<Stated, 'bends'>, from: PanelIndex): ReadonlySet<PanelIndex> => {
  const found = new Set([from]);
  // A set goes on to what is added while it is walked.
  for (const panel of found)
    for (const { panels } of bends) if (panels.includes(panel)) panels.forEach((each) => found.add(each));
  return found;
};

const bendReadings = (reader: Reader, nodes: readonly BendReading[]): BendReadingModel[] => {
  const { lowering, read: first } = reader;
  return nodes.flatMap((node): BendReadingModel[] => {
    const panels = bendAt(reader, node);
    const about = `bend \`${node.first ? textOf(node.first) : '?'} ${node.second ? textOf(node.second) : '?'}\``;
    const bentTo = node.bentTo && asAngle(lowering, node.bentTo, `What ${about} was bent to`, { above: 0, below: 180 });
    const turn = node.turn
      ? asAngle(lowering, node.turn, `Reading of ${about}`, { atLeast: 0, below: 180 })
      : asAngle(lowering, node.opening, `Opening of ${about}`, { above: 0, atMost: 180 });
    const die = node.die && asLength(lowering, node.die, `Die of ${about}`, POSITIVE);
    if (!panels || turn === undefined) return [];
    const key = [...panels].sort((a, b) => a - b).join(' ');
    const before = first.get(key);
    if (before) {
      tellTwice(lowering, lowering.idOf(node, 'word'), `The reading of ${about}`, lowering.idOf(before, 'word'));
      return [];
    }
    first.set(key, node);
    const isOpening = node.turn === undefined;
    return [
      {
        at: lowering.idOf(node, 'word'),
        panels,
        turn: isOpening ? Math.PI - turn : turn,
        isOpening,
        bentTo,
        ...(die !== undefined && { die }),
      },
    ];
  });
};

/** The two panels of the bend that is meant, as it names them; one that the part does not have is reported. */
const bendAt = (reader: Reader, { first, second }: BendReading): readonly [PanelIndex, PanelIndex] | undefined => {
  const { lowering, indices, stated, name, part } = reader;
  const [a, b] = [indices.panelAt(first), indices.panelAt(second)];
  if (!first || !second || a === undefined || b === undefined) return undefined;
  const bend = stated.bends.find(({ panels: [p, q] }) => (p === a && q === b) || (p === b && q === a));
  if (bend && part.has(a)) return bend.panels;
  lowering.reports.add(
    'made/no-such-bend',
    lowering.idOf(first),
    `\`${name}\` has no bend between \`${textOf(first)}\` and \`${textOf(second)}\`, so this reading is of none; it needs two panels that one bend of \`${name}\` joins${bendsOf(reader)}`,
    { about: [indices.panelName(a), indices.panelName(b)] },
  );
  return undefined;
};

/** `: shelf chute, chute sump`. */
const bendsOf = ({ stated, part }: Reader): string => {
  const names = stated.bends.filter(({ panels: [a] }) => part.has(a)).map(({ name }) => `\`${name}\``);
  return names.length === 0 ? '' : `: ${names.join(', ')}`;
};

const legReadings = (reader: Reader, nodes: readonly LegReading[]): Pick<MadePart, 'lengths' | 'slopes'> => {
  const { lowering } = reader;
  const lengths: LengthReading[] = [];
  const slopes: SlopeReading[] = [];
  const first = new Map<string, LegReading>();
  for (const node of nodes) {
    const panel = legAt(reader, node.panel);
    const about = `panel \`${node.panel ? textOf(node.panel) : '?'}\``;
    const length = node.length && asLength(lowering, node.length, `Measure of ${about}`, POSITIVE);
    const slope = node.slope && asAngle(lowering, node.slope, `Slope of ${about}`, { atLeast: 0, atMost: 90 });
    if (panel === undefined || (length === undefined && slope === undefined)) continue;
    const key = `${length === undefined ? 'slope' : 'length'} ${panel}`;
    const before = first.get(key);
    const at = lowering.idOf(node, 'word');
    if (before) tellTwice(lowering, at, `The reading of ${about}`, lowering.idOf(before, 'word'));
    else if (length !== undefined && node.side) lengths.push({ at, panel, length, over: node.side });
    else if (slope !== undefined) slopes.push({ at, panel, slope });
    if (!before) first.set(key, node);
  }
  return { lengths, slopes };
};

/** The panel that a part stands on: a leg of a strip, or any panel of another part. */
const standAt = (reader: Reader, ref: Ref): PanelIndex | undefined => {
  const panel = reader.strip ? undefined : reader.indices.panelAt(ref);
  return panel !== undefined && reader.part.has(panel) ? panel : legAt(reader, ref);
};

/** A leg of the strip that was read. */
const legAt = ({ lowering, indices, stated, name, strip }: Reader, ref: Ref | undefined): PanelIndex | undefined => {
  const panel = indices.panelAt(ref);
  if (!ref || panel === undefined) return undefined;
  if (strip?.panels.includes(panel)) return panel;
  const needs = strip
    ? `a leg of \`${name}\`: ${strip.panels.map((leg) => `\`${stated.panels[leg].name}\``).join(', ')}`
    : 'a leg of a strip';
  lowering.reports.add(
    'made/not-of-part',
    lowering.idOf(ref),
    `\`${textOf(ref)}\` is no leg of \`${name}\`, so this says nothing of it; it needs to be ${needs}`,
    { about: [indices.panelName(panel)] },
  );
  return undefined;
};

const tellTwice = (lowering: Lowering, at: number, what: string, first: number): void =>
  lowering.reports.add('text/stated-twice', at, `${what} is stated again; it needs it once, the newest`, {
    related: [{ at: first, message: 'First stated here' }],
  });
