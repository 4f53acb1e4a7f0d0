import { EMPTY_STREAM, MultiMap, type AstNode, type AstNodeDescription, type LocalSymbols, type Stream } from 'langium';
import {
  isGroup,
  isMirror,
  isCutter,
  isFoldingBrake,
  isPressBrake,
  isShop,
  isSpotWelder,
  isStrip,
  type Group,
  type Strip,
  type TubFile,
} from '../generated/ast.js';
import { madeGroupsOf, writtenOf } from '../made-groups.js';

/** What a reference may point to. One name may stand for a value, a thing and a sheet at once: their places differ. */
export type NameSpace = 'value' | 'thing' | 'sheet' | 'machine';

export const nameSpaceOf = (node: AstNode): NameSpace | undefined => {
  switch (node.$type) {
    case 'Let':
    case 'Point':
      return 'value';
    case 'Sheet':
      return 'sheet';
    case 'Group':
    case 'ExistingFile':
    case 'Mirror':
    case 'Panel':
    case 'Strip':
    case 'Side':
    case 'Flange':
    case 'Outlet':
    case 'Hole':
    case 'Cutout':
    case 'Slot':
    case 'Inflow':
    case 'Tank':
    case 'Zone':
      return 'thing';
    default:
      return isPressBrake(node) || isFoldingBrake(node) || isCutter(node) || isSpotWelder(node) ? 'machine' : undefined;
  }
};

/** Two nodes of one name space and one name: the second is the duplicate. */
export interface Duplicate {
  readonly first: AstNode;
  readonly second: AstNode;
  readonly name: string;
}

type Describe = (node: AstNode, name: string) => AstNodeDescription;

/** Every name of one file, by name space; looked up in constant time. */
export class NameTable implements LocalSymbols {
  readonly duplicates: Duplicate[] = [];
  /** Short names of legs that more than one strip of the file has, and of things of several groups. */
  readonly unclear = new MultiMap<string, AstNode>();
  private readonly spaces: Readonly<Record<NameSpace, Map<string, AstNodeDescription>>> = {
    value: new Map(),
    thing: new Map(),
    sheet: new Map(),
    machine: new Map(),
  };
  private readonly shorts = new Map<string, AstNodeDescription>();
  private readonly membersOfGroup = new Map<AstNode, Map<string, AstNodeDescription>>();
  private readonly legsOfStrip = new Map<AstNode, Map<string, AstNodeDescription>>();

  constructor(
    file: TubFile,
    private readonly describe: Describe,
  ) {
    for (const statement of file.statements ?? []) {
      if (!isMirror(statement)) this.addTo(nameSpaceOf(statement), statement);
      if (isStrip(statement)) this.addLegs(statement);
      if (isGroup(statement)) this.addMembers(statement);
      if (isShop(statement)) for (const machine of statement.machines ?? []) this.addTo('machine', machine);
    }
    for (const group of madeGroupsOf(file)) this.addMade(group);
    for (const name of this.unclear.keys()) this.shorts.delete(name);
  }

  get(space: NameSpace, name: string): AstNodeDescription | undefined {
    return this.spaces[space].get(name);
  }

  /** What a leg or a thing of a group is called where no other has that name. */
  short(name: string): AstNodeDescription | undefined {
    return this.shorts.get(name);
  }

  member(group: AstNode, name: string): AstNodeDescription | undefined {
    return this.membersOfGroup.get(group)?.get(name);
  }

  *members(group: AstNode): Generator<AstNodeDescription> {
    yield* this.membersOfGroup.get(group)?.values() ?? [];
  }

  leg(strip: AstNode, name: string): AstNodeDescription | undefined {
    return this.legsOfStrip.get(strip)?.get(name);
  }

  /** The names of one space that the file states itself. */
  named(space: NameSpace): Iterable<AstNodeDescription> {
    return this.spaces[space].values();
  }

  *all(space: NameSpace): Generator<AstNodeDescription> {
    yield* this.spaces[space].values();
    if (space === 'thing') yield* this.shorts.values();
  }

  *legs(strip: AstNode): Generator<AstNodeDescription> {
    yield* this.legsOfStrip.get(strip)?.values() ?? [];
  }

  has(): boolean {
    return false;
  }

  getStream(): Stream<AstNodeDescription> {
    return EMPTY_STREAM;
  }

  private addTo(space: NameSpace | undefined, node: AstNode & { readonly name?: string }): void {
    if (space === undefined || !node.name) return;
    const known = this.spaces[space].get(node.name);
    if (known) this.duplicates.push({ first: known.node!, second: node, name: node.name });
    else this.spaces[space].set(node.name, this.described(node, node.name));
  }

  private addLegs(strip: Strip): void {
    const own = new Map<string, AstNodeDescription>();
    this.legsOfStrip.set(strip, own);
    for (const leg of strip.legs ?? []) {
      if (!leg.name) continue;
      const known = own.get(leg.name);
      if (known) {
        this.duplicates.push({ first: known.node!, second: leg, name: `${strip.name}.${leg.name}` });
        continue;
      }
      own.set(leg.name, this.describe(leg, leg.name));
      this.addShort(leg);
    }
  }

  private addMembers(group: Group): void {
    const own = new Map<string, AstNodeDescription>();
    this.membersOfGroup.set(group, own);
    for (const statement of group.statements ?? []) {
      const space = nameSpaceOf(statement);
      if (space !== 'thing') this.addTo(space, statement);
      if (isStrip(statement)) this.addLegs(statement);
      const named: AstNode & { readonly name?: string } = statement;
      if (space !== 'thing' || !named.name) continue;
      const known = own.get(named.name);
      if (known) this.duplicates.push({ first: known.node!, second: statement, name: `${group.name}.${named.name}` });
      else {
        own.set(named.name, this.describe(statement, named.name));
        this.addShort(named);
      }
    }
  }

  /** Its things have no short names: those are of the group that it was made of. */
  private addMade(group: Group): void {
    this.addTo('thing', group);
    const own = new Map<string, AstNodeDescription>();
    this.membersOfGroup.set(group, own);
    for (const statement of group.statements) {
      const { name }: AstNode & { readonly name?: string } = statement;
      if (name && nameSpaceOf(statement) === 'thing' && !own.has(name)) own.set(name, this.described(statement, name));
      if (!isStrip(statement)) continue;
      const legs = statement.legs.flatMap((leg) =>
        leg.name ? [[leg.name, this.described(leg, leg.name)] as const] : [],
      );
      this.legsOfStrip.set(statement, new Map(legs));
    }
  }

  /** What was made is found by the place of what it was made of. */
  private described(node: AstNode, name: string): AstNodeDescription {
    const written = writtenOf(node);
    return written === node ? this.describe(node, name) : { ...this.describe(written, name), node, type: node.$type };
  }

  private addShort(node: AstNode & { readonly name?: string }): void {
    const name = node.name!;
    const other = this.shorts.get(name);
    if (other && !this.unclear.has(name)) this.unclear.add(name, other.node!);
    if (other) this.unclear.add(name, node);
    else this.shorts.set(name, this.describe(node, name));
  }
}
