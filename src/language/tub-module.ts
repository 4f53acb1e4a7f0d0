import { inject, type DeepPartial, type FileSystemProvider, type Module } from 'langium';
import {
  createDefaultModule,
  createDefaultSharedModule,
  type LangiumSharedServices,
  type PartialLangiumServices,
} from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import { KeptAnalyses } from './kept-analyses.js';
import { KeptOutcomes } from './solve/kept-outcomes.js';
import type { Services, TubAddedServices, TubServices } from './services.js';
import { TubGeneratedModule, TubGeneratedSharedModule } from './generated/module.js';
import { TubReferences } from './names/references.js';
import { TubScopeComputation, TubScopeProvider } from './names/scope.js';
import { SyntaxMessages } from './parser/syntax-messages.js';
import { TubCompletion } from './lsp/completion/completion.js';
import { TubFormatter } from './lsp/layout/formatter.js';
import { TubNotes } from './lsp/hover/notes.js';
import { TubHover } from './lsp/hover/hover.js';
import { TubRename } from './lsp/rename.js';
import { TubSymbols } from './lsp/outline/symbols.js';
import { editorModule, sharedEditorModule } from './lsp/editor-module.js';
import { TubLexer } from './parser/tub-lexer.js';
import { createTubParser } from './parser/tub-parser.js';
import { TubTokenBuilder, TubValueConverter } from './parser/tub-tokens.js';
import { TubUpdateHandler } from './workspace/update-handler.js';
import { TubValidator } from './diagnostics/validate.js';
import {
  TubDocumentBuilder,
  TubIndexManager,
  TubLinker,
  TubServiceRegistry,
  TubWorkspaceManager,
} from './workspace/workspace.js';

const tubModule: Module<TubServices, PartialLangiumServices & TubAddedServices> = {
  analysis: {
    Analyses: (services) => new KeptAnalyses(services.shared),
    Outcomes: () => new KeptOutcomes(),
  },
  parser: {
    LangiumParser: (services) => createTubParser(services),
    Lexer: (services) => new TubLexer(services),
    ParserErrorMessageProvider: () => new SyntaxMessages(),
    TokenBuilder: () => new TubTokenBuilder(),
    ValueConverter: () => new TubValueConverter(),
  },
  direct: {
    Linker: (services) => new TubLinker(services),
    ScopeComputation: (services) => new TubScopeComputation(services),
    ScopeProvider: (services) => new TubScopeProvider(services),
    Validator: (services) => new TubValidator(services, services.analysis.Analyses),
  },
  references: {
    References: (services) => new TubReferences(services),
    Linker: (services) => services.direct.Linker,
    ScopeComputation: (services) => services.direct.ScopeComputation,
    ScopeProvider: (services) => services.direct.ScopeProvider,
  },
  documentation: { DocumentationProvider: (services) => new TubNotes(services) },
  lsp: {
    CompletionProvider: (services) => new TubCompletion(services),
    DocumentSymbolProvider: () => new TubSymbols(),
    Formatter: () => new TubFormatter(),
    HoverProvider: (services) => new TubHover(services),
    RenameProvider: (services) => new TubRename(services),
  },
  validation: {
    DocumentValidator: (services) => services.direct.Validator,
  },
};

const sharedModule: Module<LangiumSharedServices, DeepPartial<LangiumSharedServices>> = {
  ServiceRegistry: (services) => new TubServiceRegistry(services),
  lsp: { DocumentUpdateHandler: (services) => new TubUpdateHandler(services) },
  workspace: {
    DocumentBuilder: (services) => new TubDocumentBuilder(services),
    IndexManager: (services) => new TubIndexManager(services),
    WorkspaceManager: (services) => new TubWorkspaceManager(services),
  },
};

export interface HostContext {
  readonly connection?: Connection;
  readonly fileSystemProvider: () => FileSystemProvider;
}

/** The language's services: which class serves what is said here and nowhere else. */
export const createTubServices = (context: HostContext): Services => {
  const shared = inject(createDefaultSharedModule(context), TubGeneratedSharedModule, sharedModule, sharedEditorModule);
  const tub = inject(createDefaultModule({ shared }), TubGeneratedModule, tubModule, editorModule);
  shared.ServiceRegistry.register(tub);
  return { shared, tub };
};
