/** Groups that `mirror` and `repeat` make: the statements of a group once more, under the name of the new group. */
import type { AstNode, Reference } from 'langium';
import { limits } from '../analysis/model/limits.js';
import {
  isGroup,
  isLeg,
  isMirror,
  isPoint,
  isRepeat,
  isSheet,
  isStrip,
  type Group,
  type GroupStatement,
  type Mirror,
  type Ref,
  type Repeat,
  type TubFile,
} from './generated/ast.js';

/** What a node was made of. Its numbers are those of the original, its references those to its own kin. */
export interface Making<T extends AstNode = AstNode> {
  readonly original: T;
  readonly statement: Mirror | Repeat;
  /** How often the step of a `repeat` is taken; 1 for a mirror. */
  readonly steps: number;
  /** Counts what the statement makes: above 0, each its own. */
  readonly serial: number;
}

const makings = new WeakMap<AstNode, Making>();
const groupsOfFile = new WeakMap<TubFile, Made>();

interface Made {
  readonly groups: readonly Group[];
  /** Those that would make more than there may be, with how much there would be. */
  readonly tooMany: ReadonlyMap<Mirror | Repeat, number>;
}

/** Undefined for what the text itself states. */
export const makingOf = <T extends AstNode>(node: T): Making<T> | undefined =>
  makings.get(node) as Making<T> | undefined;

/** What the text states: the node itself, that of which it was made, or the statement that made a group. */
export const writtenOf = (node: AstNode): AstNode => {
  const making = makings.get(node);
  if (!making) return node;
  return isGroup(node) ? making.statement : writtenOf(making.original);
};

/** The groups that the statements of a file make, in their order; the same objects at each call. */
export const madeGroupsOf = (file: TubFile): readonly Group[] => madeOf(file).groups;

/** How many statements a file would have made again with this one; undefined where that is within the limit. */
export const excessOf = (file: TubFile, statement: Mirror | Repeat): number | undefined =>
  madeOf(file).tooMany.get(statement);

/** How often a group is to stand: a whole number from 2 on; undefined for any other. */
export const countOf = ({ count }: Repeat): number | undefined =>
  Number.isInteger(count) && count >= 2 && count <= limits.repeats.atMost ? count : undefined;

const madeOf = (file: TubFile): Made => {
  const known = groupsOfFile.get(file);
  if (known) return known;
  const made = makeAll(file);
  groupsOfFile.set(file, made);
  return made;
};

/** A group may be made of one that was made before it. */
const makeAll = (file: TubFile): Made => {
  const known = new Map<string, Group>();
  for (const statement of file.statements ?? []) {
    if (isGroup(statement) && statement.name && !known.has(statement.name)) known.set(statement.name, statement);
  }
  const groups: Group[] = [];
  const tooMany = new Map<Mirror | Repeat, number>();
  let total = 0;
  for (const statement of file.statements ?? []) {
    if (!isMirror(statement) && !isRepeat(statement)) continue;
    const original = known.get(statement.group?.$refText ?? '');
    const names = original ? namesOf(statement, original) : [];
    const count = names.length * (original ? sizeOf(original) : 0);
    if (total + count > limits.made.atMost) {
      tooMany.set(statement, total + count);
      continue;
    }
    total += count;
    let serial = 0;
    names.forEach((name, i) => {
      const copier = new Copier(statement, i + 1, serial);
      const made = copier.group(original!, file, name);
      serial = copier.serial;
      groups.push(made);
      if (!known.has(name)) known.set(name, made);
    });
  }
  return { groups, tooMany };
};

/** Statements and legs: each becomes a panel, a seam or a row of holes. */
const sizeOf = ({ statements = [] }: Group): number =>
  statements.reduce((sum, each) => sum + 1 + (isStrip(each) ? (each.legs ?? []).length : 0), 1);

const namesOf = (statement: Mirror | Repeat, { name }: Group): readonly string[] => {
  if (isMirror(statement)) return statement.name ? [statement.name] : [];
  return Array.from({ length: (countOf(statement) ?? 1) - 1 }, (_, i) => `${name}${i + 2}`);
};

/** What holds references, or is referred to; all else (numbers, places) is read at the original. */
const COPIED: ReadonlySet<string> = new Set([
  'Strip',
  'Leg',
  'Side',
  'Panel',
  'Flange',
  'Bend',
  'Rim',
  'Seam',
  'Hole',
  'Cutout',
  'Slot',
  'Ref',
  'Lap',
  'Tabs',
  'Rivets',
  'SeamBolts',
]);

type Fields = Record<string, unknown>;

class Copier {
  private readonly copies = new Map<AstNode, AstNode>();

  constructor(
    private readonly statement: Mirror | Repeat,
    private readonly steps: number,
    public serial: number,
  ) {}

  group(original: Group, file: TubFile, name: string): Group {
    const made = { ...original, name, $container: file, $cstNode: this.statement.$cstNode } as Group;
    this.note(original, made);
    const shapes = (original.statements ?? []).filter((each) => !isSheet(each) && !isPoint(each));
    (made as unknown as Fields)['statements'] = shapes.map((each) => this.copy(each, made) as GroupStatement);
    return made;
  }

  private note(original: AstNode, made: AstNode): void {
    this.copies.set(original, made);
    makings.set(made, { original, statement: this.statement, steps: this.steps, serial: ++this.serial });
  }

  private copy(original: AstNode, container: AstNode): AstNode {
    const made: Fields = { ...original, $container: container };
    this.note(original, made as unknown as AstNode);
    for (const [key, value] of Object.entries(original)) {
      if (key.startsWith('$')) continue;
      made[key] = Array.isArray(value) ? value.map((each: unknown) => this.part(each, made)) : this.part(value, made);
    }
    if (original.$type === 'Ref') this.turnHand(original as Ref, made);
    return made as unknown as AstNode;
  }

  private part(value: unknown, made: Fields): unknown {
    if (isNode(value)) return COPIED.has(value.$type) ? this.copy(value, made as unknown as AstNode) : value;
    return isReferenceLike(value) ? this.toKin(value) : value;
  }

  /** To the copy of what the original refers to, where that has one; looked up when it is asked for. */
  private toKin(reference: Reference): Reference {
    const { copies } = this;
    return {
      $refText: reference.$refText,
      $refNode: reference.$refNode,
      get ref(): AstNode | undefined {
        const target = reference.ref;
        return target && (copies.get(target) ?? target);
      },
      get $nodeDescription() {
        return reference.$nodeDescription;
      },
    } as Reference;
  }

  /** In a mirror the left end of what lies across it is the right one. */
  private turnHand(original: Ref, made: Fields): void {
    const { statement, copies } = this;
    Object.defineProperty(made, 'edge', {
      enumerable: true,
      get(): Ref['edge'] {
        const { edge } = original;
        if ((edge !== 'left' && edge !== 'right') || !isMirror(statement)) return edge;
        const target = original.leg2?.ref ?? original.leg?.ref ?? original.target?.ref;
        if (!target || !copies.has(target) || !changesHand(target, statement)) return edge;
        return edge === 'left' ? 'right' : 'left';
      },
    });
  }
}

/** Left and right of a strip are as the builder sees them, of a flange as seen on its wet face from its root. */
export const changesHand = (target: AstNode, { axis }: Mirror): boolean => {
  const strip = isLeg(target) ? target.$container : target;
  if (!isStrip(strip)) return target.$type === 'Flange';
  return axis === (strip.across === 'left' || strip.across === 'right' ? 'x' : 'y');
};

const isNode = (value: unknown): value is AstNode =>
  typeof value === 'object' && value !== null && typeof (value as Partial<AstNode>).$type === 'string';

const isReferenceLike = (value: unknown): value is Reference =>
  typeof value === 'object' && value !== null && typeof (value as Partial<Reference>).$refText === 'string';
