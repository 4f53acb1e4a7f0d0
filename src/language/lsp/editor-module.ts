import type { DeepPartial, Module } from 'langium';
import type { LangiumSharedServices, PartialLangiumServices } from 'langium/lsp';
import type { TubServices } from '../services.js';
import { TubCodeActions } from './code-actions.js';
import { TubCodeLenses } from './code-lens.js';
import { TubDocumentLinks } from './outline/document-links.js';
import { TubFolding } from './outline/folding.js';
import { TubInlayHints } from './inlay-hints.js';
import { TubLanguageServer } from './outline/selection-ranges.js';
import { TubSemanticTokens } from './outline/semantic-tokens.js';
import { TubWorkspaceSymbols } from './outline/workspace-symbols.js';
import { TubSignatureHelp } from './signature-help.js';
import { TubFileRenames } from '../workspace/file-renames.js';
import { TubSettings } from '../settings.js';

/** What only an editor asks for, beyond names, hovers, completion and formatting. */
export const editorModule: Module<TubServices, PartialLangiumServices> = {
  lsp: {
    CodeActionProvider: (services) => new TubCodeActions(services),
    CodeLensProvider: (services) => new TubCodeLenses(services),
    DocumentLinkProvider: (services) => new TubDocumentLinks(services),
    FoldingRangeProvider: (services) => new TubFolding(services),
    InlayHintProvider: (services) => new TubInlayHints(services),
    SignatureHelp: () => new TubSignatureHelp(),
    SemanticTokenProvider: (services) => new TubSemanticTokens(services),
  },
};

export const sharedEditorModule: Module<LangiumSharedServices, DeepPartial<LangiumSharedServices>> = {
  lsp: {
    FileOperationHandler: (services) => new TubFileRenames(services),
    LanguageServer: (services) => new TubLanguageServer(services),
    WorkspaceSymbolProvider: (services) => new TubWorkspaceSymbols(services),
  },
  workspace: { ConfigurationProvider: (services) => new TubSettings(services) },
};
