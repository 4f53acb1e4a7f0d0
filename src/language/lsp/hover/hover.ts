import { AstUtils, CstUtils, isLeafCstNode, type AstNode, type LangiumDocument } from 'langium';
import { GrammarAST } from 'langium';
import { AstNodeHoverProvider } from 'langium/lsp';
import type { Hover, HoverParams } from 'vscode-languageserver';
import {
  isBendReading,
  isFraction,
  isQuantity,
  isStatement,
  isLeg,
  isLegReading,
  isMachine,
  type Fraction,
  type Quantity,
} from '../../generated/ast.js';
import { wordsFor } from '../../lower/text/text-units.js';
import { units } from '../../lower/values/units.js';
import type { TubServices } from '../../services.js';
import { planBendsAt } from './plan-bends.js';
import { describeNode } from './hover-text.js';
import { plain } from '../plain.js';
import { wordMeaning } from '../word-meanings.js';

/** What a builder wants to know of the word under the pointer: numbers computed now, from this text. */
export class TubHover extends AstNodeHoverProvider {
  constructor(private readonly services: TubServices) {
    super(services);
  }

  override async getHoverContent(document: LangiumDocument, params: HoverParams): Promise<Hover | undefined> {
    const named = await super.getHoverContent(document, params);
    if (named) return named;
    const root = document.parseResult.value.$cstNode;
    const leaf = root && CstUtils.findLeafNodeAtOffset(root, document.textDocument.offsetAt(params.position));
    if (!leaf || !isLeafCstNode(leaf)) return undefined;
    const text = await this.contentOf(leaf.astNode, leaf.text, leaf.offset, leaf.grammarSource);
    return text ? { contents: { kind: 'markdown', value: text }, range: leaf.range } : undefined;
  }

  /** A number with its other unit; a statement by its first word; any other word by its meaning. */
  private async contentOf(
    node: AstNode,
    text: string,
    offset: number,
    source: GrammarAST.AbstractElement | undefined,
  ): Promise<string | undefined> {
    if (isQuantity(node) || isFraction(node)) return quantityText(node);
    const isFirstWord = node.$cstNode?.offset === offset && (isStatement(node) || isLeg(node) || isMachine(node));
    // Of a reading each word stands for all of it.
    const statement = isFirstWord || isBendReading(node) || isLegReading(node) ? await this.textOf(node) : undefined;
    const meaning = GrammarAST.isKeyword(source) || GrammarAST.isRuleCall(source) ? wordMeaning(text) : undefined;
    return [statement, meaning].filter((part) => part !== undefined).join('\n\n') || undefined;
  }

  protected override getAstNodeHoverContent(node: AstNode): Promise<string | undefined> {
    return this.textOf(node);
  }

  private async textOf(node: AstNode): Promise<string | undefined> {
    const document = AstUtils.getDocument(node);
    const evaluation = this.services.analysis.Analyses.evaluationOf(document);
    if (!(await planBendsAt(evaluation, node))) return undefined;
    const note = this.services.documentation.DocumentationProvider.getDocumentation(node);
    const text = describeNode(evaluation, node, this.services.analysis.Outcomes.of(evaluation));
    const told = text === undefined ? undefined : wordsFor(document, text);
    return [told, note].filter((part) => part !== undefined && part !== '').join('\n\n') || undefined;
  }
}

const INCH = 25.4;

const quantityText = ({ value, unit }: Quantity | Fraction): string | undefined => {
  const known = unit === undefined ? undefined : units[unit];
  if (!known || value === undefined || !Number.isFinite(value * known.factor)) return undefined;
  switch (unit) {
    case 'in':
    case 'ft':
      return `${plain(value * known.factor, 3)} mm`;
    case 'mm':
    case 'cm':
    case 'm':
      return `${plain((value * known.factor) / INCH, 4)} in`;
    case 'deg':
      return slopeText(value * known.factor);
    case 'gal':
    case 'gal/min':
      return `${plain(value * 3.785411784, 3)} ${unit === 'gal' ? 'L' : 'L/min'}`;
    case 'ton':
    case 't':
      return `${plain((value * known.factor) / 1000, 2)} kN`;
    default:
      return undefined;
  }
};

/** Nobody builds by the slope of a wall. */
const STEEPEST_SLOPE = Math.PI / 4;

const slopeText = (angle: number): string | undefined =>
  Math.abs(angle) > STEEPEST_SLOPE ? undefined : `${plain(Math.tan(angle) * 100, 2)} % slope`;
