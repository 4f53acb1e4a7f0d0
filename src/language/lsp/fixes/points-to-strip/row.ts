import { AstUtils, CstUtils, type AstNode } from 'langium';
import type { Range } from 'vscode-languageserver-types';
import type { Vec3 } from '../../../../analysis/geometry/vec.js';
import { asStrip, commonFold, type RowAsStrip } from '../../../../analysis/shape/corners/as-strip.js';
import type { Evaluation } from '../../../analyse.js';
import { isBend, isPanel, isPoint, type Bend, type Panel, type Ref } from '../../../generated/ast.js';
import { targetOf } from '../../../lower/references.js';
import { statementsOf } from '../../../lower/text/statements.js';

/** Panels by points that are one strip, in its order, and the bends between them. */
export interface Row {
  readonly panels: readonly Panel[];
  /** `bends[i]` joins panels i and i + 1. */
  readonly bends: readonly Bend[];
  readonly strip: RowAsStrip;
  readonly corners: readonly (readonly Vec3[])[];
}

/** The longest row that the statement under the cursor belongs to, or what is selected of it. */
export const rowAt = (evaluation: Evaluation, range: Range): Row | undefined => {
  const all = startsAt(evaluation, range);
  if (all.length === 0) return undefined;
  const selected = all.length > 1 && isPanel(all[1]) ? new Set(all) : undefined;
  const known = new Joined(evaluation, selected);
  const rows = ([0, 1] as const).flatMap((axis) => known.rowOf(all[0], axis) ?? []);
  return rows.reduce<Row | undefined>(
    (best, row) => (row.panels.length > (best?.panels.length ?? 1) ? row : best),
    undefined,
  );
};

/** Panels that are selected; else the one that the statement under the cursor is, joins or has as a corner. */
const startsAt = ({ document }: Evaluation, { start, end }: Range): readonly Panel[] => {
  const root = document.parseResult.value.$cstNode;
  const [from, to] = [document.textDocument.offsetAt(start), document.textDocument.offsetAt(end)];
  const statements = [...statementsOf(document.parseResult.value)];
  const touched = statements.filter(
    (each): each is Panel =>
      isPanel(each) && each.$cstNode !== undefined && each.$cstNode.offset < to && each.$cstNode.end > from,
  );
  if (to > from && touched.length > 1) return touched;
  const leaf = root && CstUtils.findLeafNodeBeforeOffset(root, from + 1);
  const node = AstUtils.getContainerOfType(leaf?.astNode, (each) => isPanel(each) || isBend(each) || isPoint(each));
  if (isPanel(node)) return [node];
  const first = isBend(node) ? targetOf(node.first) : undefined;
  if (isPanel(first)) return [first];
  if (!isPoint(node)) return [];
  return statements
    .filter(isPanel)
    .filter(({ corners }) => corners.some(({ point }) => point?.ref === node))
    .slice(0, 1);
};

/** Panels with four corners of their own, by the bends between them. */
class Joined {
  private readonly joints = new Map<Panel, { readonly bend: Bend; readonly other: Panel }[]>();
  private readonly faces: ReadonlyMap<Panel, { readonly corners: readonly Vec3[]; readonly normal: Vec3 }>;
  private readonly order: ReadonlyMap<AstNode, number>;

  constructor({ document, tub, stages, sources }: Evaluation, selected: ReadonlySet<Panel> | undefined) {
    const statements = [...statementsOf(document.parseResult.value)];
    this.order = new Map(statements.map((each, i) => [each, i]));
    const indices = new Map(tub.panels.map(({ at }, i) => [at, i]));
    const panels = statements.filter(isPanel).filter((each) => isPlain(each) && (selected?.has(each) ?? true));
    this.faces = new Map(
      panels.flatMap((panel) => {
        const face = stages.shape().faces[indices.get(sources.idOf(panel)) ?? -1];
        if (!face?.usable) return [];
        return [[panel, { corners: tub.panels[face.panel].corners, normal: face.frame.normal }] as const];
      }),
    );
    for (const bend of statements.filter(isBend)) {
      const [a, b] = [wholePanel(bend.first), wholePanel(bend.second)];
      if (!a || !b || a === b || a.$container !== b.$container || a.sheet.ref !== b.sheet.ref) continue;
      if (!this.faces.has(a) || !this.faces.has(b)) continue;
      this.joints.set(a, [...(this.joints.get(a) ?? []), { bend, other: b }]);
      this.joints.set(b, [...(this.joints.get(b) ?? []), { bend, other: a }]);
    }
  }

  rowOf(start: Panel, axis: 0 | 1): Row | undefined {
    if (!this.faces.has(start)) return undefined;
    const seen = new Set([start]);
    const [ahead, behind] = [this.walk(start, axis, seen), this.walk(start, axis, seen)];
    const panels = [...behind.map(({ other }) => other).reverse(), start, ...ahead.map(({ other }) => other)];
    const bends = [...behind.map(({ bend }) => bend).reverse(), ...ahead.map(({ bend }) => bend)];
    const isBackwards = this.order.get(panels[0])! > this.order.get(panels[panels.length - 1])!;
    if (isBackwards) [panels, bends].forEach((each) => each.reverse());
    const faces = panels.map((panel) => this.faces.get(panel)!);
    const strip = panels.length > 1 ? asStrip(faces) : undefined;
    return strip && { panels, bends, strip, corners: faces.map(({ corners }) => corners) };
  }

  /** Away from a panel, over edges that lie opposite, as far as one panel follows another. */
  private walk(start: Panel, axis: 0 | 1, seen: Set<Panel>): { readonly bend: Bend; readonly other: Panel }[] {
    const way: { readonly bend: Bend; readonly other: Panel }[] = [];
    for (let at = start; ;) {
      const next = (this.joints.get(at) ?? []).find(({ other }) => !seen.has(other) && this.fold(at, other, axis));
      if (!next) return way;
      seen.add(next.other);
      way.push(next);
      at = next.other;
    }
  }

  private fold(a: Panel, b: Panel, axis: 0 | 1): boolean {
    return commonFold(this.faces.get(a)!.corners, this.faces.get(b)!.corners, axis) !== undefined;
  }
}

/** By four corners alone: nothing that is worked out of it or said of its sides. */
const isPlain = ({ corners, flattened, metal, bed }: Panel): boolean =>
  corners.length === 4 && !flattened && metal === undefined && bed === undefined && corners.every(isFirm);

/** A point that is told `near` lies where all that was measured puts it. */
const isFirm = ({ point }: Panel['corners'][number]): boolean => !(isPoint(point?.ref) && point.ref.about);

const wholePanel = (ref: Ref | undefined): Panel | undefined => {
  const target = targetOf(ref);
  return isPanel(target) && ref?.edge === undefined && ref?.from === undefined ? target : undefined;
};
