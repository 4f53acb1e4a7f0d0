import { CstUtils, type LangiumDocument } from 'langium';
import type { LangiumSharedServices } from 'langium/lsp';
import { DefaultLanguageServer } from 'langium/lsp';
import type { InitializeParams, InitializeResult } from 'vscode-languageserver';
import { asksForFindings } from '../../diagnostics/answer-asked.js';
import { CODE_ACTION_KINDS } from '../code-actions.js';
import type { Position, SelectionRange } from 'vscode-languageserver-types';

/** The default server, which also says which kinds of actions it knows, and that it can widen selections, link the places of a name and be asked for findings. */
export class TubLanguageServer extends DefaultLanguageServer {
  protected override buildInitializeResult(params: InitializeParams): InitializeResult {
    const result = super.buildInitializeResult(params);
    const codeActionProvider = { codeActionKinds: [...CODE_ACTION_KINDS], resolveProvider: true };
    const diagnosticProvider = { identifier: 'tubwright', interFileDependencies: true, workspaceDiagnostics: false };
    return {
      ...result,
      capabilities: {
        ...result.capabilities,
        codeActionProvider,
        selectionRangeProvider: true,
        linkedEditingRangeProvider: true,
        ...(asksForFindings(params) && { diagnosticProvider }),
      },
    };
  }
}

/** Answers selection requests; to be called before the connection listens. */
export const serveSelectionRanges = (services: LangiumSharedServices): void => {
  services.lsp.Connection?.onSelectionRanges(({ textDocument, positions }) => {
    const document = services.workspace.LangiumDocuments.all.find(({ uri }) => uri.toString() === textDocument.uri);
    return document ? positions.map((position) => selectionAt(document, position)) : null;
  });
};

/** From the word at the position outwards: value, option, statement, block, whole text. Each range holds the one before. */
export const selectionAt = (document: LangiumDocument, position: Position): SelectionRange => {
  const text = document.textDocument;
  const whole: SelectionRange = {
    range: { start: { line: 0, character: 0 }, end: text.positionAt(text.getText().length) },
  };
  const root = document.parseResult.value.$cstNode;
  const leaf = root && CstUtils.findLeafNodeAtOffset(root, text.offsetAt(position));
  const ranges: { readonly start: number; readonly end: number }[] = [];
  for (
    let node = leaf as { offset: number; end: number; container?: unknown } | undefined;
    node;
    node = node.container as typeof node
  ) {
    const last = ranges[ranges.length - 1];
    if (!last || node.offset < last.start || node.end > last.end) ranges.push({ start: node.offset, end: node.end });
  }
  let selection: SelectionRange = whole;
  // The outermost is the whole file without its last blank lines: the whole text stands for it.
  for (const { start, end } of ranges.slice(0, -1).reverse()) {
    selection = { range: { start: text.positionAt(start), end: text.positionAt(end) }, parent: selection };
  }
  return selection;
};
