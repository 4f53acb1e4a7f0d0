import { EMPTY_STREAM, MultiMap, type AstNode, type AstNodeDescription, type LocalSymbols, type Stream } from 'langium';
import {
  isCutter,
  isFoldingBrake,
  isPressBrake,
  isShop,
  isSpotWelder,
  isStrip,
  type Leg,
  type Strip,
  type TubFile,
} from '../generated/ast.js';

/** What a reference may point to. One name may stand for a value, a thing and a sheet at once: their places differ. */
export type NameSpace = 'value' | 'thing' | 'sheet' | 'machine';

export const nameSpaceOf = (node: AstNode): NameSpace | undefined => {
  switch (node.$type) {
    case 'Let':
    case 'Point':
      return 'value';
    case 'Sheet':
      return 'sheet';
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
  /** Short names of legs that more than one strip of the file has. */
  readonly unclear = new MultiMap<string, Leg>();
  private readonly spaces: Readonly<Record<NameSpace, Map<string, AstNodeDescription>>> = {
    value: new Map(),
    thing: new Map(),
    sheet: new Map(),
    machine: new Map(),
  };
  private readonly shortLegs = new Map<string, AstNodeDescription>();
  private readonly legsOfStrip = new Map<AstNode, Map<string, AstNodeDescription>>();

  constructor(
    file: TubFile,
    private readonly describe: Describe,
  ) {
    for (const statement of file.statements ?? []) {
      this.addTo(nameSpaceOf(statement), statement);
      if (isStrip(statement)) this.addLegs(statement);
      if (isShop(statement)) for (const machine of statement.machines ?? []) this.addTo('machine', machine);
    }
    for (const name of this.unclear.keys()) this.shortLegs.delete(name);
  }

  get(space: NameSpace, name: string): AstNodeDescription | undefined {
    return this.spaces[space].get(name);
  }

  shortLeg(name: string): AstNodeDescription | undefined {
    return this.shortLegs.get(name);
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
    if (space === 'thing') yield* this.shortLegs.values();
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
    else this.spaces[space].set(node.name, this.describe(node, node.name));
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
      const description = this.describe(leg, leg.name);
      own.set(leg.name, description);
      const other = this.shortLegs.get(leg.name);
      if (other && !this.unclear.has(leg.name)) this.unclear.add(leg.name, other.node as Leg);
      if (other) this.unclear.add(leg.name, leg);
      else this.shortLegs.set(leg.name, description);
    }
  }
}
