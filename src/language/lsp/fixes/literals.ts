import { AstUtils, type AstNode } from 'langium';
import type { Finding } from '../../../analysis/model/finding.js';
import type { Analysis } from '../../analyse.js';
import {
  isFraction,
  isLeg,
  isLet,
  isNamed,
  isQuantity,
  isShop,
  isStatement,
  isStrip,
  isUnits,
  type Fraction,
  type Leg,
  type Let,
  type Quantity,
  type Statement,
  type TubFile,
} from '../../generated/ast.js';
import { gridsOf } from '../../solve/neat-values.js';
import { ownPlace } from './text-fixes.js';
import { statementsOf } from '../../lower/text/statements.js';
import { nameOf as fullNameOf } from '../../lower/references.js';

/** A number that stands in the text and could be another. */
export interface Literal {
  readonly node: Quantity | Fraction;
  readonly value: number;
  /** It belongs to the statement at which the finding stands. */
  readonly isOwn: boolean;
  /** Steps in one in which it is stated, the coarsest first. */
  readonly grids: readonly number[];
  /** What it may be, where its builder leaves it free. */
  readonly range: FreeRange | undefined;
  /** `length of \`shelf\``, `\`fall\``. */
  readonly name: string;
}

/** Of a literal, in its own unit; a minus sign before it belongs to neither. */
export interface FreeRange {
  readonly low: number;
  readonly high: number;
  readonly step: number | undefined;
  /** From where steps are counted. */
  readonly origin: number;
}

/** The numbers that most likely decide a finding: those of the statement it stands at, of the values that statement uses,
 *  then of the other statements it is about; of a leg also where its strip starts and how wide it is. Only numbers of the open text, each once. */
export const literalsBehind = (finding: Finding, analysis: Analysis): readonly Literal[] => {
  const found = new Map<AstNode, Literal>();
  const own = statementAround(ownPlace(finding, analysis)?.node);
  const others = statementsNamed(finding.about, analysis);
  const add = (literals: readonly Found[], isOwn: boolean): void => {
    for (const literal of literals) {
      const range = rangeOf(literal.node, analysis);
      if (!found.has(literal.node)) found.set(literal.node, { ...literal, isOwn, range });
    }
  };
  if (own) add(literalsOf(own, analysis), true);
  for (const statement of others) add(literalsOf(statement, analysis), false);
  for (const strip of new Set([own, ...others].map((each) => each?.$container).filter(isStrip))) {
    for (const part of [strip.from, strip.width]) add(literalsOf(part, analysis, strip), false);
  }
  return [...found.values()];
};

const rangeOf = (node: AstNode, { free }: Analysis): FreeRange | undefined => {
  const found = free.find(({ literal }) => literal === node);
  if (!found) return undefined;
  const { low, high, sign, step } = found;
  return sign < 0 ? { low: -high, high: -low, step, origin: -low } : { low, high, step, origin: low };
};

type Found = Omit<Literal, 'isOwn' | 'range'>;

type Owner = Statement | Leg;

/** A leg rather than its whole strip. */
const statementAround = (node: AstNode | undefined): Owner | undefined =>
  AstUtils.getContainerOfType(node, (each): each is Owner => isLeg(each) || isStatement(each));

const statementsNamed = (names: readonly string[], { document }: Analysis): readonly Owner[] => {
  const wanted = new Set(names.flatMap((name) => name.split(' ')));
  return [...statementsOf(document.parseResult.value)].flatMap((statement): readonly Owner[] => {
    if (isStrip(statement)) return (statement.legs ?? []).filter((leg) => wanted.has(fullNameOf(leg)));
    return 'name' in statement && statement.name !== undefined && wanted.has(fullNameOf(statement)) ? [statement] : [];
  });
};

/** Numbers below a node, and those of the values it uses. */
const literalsOf = (part: AstNode, analysis: Analysis, owner = part as Owner): readonly Found[] => {
  const own: Found[] = [];
  const used: Let[] = [];
  for (const node of AstUtils.streamAst(part)) {
    if (isNumber(node)) own.push(literal(node, owner));
    const target = isNamed(node) ? node.ref?.ref : undefined;
    if (isLet(target)) used.push(target);
  }
  return [...own, ...used.flatMap((each) => ofLet(each, analysis, 0))].filter(isFree);
};

/** A coordinate of 0 is where its builder began to measure. */
const isFree = ({ node, value }: Found): boolean =>
  Number.isFinite(value) && (value !== 0 || !/^[xyz]$/.test(node.$containerProperty ?? ''));

/** A `let` may stand on others: its own numbers, and theirs. */
const ofLet = (node: Let, analysis: Analysis, depth: number): readonly Found[] => {
  if (depth > 4 || AstUtils.getDocument(node) !== analysis.document) return [];
  return AstUtils.streamAst(node)
    .toArray()
    .flatMap((each): readonly Found[] => {
      if (isNumber(each)) return [literal(each, node)];
      const target = isNamed(each) ? each.ref?.ref : undefined;
      return isLet(target) && target !== node ? ofLet(target, analysis, depth + 1) : [];
    });
};

const isNumber = (node: AstNode): node is Quantity | Fraction => isQuantity(node) || isFraction(node);

const literal = (node: Quantity | Fraction, owner: Owner): Found => ({
  node,
  value: node.value,
  grids: gridsOf(node, { whole: WHOLE.has(topProperty(node, owner) ?? ''), inch: isInInches(node) }),
  name: nameOf(node, owner),
});

/** Options that count things. */
const WHOLE: ReadonlySet<string> = new Set(['spots', 'count', 'mesh']);

const isInInches = (node: AstNode): boolean =>
  (AstUtils.findRootNode(node) as TubFile).statements.find(isUnits)?.unit === 'in';

const WORDS: Readonly<Record<string, string>> = {
  length: 'length',
  angle: 'angle',
  radius: 'radius',
  k: 'K',
  width: 'width',
  wide: 'width of the tabs',
  deep: 'depth of the tabs',
  every: 'pitch of the tabs',
  inset: 'inset',
  margin: 'margin',
  thickness: 'thickness',
  diameter: 'diameter',
  lip: 'lip',
  raised: 'raised edge',
  level: 'level',
  target: 'end',
  lap: 'lap',
  gap: 'gap',
  sealant: 'bead',
  spots: 'number of spots',
  rate: 'flow',
  atLeast: 'least slope',
  within: 'tolerance',
  capacity: 'capacity',
  working: 'working volume',
  mesh: 'mesh',
  wire: 'wire',
  aperture: 'aperture',
  blocked: 'blocked share',
  passage: 'passage',
  count: 'count',
  x: 'x',
  y: 'y',
  z: 'z',
};

const nameOf = (node: AstNode, owner: Owner): string => {
  const owned = 'name' in owner && owner.name !== undefined ? `\`${owner.name}\`` : undefined;
  const property = topProperty(node, owner);
  if (isLet(owner)) return owned ?? 'this value';
  const word = (property && WORDS[property]) ?? 'number';
  return owned === undefined ? word : `${word} of ${owned}`;
};

/** A name for a value by where it stands: `shelfLength`, `leastSlope`; `value` where that says nothing. */
export const nameByPlace = (node: AstNode): string => {
  const owner = statementAround(node);
  const property = owner && topProperty(node, owner);
  const words = (property && WORDS[property]?.split(' ').filter((word) => word !== 'of' && word !== 'the')) || [
    'value',
  ];
  const parts = owner && 'name' in owner && owner.name !== undefined && !isShop(owner) ? [owner.name, ...words] : words;
  return parts.map((part, i) => (i === 0 ? part : part[0].toUpperCase() + part.slice(1))).join('');
};

/** The option of the statement that a number belongs to. */
const topProperty = (node: AstNode, owner: AstNode): string | undefined => {
  let at: AstNode = node;
  while (at.$container && at.$container !== owner) {
    // Inside `strainer { … }` and the like the inner option says more.
    if (WORDS[at.$containerProperty ?? ''] !== undefined && !isFraction(at.$container)) return at.$containerProperty;
    at = at.$container;
  }
  return at.$containerProperty;
};
