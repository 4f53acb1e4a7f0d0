import type { AstNode, LangiumDocument } from 'langium';
import type { InlayHintProvider } from 'langium/lsp';
import type { InlayHintParams } from 'vscode-languageserver';
import type { InlayHint, Position } from 'vscode-languageserver-types';
import { angleBetween, distance } from '../../analysis/geometry/vec.js';
import { gaugeMark } from '../../analysis/fold/bend-words.js';
import type { Parameter } from '../../analysis/model/tub.js';
import { bendGaugeWords } from '../../analysis/report/making/bends.js';
import type { Bend } from '../../analysis/shape/shape.js';
import type { Evaluation } from '../analyse.js';
import {
  isBend,
  isFlange,
  isFraction,
  isLet,
  isPanel,
  isQuantity,
  isSheet,
  isStrip,
  type Leg,
  type Statement,
  type TubFile,
} from '../generated/ast.js';
import type { TubServices } from '../services.js';
import { degrees, plain } from './plain.js';
import { settingsOf } from '../settings.js';
import { parameterWords } from './value-text.js';
import { statementsOf } from '../lower/text/statements.js';
import { wordsFor } from '../lower/text/text-units.js';

interface Wanted {
  readonly bends: boolean;
  readonly slopes: boolean;
  readonly values: boolean;
}

/** What the text implies but does not say: the angle and allowance of each bend, slopes, computed lengths and values. */
export class TubInlayHints implements InlayHintProvider {
  constructor(private readonly services: TubServices) {}

  async getInlayHints(document: LangiumDocument, { range }: InlayHintParams): Promise<InlayHint[]> {
    const wanted = await this.wanted();
    const hints = new Hints(this.services.analysis.Analyses.evaluationOf(document), wanted);
    for (const statement of statementsOf(document.parseResult.value as TubFile)) {
      const at = statement.$cstNode?.range;
      if (at && at.end.line >= range.start.line && at.start.line <= range.end.line) hints.ofStatement(statement);
    }
    return hints.found;
  }

  private async wanted(): Promise<Wanted> {
    const settings = await settingsOf<Partial<Wanted>>(this.services.shared, 'hints');
    return { bends: true, slopes: true, values: true, ...settings };
  }
}

class Hints {
  readonly found: InlayHint[] = [];
  private readonly bendsAt: ReadonlyMap<number, Bend>;
  private readonly panelsAt: ReadonlyMap<number, number>;
  private readonly valuesAt: ReadonlyMap<number, Parameter>;

  constructor(
    private readonly analysis: Evaluation,
    private readonly wanted: Wanted,
  ) {
    const { stages, tub } = analysis;
    this.bendsAt = new Map(stages.shape().bends.map((bend) => [bend.at, bend]));
    this.panelsAt = new Map(tub.panels.map((panel, i) => [panel.at, i]));
    this.valuesAt = new Map(tub.parameters.map((parameter) => [parameter.at, parameter]));
  }

  ofStatement(node: Statement): void {
    if (isLet(node)) this.value(node);
    else if (isSheet(node)) this.sheet(node);
    else if (isStrip(node)) for (const leg of node.legs ?? []) this.leg(leg);
    else if (isBend(node) || isFlange(node)) this.bend(node);
    else if (isPanel(node)) this.slope(node);
  }

  private value(node: AstNode & { readonly value?: AstNode }): void {
    const parameter = this.valuesAt.get(this.idOf(node));
    const isPlain = isQuantity(node.value) || isFraction(node.value);
    if (this.wanted.values && parameter && !isPlain) this.add(node, `= ${valueWords(parameter)}`, 'What this comes to');
  }

  private sheet(node: AstNode & { readonly gauge?: readonly number[] }): void {
    const sheet = this.analysis.tub.sheets.find(({ at }) => at === this.idOf(node));
    if (this.wanted.values && sheet?.gauge !== undefined)
      this.add(node, `${plain(sheet.thickness, 3)} mm thick`, 'From the gauge table of its material');
  }

  private leg(node: Leg): void {
    const panel = this.panelsAt.get(this.idOf(node));
    if (panel === undefined) return;
    if (this.wanted.values && node.target) {
      this.add(node, `${plain(legLength(this.analysis, panel))} mm long`, 'Length of this leg along its fall');
    }
    this.bend(node);
  }

  private bend(node: AstNode): void {
    const bend = this.bendsAt.get(this.idOf(node));
    if (this.wanted.bends && bend) this.addBend(node, bend);
  }

  private slope(node: AstNode): void {
    const panel = this.panelsAt.get(this.idOf(node));
    const face = panel === undefined ? undefined : this.analysis.stages.shape().faces[panel];
    if (!this.wanted.slopes || !face?.usable) return;
    const up = angleBetween(face.frame.normal, [0, 0, 1]);
    this.add(node, `slopes ${degrees(Math.min(up, Math.PI - up), 2)}`, 'Inclination of the wet face to level');
  }

  private addBend(node: AstNode, bend: Bend): void {
    const tooltip = `${bendGaugeWords(this.analysis.stages, bend)}; inside radius ${plain(bend.radius, 2)} mm, K ${plain(bend.kFactor, 3)} (${bend.kSource}), allowance ${plain(bend.allowance, 3)} mm, deduction ${plain(bend.deduction, 3)} mm`;
    this.add(node, `bend ${gaugeMark(bend.angle)}, allowance ${plain(bend.allowance, 2)} mm`, tooltip);
  }

  private idOf(node: AstNode): number {
    return this.analysis.sources.idOf(node);
  }

  private add(node: AstNode, label: string, tooltip: string): void {
    const position = endOf(node);
    if (!position) return;
    const [told, more] = [label, tooltip].map((words) => wordsFor(this.analysis.document, words));
    this.found.push({ position, label: told, tooltip: more, paddingLeft: true });
  }
}

const endOf = (node: AstNode): Position | undefined => node.$cstNode?.range.end;

const legLength = ({ tub }: Evaluation, panel: number): number => {
  const { corners, edgeNames } = tub.panels[panel];
  const side = edgeNames.left ?? edgeNames.right ?? 1;
  return distance(corners[side], corners[(side + 1) % corners.length]);
};

/** Shorter than in a hover where that gives two units. */
const valueWords = (parameter: Parameter): string => {
  const { value, dimension } = parameter;
  if (typeof value !== 'number') return `(${value.map((part) => plain(part, 2)).join(', ')}) mm`;
  if (dimension === 'length') return `${plain(value, 2)} mm`;
  if (dimension === 'angle') return degrees(value, 3);
  return parameterWords(parameter);
};
