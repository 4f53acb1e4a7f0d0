import { AstUtils, type AstNode } from 'langium';
import type { Finding } from '../../../analysis/model/finding.js';
import type { SourceId } from '../../../analysis/model/tub.js';
import type { Analysis } from '../../analyse.js';
import {
  isFraction,
  isLeg,
  isLet,
  isNamed,
  isQuantity,
  isStatement,
  isStrip,
  type Leg,
  type Let,
  type Quantity,
  type Statement,
} from '../../generated/ast.js';
import { ownPlace } from './text-fixes.js';

/** A number that stands in the text and could be another. */
export interface Literal {
  readonly node: Quantity;
  readonly at: SourceId;
  readonly value: number;
  /** `length of \`shelf\``, `\`fall\``. */
  readonly name: string;
}

/** The numbers that most likely decide a finding: those of the statement it stands at, of the values that statement uses,
 *  then of the other statements it is about. Only numbers of the open text, each once. */
export const literalsBehind = (finding: Finding, analysis: Analysis): readonly Literal[] => {
  const found = new Map<SourceId, Literal>();
  const own = statementAround(ownPlace(finding, analysis)?.node);
  const others = statementsNamed(finding.about, analysis);
  for (const statement of own ? [own, ...others] : others) {
    for (const literal of literalsOf(statement, analysis)) if (!found.has(literal.at)) found.set(literal.at, literal);
  }
  return [...found.values()];
};

type Owner = Statement | Leg;

/** A leg rather than its whole strip. */
const statementAround = (node: AstNode | undefined): Owner | undefined =>
  AstUtils.getContainerOfType(node, (each): each is Owner => isLeg(each) || isStatement(each));

const statementsNamed = (names: readonly string[], { document }: Analysis): readonly Owner[] => {
  const wanted = new Set(names.flatMap((name) => name.split(' ')));
  return (document.parseResult.value.statements ?? []).flatMap((statement): readonly Owner[] => {
    if (isStrip(statement)) return (statement.legs ?? []).filter((leg) => wanted.has(`${statement.name}.${leg.name}`));
    return 'name' in statement && statement.name !== undefined && wanted.has(statement.name) ? [statement] : [];
  });
};

const literalsOf = (owner: Owner, analysis: Analysis): readonly Literal[] => {
  const own: Literal[] = [];
  const used: Let[] = [];
  for (const node of AstUtils.streamAst(owner)) {
    if (isQuantity(node)) own.push(literal(node, owner, analysis));
    const target = isNamed(node) ? node.ref?.ref : undefined;
    if (isLet(target)) used.push(target);
  }
  return [...own, ...used.flatMap((each) => ofLet(each, analysis, 0))].filter(({ value }) => Number.isFinite(value));
};

/** A `let` may stand on others: its own numbers, and theirs. */
const ofLet = (node: Let, analysis: Analysis, depth: number): readonly Literal[] => {
  if (depth > 4 || AstUtils.getDocument(node) !== analysis.document) return [];
  return AstUtils.streamAst(node)
    .toArray()
    .flatMap((each): readonly Literal[] => {
      if (isQuantity(each)) return [literal(each, node, analysis)];
      const target = isNamed(each) ? each.ref?.ref : undefined;
      return isLet(target) && target !== node ? ofLet(target, analysis, depth + 1) : [];
    });
};

const literal = (node: Quantity, owner: Owner, { sources }: Analysis): Literal => ({
  node,
  at: sources.idOf(node),
  value: node.value,
  name: nameOf(node, owner),
});

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
  rivets: 'pitch of the rivets',
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

const nameOf = (node: Quantity, owner: Owner): string => {
  const owned = 'name' in owner && owner.name !== undefined ? `\`${owner.name}\`` : undefined;
  const property = topProperty(node, owner);
  if (isLet(owner)) return owned ?? 'this value';
  const word = (property && WORDS[property]) ?? 'number';
  return owned === undefined ? word : `${word} of ${owned}`;
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
