import { AstUtils, type AstNode } from 'langium';
import type { Vec3 } from '../../analysis/geometry/vec.js';
import { limits } from '../../analysis/model/limits.js';
import type { SourceId, Tub } from '../../analysis/model/tub.js';
import type { Shape } from '../../analysis/shape/shape.js';
import type { Drawing } from '../../analysis/model/drawing.js';
import type { ThingMesh } from '../../analysis/model/around/thing.js';
import type { MeshFault } from '../../analysis/solid/bodies/read-stl.js';
import {
  isUnits,
  type ExistingFile,
  type Expression,
  type Let,
  type Point,
  type Ref,
  type TubFile,
} from '../generated/ast.js';
import { Reports } from './text/report.js';
import { SourceTable, type TubDocument } from './text/sources.js';
import { units } from './values/units.js';
import type { Face, PanelNode, Value } from './values/values.js';

/** Numbers to take instead of those that the text states, by the node that states one and in its own unit. */
export type Numbers = ReadonlyMap<AstNode, number>;

export const AS_WRITTEN: Numbers = new Map();

const LONGEST_CHAIN = limits.chain.atMost;

/** Another tub as it is folded, and its panels, which may be named. */
export interface FoldedThing extends Pick<Tub, 'panels' | 'sheets'> {
  readonly mesh: ThingMesh;
  readonly faces: Shape['faces'];
}

/** What the file of a statement holds: a mesh, a tub or drawn lines, in the file's own unit and frame, or what is wrong with it. */
export type Things = ReadonlyMap<ExistingFile, ThingMesh | FoldedThing | Drawing | MeshFault | 'missing'>;

/** What evaluates what, handed in: values need faces, faces need values. */
export interface Solvers {
  readonly evaluate: (lowering: Lowering, expression: Expression | undefined) => Value | undefined;
  readonly valueOf: (lowering: Lowering, node: Let | Point) => Value | undefined;
  readonly faceOf: (lowering: Lowering, node: PanelNode) => Face | undefined;
  /** Where a point is that is only told about, by all that was measured. */
  readonly placeNear: (lowering: Lowering, point: Point) => Vec3 | undefined;
  readonly middleOf: (lowering: Lowering, panel: Ref) => Vec3 | undefined;
}

/** What is judged by numbers that nobody stated, as those that were stated are refused. */
export interface StandIns {
  /** Names of sheets. */
  readonly sheets: ReadonlySet<string>;
  /** An outlet is left out. */
  readonly lacksOutlet: boolean;
}

/**
 * One evaluation of a text: what is known so far, by statement. Everything is evaluated when first asked for, in
 * whatever order the text has it, so that a point may stand on the middle of a panel that is stated below it.
 */
export class Lowering {
  readonly sheetsWithStandIns = new Set<string>();
  lacksOutlet = false;
  readonly reports = new Reports();
  readonly sources: SourceTable;
  readonly things: Things;
  private readonly known = new Map<AstNode, { readonly value: unknown }>();
  private readonly kept = new Map<symbol, Map<AstNode, unknown>>();
  private readonly open: { readonly node: AstNode; readonly label: string }[] = [];
  private readonly bareFactors = new Map<AstNode, number | undefined>();

  constructor(
    readonly documents: readonly TubDocument[],
    private readonly numbers: Numbers,
    readonly solve: Solvers,
    /** Values to take instead of those that statements state. */
    private readonly instead: ReadonlyMap<Let, Expression> = new Map(),
    /** The table of places that is shared with another evaluation, and what the files of existing things hold. */
    { sources, things = new Map() }: { readonly sources?: SourceTable; readonly things?: Things } = {},
  ) {
    this.things = things;
    this.sources = sources ?? new SourceTable(documents);
  }

  /** What a `let` stands for. */
  expressionOf(node: Let): Expression | undefined {
    return this.instead.get(node) ?? node.value;
  }

  get files(): readonly TubFile[] {
    return this.documents.map((document) => document.parseResult.value);
  }

  idOf(node: AstNode, property?: string, index?: number): SourceId {
    return this.sources.idOf(node, property, index);
  }

  /** The number that a node states, or what is to be taken instead. */
  literal(node: AstNode, written: number): number {
    return this.numbers.get(node) ?? written;
  }

  /** The one value of an option that the grammar lets stand anywhere; stating it twice is reported. */
  only<T>(node: AstNode, property: string, values: readonly T[] | undefined, words = property): T | undefined {
    if (values && values.length > 1) {
      this.reports.add(
        'text/stated-twice',
        this.idOf(node, property, 1),
        `\`${words}\` is stated ${values.length} times here; it needs to be stated once`,
        {
          related: [{ at: this.idOf(node, property), message: 'First stated here' }],
          values: { has_count: values.length, needs_count: 1 },
        },
      );
    }
    return values?.[0];
  }

  /** mm of a bare length in the file of `node`, by its `units`; undefined when it states none. */
  bareLengthIn(node: AstNode): number | undefined {
    const root = AstUtils.findRootNode(node) as TubFile;
    if (!this.bareFactors.has(root)) {
      const statement = (root.statements ?? []).find(isUnits);
      // Where the unit itself cannot be read, that is said; the lengths are then taken as mm.
      this.bareFactors.set(root, statement && (units[statement.unit]?.factor ?? 1));
    }
    return this.bareFactors.get(root);
  }

  /** The value of a statement, computed once. A statement that needs itself is reported with the whole way round. */
  once<T>(node: AstNode, label: string, compute: () => T | undefined): T | undefined {
    const known = this.known.get(node);
    if (known) return known.value as T | undefined;
    const start = this.open.findIndex((entry) => entry.node === node);
    if (start >= 0) return this.reportCycle(start);
    if (this.open.length >= LONGEST_CHAIN) return this.reportLongChain(node, label);
    this.open.push({ node, label });
    const value = compute();
    this.open.pop();
    this.known.set(node, { value });
    return value;
  }

  /** What was computed of a statement under that key; computed when first asked for. It may not need itself. */
  keep<T>(key: symbol, node: AstNode, compute: () => T): T {
    let known = this.kept.get(key);
    if (!known) this.kept.set(key, (known = new Map()));
    if (!known.has(node)) known.set(node, compute());
    return known.get(node) as T;
  }

  private reportCycle(start: number): undefined {
    const round = this.open.slice(start);
    const names = [...round, round[0]].map((entry) => `\`${entry.label}\``).join(' -> ');
    const first = round.reduce((a, b) => (this.idOf(a.node) <= this.idOf(b.node) ? a : b));
    this.reports.add('let/cycle', this.idOf(first.node), `\`${first.label}\` is made from itself: ${names}`, {
      about: round.map((entry) => entry.label),
      related: round.map((entry) => ({ at: this.idOf(entry.node), message: `\`${entry.label}\` is one of the round` })),
    });
    return undefined;
  }

  private reportLongChain(node: AstNode, label: string): undefined {
    this.reports.add(
      'let/too-long-a-chain',
      this.idOf(node),
      `\`${label}\` stands at the end of ${LONGEST_CHAIN} statements that each need one further down; state them in the order they build on each other`,
      { about: [label], values: { chain_count: LONGEST_CHAIN } },
    );
    return undefined;
  }
}
