import type { AstNode, LangiumDocument } from 'langium';
import { GrammarUtils } from 'langium';
import type { DocumentSymbolProvider } from 'langium/lsp';
import type { DocumentSymbol } from 'vscode-languageserver';
import { SymbolKind } from 'vscode-languageserver-types';
import { isGroup, isShop, isStrip, type TubFile } from '../../generated/ast.js';

/** The outline: every statement that names something, legs under their strip and machines under their shop. */
export class TubSymbols implements DocumentSymbolProvider {
  getSymbols(document: LangiumDocument): DocumentSymbol[] {
    return ((document.parseResult.value as TubFile).statements ?? []).flatMap((statement) =>
      symbolOf(statement, childrenOf(statement)),
    );
  }
}

type Named = AstNode & { readonly name?: string };

const childrenOf = (statement: Named): readonly Named[] =>
  isStrip(statement)
    ? (statement.legs ?? [])
    : isShop(statement)
      ? (statement.machines ?? [])
      : isGroup(statement)
        ? (statement.statements ?? [])
        : [];

const kinds: Readonly<Record<string, SymbolKind>> = {
  TubName: SymbolKind.Module,
  Let: SymbolKind.Constant,
  Sheet: SymbolKind.Struct,
  Group: SymbolKind.Namespace,
  ExistingFile: SymbolKind.Namespace,
  Mirror: SymbolKind.Namespace,
  Strip: SymbolKind.Class,
  Leg: SymbolKind.Method,
  Side: SymbolKind.Interface,
  Panel: SymbolKind.Interface,
  Flange: SymbolKind.Interface,
  Point: SymbolKind.Field,
  Outlet: SymbolKind.Event,
  Hole: SymbolKind.Property,
  Cutout: SymbolKind.Property,
  Slot: SymbolKind.Property,
  Bend: SymbolKind.Operator,
  Seam: SymbolKind.Operator,
  Tank: SymbolKind.Object,
  Zone: SymbolKind.Object,
  Shop: SymbolKind.Package,
  Path: SymbolKind.Array,
  Inflow: SymbolKind.Event,
  Variant: SymbolKind.Module,
};

const symbolOf = (node: Named, children: readonly Named[]): DocumentSymbol[] => {
  const cst = node.$cstNode;
  const label = labelOf(node);
  if (!cst || !label) return [];
  const name = GrammarUtils.findNodeForProperty(cst, 'name');
  return [
    {
      name: label,
      detail: detailOf(node),
      kind: kinds[node.$type] ?? SymbolKind.Field,
      range: cst.range,
      selectionRange: name?.range ?? cst.range,
      children: children.flatMap((child) => symbolOf(child, childrenOf(child))),
    },
  ];
};

/** Bends, seams and paths are known by what they join. */
const labelOf = (node: Named): string | undefined => {
  if (node.name) return node.name;
  if (node.$type !== 'Bend' && node.$type !== 'Seam' && node.$type !== 'Path') return undefined;
  return node.$cstNode?.text.split('{')[0].replace(/\s+/g, ' ').trim();
};

/** The first word: what kind of thing it is. */
const detailOf = (node: Named): string => (node.name ? (/^[a-z]+/.exec(node.$cstNode?.text ?? '')?.[0] ?? '') : '');
